/**
 * What the split, adding and pour prompts show of the portions as they really are, without a network.
 */
import { shown } from "./entry.js";
import { each } from "./show.js";
import { lateAct } from "./timers.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const LOOK_EVERY_MS = 5000;

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wirePortions({ root, plan, view }) {
  const grams = (/** @type {number} */ mass) => shown(mass, plan.decimals);
  const leadOn = () =>
    each(root, ".timer-act", (button) => (button.dataset.stepOf = nextPour(plan, view(), button.dataset.portion ?? "")));
  setInterval(() => {
    showLate(root, view());
    leadOn();
  }, LOOK_EVERY_MS);
  return (now) => {
    each(root, "[data-with-tare]", (figure) => {
      const target = now.targets[`portion:${figure.dataset.withTare}`];
      if (target !== undefined) figure.textContent = grams(target + Number(figure.dataset.tare));
    });
    each(root, "[data-take]", (box) => showTaking(box, now.takings[box.dataset.take ?? ""], grams));
    each(root, "[data-pour]", (figure) => {
      const mass = now.portions_g[figure.dataset.pour ?? ""];
      if (mass !== undefined) figure.textContent = (mass * Number(figure.dataset.share)).toFixed(0);
    });
    showLate(root, now);
    leadOn();
  };
}

/**
 * @param {import("./types.js").Plan} plan
 * @param {View} view
 * @param {string} letter
 * @returns {string} key of the next stage that this portion goes into
 */
function nextPour(plan, view, letter) {
  const isNext = (/** @type {import("./types.js").Prompt} */ { key, kind, letters }) =>
    kind === "pour" && !(key in view.done) && letters.includes(letter);
  return plan.prompts.find(isNext)?.key ?? view.current;
}

/**
 * @param {HTMLElement} box
 * @param {import("./types.js").Taking | undefined} taking
 * @param {(mass: number) => string} grams
 */
function showTaking(box, taking, grams) {
  box.hidden = !taking;
  if (!taking) return;
  const [isShort, isAll] = [taking.share < 1, taking.take_g === taking.of_g];
  const put = (/** @type {string} */ name, /** @type {string} */ text) =>
    each(box, `[data-take-${name}]`, (element) => (element.textContent = text));
  const show = (/** @type {string} */ name, /** @type {boolean} */ isShown) =>
    each(box, `[data-take-${name}]`, (element) => (element.hidden = !isShown));
  put("g", grams(taking.take_g));
  put("of", grams(taking.of_g));
  put("share", (100 * taking.share).toFixed(0));
  show("all", isAll && !isShort);
  show("part", !isAll);
  show("short", isShort);
}

/**
 * Say at its pour that a portion is overdue, and what to do with it.
 * @param {HTMLElement} root
 * @param {View} view
 */
function showLate(root, view) {
  const list = /** @type {HTMLElement} */ (root.querySelector("[data-timers]"));
  for (const timer of view.timers) {
    const act = timer.portion ? lateAct(timer, Date.now()) : "";
    if (!act) continue;
    each(root, `[data-late-of="${timer.portion}"]`, (words) => {
      words.hidden = false;
      words.textContent = (act === "spoon" ? list.dataset.spoonWord : list.dataset.pourWord) ?? "";
    });
  }
}
