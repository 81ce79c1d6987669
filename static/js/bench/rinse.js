/**
 * The rinse timer: counts 30 minutes down, then up. It is a moment in the log, so closing the panel or the page does
 * not stop it; it goes on here even where nothing can be stored.
 */
import { benchTime } from "./clock.js";
import { each } from "./show.js";
import { words } from "./timers.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const RINSE_MS = 30 * 60_000;

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireRinse({ root, view, record }) {
  const box = /** @type {HTMLElement} */ (root.querySelector("[data-rinse]"));
  const figure = /** @type {HTMLElement} */ (box.querySelector("[data-rinse-left]"));
  const said = /** @type {HTMLElement} */ (box.querySelector("[data-rinse-words]"));
  /** @type {number | null} */
  let here = null; // began on this page, should the log not take it

  const began = () => (view().rinsing_since ? Date.parse(view().rinsing_since ?? "") : here);
  const paint = () => {
    const since = began();
    figure.textContent = since === null ? "30:00" : words(RINSE_MS - (benchTime() - since));
    said.textContent = since === null ? (box.dataset.still ?? "") : (box.dataset.runs ?? "");
    each(box, "form", (form) => (form.hidden = form.matches("[data-rinse-begin]") === (since !== null)));
  };
  box.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation();
    const runs = /** @type {HTMLElement} */ (event.target).dataset.rinseForm === "true";
    const where = event.submitter instanceof HTMLButtonElement ? event.submitter.value : "";
    here = runs ? (began() ?? benchTime()) : null;
    paint();
    void record("rinsed", { is_running: runs, where });
  });
  setInterval(() => began() !== null && paint(), 1000);
  return paint;
}
