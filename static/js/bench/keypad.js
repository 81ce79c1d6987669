/**
 * The large keypad over a weight's field, and the question that a typed weight may raise.
 */
import { nudged, parse, press } from "./entry.js";
import { toGo } from "./parts.js";
import { entryDoubts } from "./weighing.js";
import { MARK } from "../words.js";

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Plan} Plan */


/**
 * @param {HTMLElement} entry
 * @param {() => number} target grams that the prompt asks for
 * @param {(text: string) => void} onTyped
 */
export function wireKeypad(entry, target, onTyped) {
  const input = /** @type {HTMLInputElement} */ (entry.querySelector("[data-number]"));
  const scale = { decimals: Number(entry.dataset.decimals), mark: MARK };
  const step = Number(entry.dataset.step?.replace(/\s/g, ""));
  const blocked = entry.querySelector("[data-blocked]");
  for (const hidden of entry.querySelectorAll("[hidden]")) hidden.removeAttribute("hidden");
  for (const mark of entry.querySelectorAll("[data-mark]")) mark.textContent = MARK;
  if (matchMedia("(pointer: coarse)").matches) input.inputMode = "none"; // our keys are larger than the phone's
  entry.addEventListener("click", (event) => {
    const key = /** @type {Element} */ (event.target).closest("[data-key], [data-nudge]");
    if (!(key instanceof HTMLElement)) return;
    const typed = key.dataset.key
      ? press(input.value, key.dataset.key, scale)
      : { text: nudged(input.value, Number(key.dataset.nudge) * step, target(), scale), blocked: "" };
    input.value = typed.text;
    if (blocked) blocked.textContent = typed.blocked;
    if (typed.blocked) navigator.vibrate?.(80);
    onTyped(typed.text);
  });
  input.addEventListener("input", () => onTyped(input.value));
}

/**
 * Return the questions that the form's weight raises and that were not answered yet.
 * @param {HTMLFormElement} form
 * @param {Plan} plan
 * @param {View} view
 */
export function doubtsOf(form, plan, view) {
  const input = /** @type {HTMLInputElement | null} */ (form.querySelector("[data-entry] [data-number]"));
  const key = /** @type {HTMLInputElement | null} */ (form.querySelector("[name=line]"))?.value;
  const line = plan.lines.find((each) => each.key === key);
  const entered = parse(input?.value ?? "");
  const target = toGo(view, key ?? "");
  if (!line || entered === null || !(target > 0)) return [];
  const others = plan.lines.filter((other) => other.key !== key && !(other.key in view.weights));
  return entryDoubts({
    entered_g: entered,
    target_g: target,
    kind: line.kind,
    resolution_g: plan.resolution_g,
    tares: plan.tares,
    running_total_g: line.group === "fat" ? view.pot_g : null,
    tolerance_g: view.tolerances[line.key] ?? null,
    other_targets: Object.fromEntries(others.map((other) => [other.name, view.targets[other.key] ?? other.planned_g])),
  });
}
