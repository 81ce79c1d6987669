/**
 * The fields of one kind of change: filled with this prompt's line and portion, and with what belongs together.
 */
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./types.js").Prompt} Prompt */

const FIRST_MINUTES = 5;

/**
 * Empty the form, then choose what the prompt is about.
 * @param {HTMLFormElement} form
 * @param {Prompt} prompt
 */
export function forget(form, prompt) {
  each(form, "input:not([type=hidden], [type=radio])", (input) => (/** @type {HTMLInputElement} */ (input).value = ""));
  each(form, "[type=radio]", (radio) => (/** @type {HTMLInputElement} */ (radio).checked = false));
  /** @type {HTMLInputElement} */ (form.querySelector("[name=prompt]")).value = prompt.key;
  choose(form, "by", "");
  choose(form, "line", prompt.line);
  choose(form, "portion", prompt.line ? "" : prompt.portion);
  each(form, "[data-about]", (about) => about.toggleAttribute("open", !valueOf(form, "line") && !prompt.portion));
  each(form, "[data-form-trouble], [data-what-if], .notice[role=alert]", (notice) => (notice.hidden = true));
  fitFields(form);
}

/**
 * @param {HTMLFormElement} form
 * @param {string} name
 * @param {string} value
 */
function choose(form, name, value) {
  each(form, `[type=radio][name=${name}]`, (radio) => {
    const one = /** @type {HTMLInputElement} */ (radio);
    if (one.value === value) one.checked = true;
  });
}

/**
 * @param {HTMLFormElement} form
 * @param {string} name
 * @returns {string}
 */
function valueOf(form, name) {
  const found = /** @type {any} */ (form.elements.namedItem(name)); // a FormData of the whole form is slow to make
  const isUnchosen = found instanceof HTMLInputElement && found.type === "radio" && !found.checked;
  return found && !isUnchosen ? String(found.value) : "";
}

/**
 * Show only what suits the rest: stand-ins of the line's kind, drawings of the tool, portions when it is the batter.
 * @param {HTMLFormElement} form
 */
export function fitFields(form) {
  const line = /** @type {HTMLInputElement | null} */ (form.querySelector("[name=line]:checked"));
  each(form, "[data-about-words]", (words) => (words.textContent = line?.dataset.name ?? "–"));
  each(form, "[data-portions]", (field) => {
    field.hidden = Boolean(line?.value);
    if (field.hidden) choose(form, "portion", "");
  });
  offer(form, "[data-materials] [data-kind]", (chip) => !line || chip.dataset.kind === line.dataset.kind);
  each(form, "[data-no-material]", (words) => (words.hidden = Boolean(form.querySelector("[data-materials] [data-kind]:not([hidden])"))));
  const tool = valueOf(form, "tool");
  offer(form, "[data-made-by]", (chip) => !tool || (chip.dataset.madeBy ?? "").split(" ").includes(tool));
}

/**
 * @param {HTMLFormElement} form
 * @param {string} selector of chips
 * @param {(chip: HTMLElement) => boolean} suits
 */
function offer(form, selector, suits) {
  each(form, selector, (chip) => {
    chip.hidden = !suits(chip);
    const radio = /** @type {HTMLInputElement} */ (chip.querySelector("input"));
    if (chip.hidden) radio.checked = false;
  });
}

/**
 * Return where a number starts from while nothing is typed: the target, the last reading, a few minutes.
 * @param {Room} room
 * @param {HTMLFormElement} form
 * @param {string} name
 * @returns {number}
 */
export function startOf({ plan, view, shown }, form, name) {
  const now = view();
  if (name === "minutes") return FIRST_MINUTES;
  if (name === "mass_g") {
    const line = valueOf(form, "line");
    return form.dataset.change === "lost or spilt" ? 0 : (now.weights[line]?.mass_g ?? now.targets[line] ?? 0);
  }
  const prompt = plan.prompts.find(({ key }) => key === shown());
  const read = now.readings.filter(({ pot }) => !prompt?.pot || pot === prompt.pot).at(-1);
  return Math.round(read?.temp_c ?? prompt?.high_c ?? 40);
}
