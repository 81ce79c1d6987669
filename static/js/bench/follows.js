/**
 * What follows from changes: from the one just written down, with a way back, and from earlier ones at this prompt.
 */
import { noticesOf } from "./notices.js";
import { each } from "./show.js";

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Plan} Plan */

/**
 * Show it as long as nothing else has happened since; without a network say that it comes later.
 * @param {HTMLElement} root
 * @param {View} view
 */
export function showFollows(root, view) {
  const box = root.querySelector("[data-follows]");
  if (!(box instanceof HTMLElement)) return;
  const last = view.changes.find(({ event }) => event === view.last_event);
  const known = view.server.changes.find((/** @type {{event: string}} */ { event }) => event === view.last_event);
  box.hidden = !last;
  each(box, "[data-follows-words]", (words) => (words.textContent = known?.effect ?? box.dataset.later ?? ""));
  each(box, "[data-follows-event]", (input) => (/** @type {HTMLInputElement} */ (input).value = last?.event ?? ""));
}

/**
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {View} view
 */
export function showNotices(root, plan, view) {
  const found = noticesOf(plan, view);
  each(root, "[data-notices]", (list) => {
    const notices = found[/** @type {HTMLElement} */ (list.closest("[data-prompt]")).dataset.prompt ?? ""] ?? [];
    list.hidden = notices.length === 0;
    list.replaceChildren(...notices.map(row));
  });
}

/**
 * @param {import("./notices.js").Notice} notice
 * @returns {HTMLElement}
 */
function row({ at, sentence }) {
  const item = document.createElement("li");
  const time = document.createElement("time");
  time.dateTime = at;
  time.textContent = new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  item.append(time, ` ${sentence}`);
  return item;
}
