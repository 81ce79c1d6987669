/**
 * The ways out that the server has worked out, each a form with one big button; and the place for a reason.
 */
import { shown as inDecimals } from "./entry.js";
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */
/**
 * @typedef {{kind: string, title: string, sentence: string, fields: [string, string | number][], figures: string,
 *   tone: string, word: string, bar: [number, number, number]}} Way
 */

const NUMBERS = ["factor", "lye_share"];

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireWays({ root, plan, shown }) {
  const template = /** @type {HTMLTemplateElement} */ (root.querySelector("[data-out-template]"));
  const panel = root.querySelector("#outs");
  panel?.addEventListener("toggle", () => (panel.scrollTop = 0));
  let last = "";
  return (view) => {
    const { server, waiting } = view;
    tellPourPart(root, plan, view);
    each(root, "[data-to-do]", (place) => (place.hidden = !server.to_do));
    each(root, "[data-to-do-words]", (words) => (words.textContent = server.to_do));
    const ways = /** @type {Way[]} */ (server.ways);
    each(root, "[data-off]", (box) => (box.hidden = !server.off_words || waiting > 0)); // what is on its way may settle it
    each(root, "[data-remedies]", (box) => {
      box.classList.toggle("is-stop", server.is_lye_heavy);
      box.classList.toggle("is-attention", !server.is_lye_heavy);
    });
    each(root, "[data-superfat]", (line) => {
      line.textContent = server.superfat_sentence;
      line.hidden = ways.length > 0 && !waiting;
    });
    each(root, "[data-off-words]", (words) => (words.textContent = server.off_words));
    each(root, "[data-has-outs]", (place) => (place.hidden = ways.length === 0));
    const now = JSON.stringify(ways);
    if (now !== last) each(root, "[data-outs]", (list) => list.replaceChildren(...ways.map((way) => row(template, way))));
    last = now;
    each(root, "[data-outs] [name=prompt], [data-why-form] [name=prompt]", (input) => {
      /** @type {HTMLInputElement} */ (input).value = shown();
    });
    askWhy(root, waiting ? null : server.ask_why);
  };
}

/**
 * @param {HTMLElement} root
 * @param {import("./types.js").Plan} plan
 * @param {View} view
 */
function tellPourPart(root, plan, view) {
  const made = plan.jug.reduce((sum, key) => sum + (view.weights[key]?.mass_g ?? 0), 0);
  const grams = (/** @type {number} */ mass) => inDecimals(mass, plan.decimals);
  each(root, "[data-pour-part]", (place) => (place.hidden = view.lye_share >= 1));
  each(root, "[data-pour-part-words]", (words) => (words.textContent = `${grams(made * view.lye_share)} / ${grams(made)} g`));
}

/**
 * @param {HTMLTemplateElement} template
 * @param {Way} way
 * @returns {Node}
 */
function row(template, way) {
  const made = /** @type {DocumentFragment} */ (template.content.cloneNode(true));
  const put = (/** @type {string} */ name, /** @type {string} */ text) =>
    each(made, `[data-out-${name}]`, (place) => (place.textContent = text));
  put("title", way.title);
  put("sentence", way.sentence);
  put("superfat", way.figures);
  put("word", way.word);
  each(made, "[data-out-figures]", (place) => (place.hidden = !way.figures));
  each(made, "[data-out]", (item) => item.classList.toggle(`is-${way.tone || "plain"}`, true));
  each(made, "form", (form) => (form.dataset.event = way.kind));
  each(made, "[name=kind]", (input) => (/** @type {HTMLInputElement} */ (input).value = way.kind));
  each(made, "[data-out-fields]", (place) => place.replaceChildren(...way.fields.map(field)));
  const bar = made.querySelector("[data-out-bar]");
  if (bar) draw(bar, way);
  return made;
}

/**
 * @param {[string, string | number]} field
 * @returns {HTMLInputElement}
 */
function field([name, value]) {
  const input = document.createElement("input");
  input.type = "hidden";
  input.name = name;
  input.value = String(value);
  if (NUMBERS.includes(name)) input.dataset.number = "";
  return input;
}

/**
 * @param {Element} bar
 * @param {Way} way
 */
function draw(bar, { figures, bar: [start, width, at] }) {
  bar.toggleAttribute("hidden", !figures);
  bar.querySelector(".is-range")?.setAttribute("x", String(start));
  bar.querySelector(".is-range")?.setAttribute("width", String(width));
  bar.querySelector(".is-at")?.setAttribute("d", `M${at} 0V20`);
}

/**
 * @param {HTMLElement} root
 * @param {{line: string, name: string, gap: string, mass_g: number, whys: string[]} | null} ask
 */
function askWhy(root, ask) {
  each(root, "[data-why-form]", (form) => (form.hidden = !ask));
  if (!ask) return;
  each(root, "[data-why-line]", (input) => (/** @type {HTMLInputElement} */ (input).value = ask.line));
  each(root, "[data-why-mass]", (input) => (/** @type {HTMLInputElement} */ (input).value = String(ask.mass_g)));
  each(root, "[data-whys]", (place) => place.replaceChildren(...ask.whys.map(whyKey)));
}

/**
 * @param {string} why
 * @returns {HTMLButtonElement}
 */
function whyKey(why) {
  const button = document.createElement("button");
  button.className = "big";
  button.name = "why";
  button.value = why;
  button.textContent = why;
  return button;
}
