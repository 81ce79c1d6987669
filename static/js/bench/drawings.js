/**
 * Offers the drawings that the batter still takes: it thickens while the page stands there.
 */
import { isBorne, timeUsed, traceNow } from "./batter.js";
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireDrawings({ root, view }) {
  root.querySelector("#drawings")?.addEventListener("toggle", () => offer(root, view()));
  return (now) => offer(root, now);
}

/**
 * @param {HTMLElement} root
 * @param {View} view
 */
function offer(root, view) {
  each(root, "[data-drawings]", (list) => {
    const at = { stiffer: Number(list.dataset.stifferAt), thick: Number(list.dataset.thickAt) };
    const hasThickened = view.log.some(({ kind, payload }) => kind === "changed" && payload.what === "thickened early");
    if (!view.trace && !hasThickened) return;
    const now = hasThickened ? "thick" : traceNow(view.trace, timeUsed(view.timers, Date.now()), at);
    each(root, "[data-trace-now]", (word) => (word.textContent = now));
    each(list, "[data-bears]", (drawing) => (drawing.hidden = !isBorne(drawing.dataset.bears ?? "", now)));
    each(list, "[data-not-borne]", (line) => (line.hidden = isBorne(line.dataset.notBorne ?? "", now)));
  });
}
