/**
 * What the server alone can tell of the batch: its superfat, and what can still be done when it is off.
 */
import { each } from "./show.js";

/** @typedef {import("./session.js").View} View */

/**
 * @param {HTMLElement} root
 * @param {View} view
 */
export function showRemedies(root, { server }) {
  const isOff = server.remedies.length > 0;
  each(root, "[data-superfat]", (line) => {
    line.textContent = server.superfat_sentence;
    line.hidden = isOff;
  });
  each(root, "[data-remedies]", (box) => {
    box.hidden = !isOff;
    box.classList.toggle("is-stop", server.is_lye_heavy);
    box.classList.toggle("is-attention", !server.is_lye_heavy);
    each(box, "[data-remedies-superfat]", (line) => (line.textContent = server.superfat_sentence));
    each(box, "[data-remedies-list]", (list) => list.replaceChildren(...server.remedies.map(row)));
  });
}

/**
 * @param {{title: string, sentence: string}} remedy
 * @returns {HTMLElement}
 */
function row({ title, sentence }) {
  const item = document.createElement("li");
  const name = document.createElement("strong");
  name.textContent = `${title}. `;
  item.append(name, sentence);
  return item;
}
