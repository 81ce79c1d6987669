/**
 * Degrees and minutes turned up and down with large keys; typing stays possible.
 */
import { parse } from "./entry.js";
import { each } from "./show.js";

/**
 * @param {HTMLElement} dial
 * @param {() => number} start where the first turn starts from, while nothing is typed
 */
export function wireDial(dial, start) {
  const input = /** @type {HTMLInputElement} */ (dial.querySelector("[data-number]"));
  each(dial, "[hidden]", (keys) => (keys.hidden = false));
  dial.addEventListener("click", (event) => {
    const key = /** @type {Element} */ (event.target).closest("[data-turn], [data-set]");
    if (!(key instanceof HTMLElement)) return;
    const turned = Math.max(0, (parse(input.value) ?? start()) + Number(key.dataset.turn));
    input.value = key.dataset.set ?? String(turned);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
}
