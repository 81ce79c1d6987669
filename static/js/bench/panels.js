/**
 * The panels over the page: where we were, and what the server refused.
 */
import { eventWords } from "./eventWords.js";
import { each } from "./show.js";

/** @typedef {import("./outbox.js").Kept} Kept */
/** @typedef {import("./types.js").Plan} Plan */

/**
 * @param {HTMLElement} root
 * @param {string} name
 * @returns {any} a popover; any, because older type libraries do not know them
 */
export function panel(root, name) {
  return root.querySelector(`#${name}`);
}

/**
 * Say honestly whether everything is saved, and show what was refused.
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {readonly Kept[]} kept
 * @param {"" | "offline" | "sign in" | "full"} trouble
 */
export function showSign(root, plan, kept, trouble) {
  const refused = kept.filter((event) => event.refused);
  const waiting = kept.length - refused.length;
  const sign = /** @type {HTMLElement} */ (root.querySelector("[data-sign]"));
  const needsYou = refused.length > 0 || trouble === "sign in" || trouble === "full";
  const text = needsYou ? sign.dataset.needs : waiting ? sign.dataset.waiting?.replace("0", String(waiting)) : sign.dataset.saved;
  each(sign, "[data-sign-words]", (element) => (element.textContent = text ?? ""));
  sign.classList.toggle("is-stop", needsYou);
  sign.classList.toggle("is-attention", !needsYou && waiting > 0);
  each(root, "[data-needs-words]", (element) => (element.textContent = text ?? ""));
  each(root, "[data-needs-sign-in]", (element) => (element.hidden = trouble !== "sign in"));
  each(root, "[data-needs-full]", (element) => (element.hidden = trouble !== "full"));
  const list = /** @type {HTMLElement} */ (root.querySelector("[data-refused]"));
  list.replaceChildren(...refused.map((event) => refusedRow(root, plan, event)));
}

/**
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {Kept} event
 * @returns {Node}
 */
function refusedRow(root, plan, event) {
  const template = /** @type {HTMLTemplateElement} */ (root.querySelector("[data-refused-template]"));
  const row = /** @type {DocumentFragment} */ (template.content.cloneNode(true));
  const put = (/** @type {string} */ name, /** @type {string} */ text) =>
    each(row, `[data-refused-${name}]`, (element) => (element.textContent = text));
  put("what", eventWords(plan, event));
  put("sentence", event.refused);
  each(row, "[data-refused-file]", (link) => offerFile(/** @type {HTMLAnchorElement} */ (link), event));
  each(row, "button", (button) => (button.dataset.order = String(event.order)));
  return row;
}

/**
 * A file that was refused is not lost: it can be saved outside of the page.
 * @param {HTMLAnchorElement} link
 * @param {Kept} event
 */
function offerFile(link, { file, payload }) {
  link.hidden = !file;
  if (!file) return;
  link.href = URL.createObjectURL(new Blob([file.bytes], { type: file.media }));
  link.download = `${payload.what}.${file.media.split("/")[1]}`;
}
