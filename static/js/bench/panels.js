/**
 * The panels over the page: what is different, where we were, and what the server refused.
 */
import { eventWords } from "./eventWords.js";
import { each } from "./show.js";

/** @typedef {import("./outbox.js").Kept} Kept */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Prompt} Prompt */

/**
 * @param {HTMLElement} root
 * @param {string} name
 * @returns {any} a popover; any, because older type libraries do not know them
 */
export function panel(root, name) {
  return root.querySelector(`#${name}`);
}

/**
 * Offer what makes sense at this prompt, its line and its portion chosen.
 * @param {HTMLElement} root
 * @param {Prompt} prompt
 */
export function fitDifferent(root, prompt) {
  const form = /** @type {HTMLFormElement} */ (root.querySelector("form.different"));
  /** @type {HTMLInputElement} */ (form.querySelector("[name=prompt]")).value = prompt.key;
  each(form, "[data-tile]", (tile) => (tile.hidden = !prompt.changes.includes(tile.dataset.tile ?? "")));
  choose(form, "line", prompt.line);
  choose(form, "portion", prompt.portion);
}

/**
 * @param {HTMLFormElement} form
 * @param {string} name
 * @param {string} value
 */
function choose(form, name, value) {
  const select = /** @type {HTMLSelectElement | null} */ (form.querySelector(`select[name=${name}]`));
  if (select) select.value = value;
}

/**
 * Untick why and what was decided: every kind of change has answers of its own, and one of another kind would be sent.
 * @param {HTMLElement} root
 */
export function forgetAnswers(root) {
  each(root, "form.different :is([name=why], [name=decision])", (answer) => {
    /** @type {HTMLInputElement} */ (answer).checked = false;
  });
}

/**
 * Offer only stand-ins of the same kind as the line that is replaced.
 * @param {HTMLElement} root
 * @param {Plan} plan
 */
export function wireStandIns(root, plan) {
  const lines = /** @type {HTMLSelectElement} */ (root.querySelector("[data-line-choice]"));
  const materials = /** @type {HTMLSelectElement} */ (root.querySelector("[data-material-choice]"));
  const fit = () => {
    const group = plan.lines.find(({ key }) => key === lines.value)?.group ?? "";
    const kind = group === "carrier" ? "fat" : group;
    for (const option of materials.options) option.hidden = Boolean(option.dataset.kind && kind && option.dataset.kind !== kind);
  };
  lines.addEventListener("change", fit);
  each(root, "form.different [name=what]", (tile) => tile.addEventListener("change", () => forgetAnswers(root)));
  root.querySelector("#different")?.addEventListener("toggle", fit);
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
  each(row, "button", (button) => (button.dataset.order = String(event.order)));
  return row;
}
