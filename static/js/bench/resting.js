/**
 * The resting loaf on the page: its window by the clock, and what a soft one waits for.
 */
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const PARTS = new Intl.DateTimeFormat(document.documentElement.lang || undefined, {
  day: "numeric",
  month: "short",
  hour: "2-digit",
  minute: "2-digit",
  hourCycle: "h23",
});

/**
 * @param {string} moment
 * @returns {string} "26 Nov, 08:12", as the server writes it
 */
function clock(moment) {
  const parts = Object.fromEntries(PARTS.formatToParts(new Date(moment)).map(({ type, value }) => [type, value]));
  return `${parts.day} ${parts.month}, ${parts.hour}:${parts.minute}`;
}

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireRest({ root }) {
  return (view) => {
    const moments = /** @type {Record<string, string | null | undefined>} */ ({
      due_at: view.due_at,
      "rest.latest": view.rest?.latest,
    });
    each(root, "[data-clock]", (element) => {
      const moment = moments[element.dataset.clock ?? ""];
      if (moment) element.textContent = clock(moment);
    });
    each(root, ".is-wait [data-due] time", (element) => {
      if (view.due_at) element.textContent = clock(view.due_at);
    });
    each(root, "[data-rest]", (box) => (box.hidden = !view.rest));
    each(root, "[data-rest-sentence]", (words) => (words.textContent = view.rest?.sentence ?? ""));
    each(root, "[data-rest-ask]", (form) => (form.hidden = view.rest?.gel === "yes"));
    each(root, "[data-soft]", (notice) => (notice.hidden = !view.pressed_at));
  };
}
