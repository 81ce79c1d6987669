/**
 * Puts where the run stands onto the page: which prompt, its figures, the list of all prompts. Reads nothing back.
 */
import { shown } from "./entry.js";
import { eventWords } from "./eventWords.js";
import { toGo } from "./parts.js";

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Plan} Plan */

const STANDS = ["now", "done", "ahead", "skipped"];

/**
 * @param {ParentNode} root
 * @param {string} selector
 * @param {(element: HTMLElement) => void} act
 */
export function each(root, selector, act) {
  for (const element of root.querySelectorAll(selector)) act(/** @type {HTMLElement} */ (element));
}

/**
 * @param {View} view
 * @param {string} key of a prompt
 * @returns {"now" | "done" | "ahead" | "skipped"}
 */
function standOf(view, key) {
  if (key in view.done) return "done";
  if (key in view.skipped) return "skipped";
  return key === view.current ? "now" : "ahead";
}

/**
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {View} view
 * @param {string} prompt key of the prompt to show
 */
export function show(root, plan, view, prompt) {
  each(root, "[data-prompt]", (section) => {
    const key = section.dataset.prompt ?? "";
    section.hidden = key !== prompt;
    setStand(section, standOf(view, key));
  });
  each(root, "[data-step-of]", (step) => showStep(step, view));
  each(root, "[data-number-of]", (element) => {
    const at = plan.prompts.findIndex(({ key }) => key === prompt);
    element.textContent = String(at < 0 ? plan.prompts.length : at + 1); // a run that has ended stands after the last
  });
  showFigures(root, plan, view);
  showStandIns(root, plan, view);
  showTicks(root, view);
  showSettlement(root, view);
  showLast(root, plan, view);
}

/**
 * @param {HTMLElement} element
 * @param {string} stand
 */
function setStand(element, stand) {
  if (element.classList.contains(`is-${stand}`)) return; // what does not change costs the browser nothing
  element.classList.remove(...STANDS.map((name) => `is-${name}`));
  element.classList.add(`is-${stand}`);
}

/**
 * @param {HTMLElement} step
 * @param {View} view
 */
function showStep(step, view) {
  const stand = standOf(view, step.dataset.stepOf ?? "");
  setStand(step, stand);
  if (stand === "now") step.setAttribute("aria-current", "step");
  else step.removeAttribute("aria-current");
  const words = step.querySelector("[data-stand-word]");
  const word = step.closest("[data-stand-words]")?.getAttribute(`data-${stand}`);
  if (words && word) words.textContent = word;
}

/**
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {View} view
 */
function showFigures(root, plan, view) {
  const grams = (/** @type {number} */ mass) => shown(mass, plan.decimals);
  each(root, "[data-target]", (figure) => showTarget(figure, asked(view, figure.dataset.target), grams));
  each(root, "[data-target-value]", (input) => {
    const target = asked(view, input.dataset.targetValue);
    if (target !== undefined) /** @type {HTMLInputElement} */ (input).value = String(target);
  });
  each(root, "[data-tolerance]", (element) => {
    const tolerance = view.tolerances[element.dataset.tolerance ?? ""];
    if (tolerance !== undefined) element.textContent = grams(tolerance);
  });
  each(root, "[data-pot]", (element) => (element.textContent = grams(view.pot_g)));
  each(root, "[data-portion]", (element) => {
    const target = view.targets[`portion:${element.dataset.portion}`];
    if (target !== undefined) element.textContent = grams(target);
  });
  each(root, "[data-weighed]", (element) => {
    const weight = view.weights[element.dataset.weighed ?? ""];
    element.hidden = !weight;
    const figure = element.querySelector("strong");
    if (weight && figure) figure.textContent = grams(weight.mass_g);
  });
}

/**
 * @param {View} view
 * @param {string} [line]
 * @returns {number | undefined} grams still to weigh
 */
function asked(view, line = "") {
  return line in view.targets ? toGo(view, line) : undefined;
}

/**
 * Say at its own prompt what is used instead, and from which lot it is weighed.
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {View} view
 */
function showStandIns(root, plan, view) {
  each(root, "[data-instead]", (notice) => {
    const line = plan.lines.find(({ key }) => key === notice.dataset.instead);
    const used = view.used_instead[notice.dataset.instead ?? ""];
    if (!line) return;
    notice.hidden = !used;
    each(notice, "[data-instead-name]", (name) => (name.textContent = used ? plan.names[used.material] : ""));
    const [lot, code] = used ? (plan.own_lots[used.material] ?? [null, "–"]) : [line.lot, null];
    const section = /** @type {HTMLElement} */ (notice.closest("[data-prompt]"));
    each(section, "[name=lot]", (input) => (/** @type {HTMLInputElement} */ (input).value = String(used?.lot ?? lot ?? "")));
    if (code) each(section, "[data-lot-code]", (element) => (element.textContent = code));
  });
}

/**
 * @param {HTMLElement} figure
 * @param {number | undefined} target
 * @param {(mass: number) => string} grams
 */
function showTarget(figure, target, grams) {
  if (target === undefined) return;
  const [whole, part] = grams(target).split(".");
  const [wholeAt, partAt] = [figure.querySelector("[data-whole]"), figure.querySelector("[data-part]")];
  if (wholeAt) wholeAt.textContent = whole;
  if (partAt && part) partAt.textContent = `.${part}`;
}

/**
 * @param {HTMLElement} root
 * @param {View} view
 */
function showTicks(root, view) {
  each(root, "[data-tick]", (button) => {
    const isHere = view.ticked[button.dataset.tick ?? ""] ?? false;
    button.setAttribute("aria-pressed", String(isHere));
    const next = button.closest("form")?.querySelector("[name=is_here]");
    if (next) /** @type {HTMLInputElement} */ (next).value = String(!isHere);
  });
}

/**
 * @param {HTMLElement} root
 * @param {View} view
 */
function showSettlement(root, view) {
  const sentence = view.waiting ? "" : view.server.settlement_sentence;
  each(root, "[data-settlement-sentence]", (element) => (element.textContent = sentence));
}

/**
 * @param {HTMLElement} root
 * @param {Plan} plan
 * @param {View} view
 */
function showLast(root, plan, view) {
  const words = eventWords(plan, view.log.find(({ id }) => id === view.last_event));
  each(root, "[data-last-event]", (input) => (/** @type {HTMLInputElement} */ (input).value = view.last_event));
  each(root, "[data-take-back]", (button) => (/** @type {HTMLButtonElement} */ (button).disabled = !view.last_event));
  each(root, "[data-last-words], [data-resume-last]", (element) => (element.textContent = words));
  const bars = view.log.filter(({ kind }) => kind === "cut").at(-1)?.payload.bars;
  each(root, "[data-cut-bars]", (input) => (/** @type {HTMLInputElement} */ (input).value ||= String(bars ?? "")));
}
