/**
 * "Something is different": the kinds that make sense at this prompt, then one screen with few fields.
 */
import { wireDial } from "./dial.js";
import { fitFields, forget, startOf } from "./differentFields.js";
import { wireKeypad } from "./keypad.js";
import { panel } from "./panels.js";
import { each } from "./show.js";
import { lookAhead } from "./whatIf.js";

/** @typedef {import("./room.js").Room} Room */

/** @param {Room} room */
export function wireDifferent(room) {
  const { root, plan, shown } = room;
  const box = panel(root, "different");
  const title = /** @type {HTMLElement} */ (box.querySelector("h2"));
  const asked = title.textContent ?? "";
  title.tabIndex = -1;
  const prompt = () => plan.prompts.find(({ key }) => key === shown());
  each(box, "form.change", (form) => wireForm(room, /** @type {HTMLFormElement} */ (form)));

  /** @param {string} kind "" for the tiles */
  function open(kind) {
    each(box, "[data-change-tiles]", (tiles) => (tiles.hidden = kind !== ""));
    each(box, "form.change", (form) => (form.hidden = form.dataset.change !== kind));
    const form = box.querySelector("form.change:not([hidden])");
    if (form instanceof HTMLFormElement) step(form, form.querySelector("[data-next]") ? "fields" : "answers");
    title.textContent = form instanceof HTMLFormElement ? (form.dataset.title ?? "") : asked;
    title.focus({ preventScroll: true });
  }

  /** Begin anew for the prompt on the screen. */
  function begin() {
    const now = prompt();
    if (!now) return;
    each(box, "[data-tile]", (tile) => (tile.hidden = !now.changes.includes(tile.dataset.tile ?? "")));
    each(box, "form.change", (form) => forget(/** @type {HTMLFormElement} */ (form), now));
  }

  root.addEventListener("click", (event) => {
    const target = /** @type {Element} */ (event.target);
    const opener = target.closest("button[data-different]");
    const tile = target.closest(".change-tiles [data-tile], [data-other-kind]");
    if (opener instanceof HTMLElement) begin();
    if (opener instanceof HTMLElement) open(opener.dataset.different ?? "");
    if (!(tile instanceof HTMLElement)) return;
    event.preventDefault();
    begin();
    open(tile.dataset.tile ?? "");
  });
}

/**
 * @param {Room} room
 * @param {HTMLFormElement} form
 */
function wireForm(room, form) {
  each(form, "[data-entry]", (entry) => wireKeypad(entry, () => startOf(room, form, "mass_g"), () => {}));
  each(form, "[data-dial]", (dial) => {
    const name = /** @type {HTMLInputElement} */ (dial.querySelector("[data-number]")).name;
    wireDial(dial, () => startOf(room, form, name));
  });
  each(form, ".change-go, [data-back]", (way) => (way.hidden = false));
  each(form, "[data-next]", (button) => button.addEventListener("click", () => void goOn(room, form)));
  each(form, "[data-back]", (button) => button.addEventListener("click", () => step(form, "fields")));
  form.addEventListener("change", () => fitFields(form));
  for (const touched of ["input", "click"]) {
    form.addEventListener(touched, () => each(form, "[data-fields-trouble]", (trouble) => (trouble.hidden = true)));
  }
  fitFields(form);
}

/**
 * From the fields to the answers, once the fields hold.
 * @param {Room} room
 * @param {HTMLFormElement} form
 */
async function goOn(room, form) {
  const wrong = await lookAhead(room, form);
  each(form, "[data-fields-trouble]", (trouble) => {
    trouble.hidden = !wrong;
    trouble.textContent = wrong;
    if (wrong) trouble.scrollIntoView({ block: "center" });
  });
  if (!wrong) step(form, "answers");
}

/**
 * @param {HTMLFormElement} form
 * @param {"fields" | "answers"} name
 */
function step(form, name) {
  each(form, "[data-change-step]", (part) => (part.hidden = part.dataset.changeStep !== name));
  form.closest(".panel")?.scrollTo({ top: 0 });
}
