/**
 * What the server alone can tell of the batch: its superfat, what can still be done when it is off, when both pots
 * will be in the window.
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
  each(root, "[data-cooling-sentence]", (line) => {
    line.textContent = server.cooling_sentence;
    line.hidden = !server.cooling_sentence;
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
