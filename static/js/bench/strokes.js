/**
 * One stroke at a time, large; nothing of it is recorded.
 */
import { each } from "./show.js";

/** @param {import("./room.js").Room} room */
export function wireStrokes({ root }) {
  const fit = () => each(root, "[data-stroke-turn]", (turn) => (turn.hidden = Number(pictureOf(turn)?.dataset.strokes ?? 0) < 2));
  fit();
  root.addEventListener("click", (event) => {
    const button = /** @type {Element} */ (event.target).closest("[data-stroke-step]");
    if (button instanceof HTMLElement) step(button);
  });
  return fit;
}

/**
 * @param {Element} inside
 * @returns {HTMLElement | null}
 */
function pictureOf(inside) {
  return inside.closest(".draw-now")?.querySelector("[data-strokes]") ?? null;
}

/** @param {HTMLElement} button */
function step(button) {
  const picture = pictureOf(button);
  const counter = button.closest("[data-stroke-turn]")?.querySelector("[data-stroke-now]");
  if (!picture || !counter) return;
  const isBegun = picture.classList.contains("is-one-by-one");
  const wanted = isBegun ? Number(counter.textContent) + Number(button.dataset.strokeStep) : 1;
  const at = Math.min(Number(picture.dataset.strokes), Math.max(1, wanted));
  counter.textContent = String(at);
  picture.classList.add("is-one-by-one");
  each(picture, ".is-shown", (one) => one.classList.remove("is-shown"));
  each(picture, `.stroke-${at}, .number-${at}`, (one) => one.classList.add("is-shown"));
}
