/**
 * Stop and make safe, and spills: only what there is at this stage, also without a network.
 */
import { parse } from "./entry.js";
import { each } from "./show.js";
import { stageOf, stagesNow } from "./stages.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const STAGE_OF_SPILL = /** @type {Record<string, string>} */ ({ dry: "dry", lye: "lye", batter: "batter" });

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireSafe(room) {
  const form = /** @type {HTMLFormElement} */ (room.root.querySelector("[data-stop-form]"));
  form.noValidate = true; // what is missing is said in words of our own
  form.addEventListener("submit", (event) => {
    const missing = missingIn(form);
    const notice = /** @type {HTMLElement} */ (form.querySelector("[data-form-trouble]"));
    notice.hidden = !missing;
    notice.textContent = missing && (notice.dataset[missing] ?? "");
    if (!missing) return;
    event.preventDefault();
    event.stopPropagation();
    notice.scrollIntoView({ block: "center" });
  });
  each(room.root, "[data-spill]", (spill) => spill.addEventListener("submit", (event) => written(room, spill, event)));
  return (view) => showStages(room, stagesNow(room.plan, view));
}

/**
 * @param {HTMLFormElement} form
 * @returns {"" | "noReason" | "noLye" | "noStep"}
 */
function missingIn(form) {
  const data = new FormData(form);
  const asksLye = Boolean(form.querySelector("[name=lye]:not(:disabled)")) && !form.querySelector("fieldset[hidden] [name=lye]");
  if (asksLye && !data.get("lye")) return "noLye";
  if (!data.has("steps") && !String(data.get("made_safe") ?? "").trim()) return "noStep";
  return data.get("reason") || String(data.get("reason_words") ?? "").trim() ? "" : "noReason";
}

/**
 * @param {Room} room
 * @param {string[]} stages the first is where the batch is
 */
function showStages({ root }, stages) {
  each(root, "[data-stages]", (part) => {
    const isHere = part.dataset.stages?.split(" ").some((stage) => stages.includes(stage)) ?? false;
    part.hidden = !isHere;
    if (part instanceof HTMLFieldSetElement) part.disabled = !isHere;
    each(part, "input", (input) => (/** @type {HTMLInputElement} */ (input).disabled = !isHere));
  });
  each(root, "[data-spill]", (form) => {
    const isHere = STAGE_OF_SPILL[form.dataset.spill ?? ""] === stages[0];
    each(form, "[data-spill-mass]", (label) => (label.hidden = !isHere));
    each(form, "[data-spill-mass] input", (input) => (/** @type {HTMLInputElement} */ (input).disabled = !isHere));
  });
}

/**
 * Write a spill down: as a loss of this batch where it is one, else as a remark.
 * @param {Room} room
 * @param {HTMLElement} form
 * @param {Event} event
 */
function written(room, form, event) {
  event.preventDefault();
  event.stopPropagation();
  const { spill = "", line = "", why = "", decision = "" } = form.dataset;
  /** @type {any} */ (form.closest("[popover]"))?.hidePopover?.();
  if (STAGE_OF_SPILL[spill] !== stageOf(room.plan, room.view())) {
    void room.record("noted", { text: `${why}. ${decision}.` });
    return;
  }
  const input = /** @type {HTMLInputElement | null} */ (form.querySelector("[name=mass_g]"));
  const mass = parse(input?.value ?? "");
  void room.record("changed", { what: "lost or spilt", line, why, decision, ...(mass === null ? {} : { mass_g: mass }) });
}
