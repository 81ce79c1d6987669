/**
 * What a typed weight would do, beside the keypad while it is typed; and a part of a line when less is typed.
 */
import { parse, shown } from "./entry.js";
import { toGo } from "./parts.js";
import { soFarOf } from "./remedied.js";
import { each } from "./show.js";
import { setMark } from "./store.js";
import { outlook } from "./superfat.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Plan} Plan */

const HAIR = 1e-9;
const HALF = 0.5;

/**
 * @param {number} share
 * @returns {string} "5.0", with a real minus sign
 */
export function points(share) {
  const said = (Math.round(share * 1000) / 10 + 0).toFixed(1);
  return (said === "-0.0" ? "0.0" : said).replace("-", "−");
}

/**
 * @param {Plan} plan
 * @param {View} view
 * @param {Line} line
 * @param {number} typed grams on the scale now
 * @returns {{words: string, is: "" | "off" | "stop"}}
 */
export function deviation(plan, view, line, typed) {
  const gap = Number((typed - toGo(view, line.key)).toFixed(6));
  if (Math.abs(gap) < plan.resolution_g / 2) return { words: "", is: "" };
  const sign = `${gap > 0 ? "+" : ""}${shown(gap, plan.decimals)} g`;
  if (typed < HALF * toGo(view, line.key)) return { words: sign, is: "" }; // half a number, or a part of the line
  const before = outlook(plan, view);
  const after = outlook(plan, view, { [line.key]: soFarOf(view, line.key) + typed });
  const isOff = Math.abs(gap) > (view.tolerances[line.key] ?? line.tolerance_g) + HAIR;
  const effect = effectOf(line, before, after);
  const isCaustic = after.superfat !== null && after.superfat < 0 && line.group !== "water";
  return { words: effect ? `${sign} → ${effect}` : sign, is: isOff ? (isCaustic ? "stop" : "off") : "" };
}

/**
 * @param {Line} line
 * @param {import("./superfat.js").Outlook} before
 * @param {import("./superfat.js").Outlook} after
 * @returns {string}
 */
function effectOf(line, before, after) {
  if (line.group === "water" || line.group === "liquid") {
    return change("lye", before.strength, after.strength);
  }
  return change("superfat", before.superfat, after.superfat) + (after.superfat !== null && after.superfat < 0 ? ", lye-heavy" : "");
}

/**
 * @param {string} name
 * @param {number | null} before
 * @param {number | null} after
 */
function change(name, before, after) {
  if (before === null || after === null || points(before) === points(after)) return "";
  return `${name} ${points(before)} → ${points(after)} %`;
}

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireDeviation({ root, runId, plan, view }) {
  const look = () => each(root, "[data-prompt]:not([hidden]) [data-deviation]", (place) => tell(place, plan, view()));
  root.addEventListener("click", look);
  root.addEventListener("input", look);
  root.addEventListener("click", chooseKind, { capture: true });
  const parts = /** @type {Record<string, number>} */ ({});
  return (now) => {
    each(root, "[data-part-key]", (key) => emptyAfterPart(key, now, parts, runId));
    each(root, "[data-so-far]", (item) => tellSoFar(item, plan, now));
    each(root, "[data-gross]", (item) => tellGross(item, plan, now));
    each(root, "[data-parts-advice]", (notice) => tellAdvice(notice, now));
    look();
  };
}

/**
 * The same form ends a line or keeps a part of it: its button says which.
 * @param {Event} event
 */
function chooseKind(event) {
  const key = /** @type {Element} */ (event.target).closest(".weigh-entry [data-send], .weigh-entry [data-part-key], [data-doubt-yes]");
  const form = key?.closest("form");
  if (!(key instanceof HTMLElement) || !(form instanceof HTMLElement) || !form.querySelector("[data-part-key]")) return;
  form.dataset.event = key.matches("[data-part-key]") ? "part-weighed" : "weighed";
}

/** @param {Element} inside */
function lineOf(inside) {
  const form = inside.closest("form");
  return /** @type {HTMLInputElement | null} */ (form?.querySelector("[name=line]") ?? null)?.value ?? "";
}

/**
 * @param {HTMLElement} place
 * @param {Plan} plan
 * @param {View} view
 */
function tell(place, plan, view) {
  const form = /** @type {HTMLElement} */ (place.closest("form"));
  const input = /** @type {HTMLInputElement | null} */ (form.querySelector("[data-entry] [data-number]"));
  const line = plan.lines.find(({ key }) => key === place.dataset.deviation);
  const typed = parse(input?.value ?? "");
  const found = line && typed ? deviation(plan, view, line, typed) : { words: "", is: "" };
  const less = line && typed ? toGo(view, line.key) - typed : 0;
  const isPart = Boolean(line) && less > (view.tolerances[line?.key ?? ""] ?? 0);
  if (place.textContent !== found.words) place.textContent = found.words;
  place.classList.toggle("is-off", found.is === "off");
  place.classList.toggle("is-stop", found.is === "stop");
  each(form, "[data-part-key]", (key) => key.classList.toggle("is-wanted", isPart));
  each(form, "[data-part-to-go]", (words) => (words.textContent = isPart ? shown(less, plan.decimals) : ""));
  each(form, "[data-part-words]", (words) => (words.hidden = !isPart));
}

/**
 * @param {HTMLElement} key
 * @param {View} view
 * @param {Record<string, number>} known number of parts by line
 * @param {string} runId
 */
function emptyAfterPart(key, view, known, runId) {
  const line = lineOf(key);
  const count = view.parts[line]?.length ?? 0;
  if (line in known && count !== known[line]) {
    each(/** @type {HTMLElement} */ (key.closest("form")), "[data-entry] input", (input) => (/** @type {HTMLInputElement} */ (input).value = ""));
    setMark(`draft:${runId}`, undefined).catch(() => {}); // it is kept: it must not come back half-typed
  }
  known[line] = count;
}

/**
 * @param {HTMLElement} item
 * @param {Plan} plan
 * @param {View} view
 */
function tellSoFar(item, plan, view) {
  const line = item.dataset.soFar ?? "";
  const inIt = soFarOf(view, line);
  item.hidden = inIt <= 0;
  each(item, "[data-so-far-in]", (figure) => (figure.textContent = shown(inIt, plan.decimals)));
  each(item, "[data-so-far-of]", (figure) => (figure.textContent = shown(view.targets[line] ?? 0, plan.decimals)));
}

/**
 * @param {HTMLElement} item
 * @param {Plan} plan
 * @param {View} view
 */
function tellGross(item, plan, view) {
  const line = plan.lines.find(({ key }) => key === item.dataset.gross);
  if (!line) return;
  const fats = plan.lines.filter(({ group }) => group === "fat");
  const parts = fats.reduce((sum, { key }) => sum + (view.parts[key] ?? []).reduce((all, part) => all + part, 0), 0);
  const inIt = line.group === "fat" ? view.pot_g + parts : soFarOf(view, line.key);
  item.hidden = inIt <= 0;
  each(item, "[data-gross-figure]", (figure) => (figure.textContent = shown(Number(item.dataset.tare) + inIt, plan.decimals)));
}

/**
 * @param {HTMLElement} notice
 * @param {View} view
 */
function tellAdvice(notice, view) {
  if (view.waiting) return;
  const words = view.server.advice?.[notice.dataset.partsAdvice ?? ""] ?? "";
  notice.hidden = !words;
  each(notice, "[data-parts-advice-words]", (place) => (place.textContent = words));
}
