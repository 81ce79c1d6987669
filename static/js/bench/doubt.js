/**
 * The question that a typed weight raises, over the keypad: read again, or it is right.
 */
import { each } from "./show.js";

/** @typedef {import("./weighing.js").Doubt} Doubt */

/**
 * Ask about a weight that looks wrong; answer whether it may be recorded now.
 * @param {HTMLFormElement} form
 * @param {readonly Doubt[]} found
 * @param {Set<string>} answered codes that the maker has answered with yes; grows with each answer
 * @returns {boolean}
 */
export function isCertain(form, found, answered) {
  const box = form.querySelector("[data-doubt]");
  if (!(box instanceof HTMLElement)) return true;
  const doubts = found.filter(({ code }) => !answered.has(code));
  box.hidden = doubts.length === 0;
  each(box, "[data-doubt-sentence]", (words) => (words.textContent = doubts.map(({ sentence }) => sentence).join(" ")));
  each(box, "[data-doubt-yes]", (button) => {
    button.onclick = () => {
      for (const { code } of doubts) answered.add(code);
      box.hidden = true;
      form.requestSubmit();
    };
  });
  each(box, "[data-doubt-again]", (button) => {
    button.onclick = () => {
      box.hidden = true;
      each(form, "[data-entry] input", (input) => (/** @type {HTMLInputElement} */ (input).value = ""));
    };
  });
  return doubts.length === 0;
}
