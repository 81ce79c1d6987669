/**
 * The rinse timer: counts 30 minutes down, then up; closing the panel or the page does not stop it.
 */
import { benchTime } from "./clock.js";
import { mark, setMark } from "./store.js";
import { words } from "./timers.js";

const RINSE_MS = 30 * 60_000;

/**
 * @param {HTMLElement} box
 * @param {string} run
 * @param {(text: string) => void} note writes a remark into the run
 */
export function wireRinse(box, run, note) {
  const form = /** @type {HTMLFormElement} */ (box.querySelector("[data-rinse-form]"));
  const button = /** @type {HTMLElement} */ (box.querySelector("[data-rinse-button]"));
  const figure = /** @type {HTMLElement} */ (box.querySelector("[data-rinse-left]"));
  const [start, stop] = [button.textContent ?? "", box.dataset.stopWord ?? "Stop"];
  /** @type {number | undefined} */
  let began;

  const paint = () => {
    button.textContent = began ? stop : start;
    figure.textContent = began ? words(RINSE_MS - (benchTime() - began)) : "30:00";
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation();
    note(began ? `First aid: rinsing ended after ${words(benchTime() - began)}.` : "First aid: rinsing began.");
    began = began ? undefined : benchTime();
    setMark(`rinse:${run}`, began).catch(() => {});
    paint();
  });
  mark(`rinse:${run}`).then(
    (kept) => {
      began ??= kept;
      paint();
    },
    () => {},
  );
  setInterval(() => began && paint(), 1000);
}
