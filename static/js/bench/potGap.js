/**
 * The pot of fats on the scale against the sum of its entries, while the reading is typed. How much may be off is
 * worked out by the server; here it is only held against what is typed.
 */
import { parse, shown } from "./entry.js";
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wirePotGap({ root, plan, view }) {
  const look = () => each(root, "[data-prompt]:not([hidden]) [data-pot-gap]", (place) => tell(place, view(), plan.decimals));
  root.addEventListener("click", look);
  root.addEventListener("input", look);
  return (now) => {
    each(root, "[data-pot-gross]", (place) => (place.textContent = shown(now.pot_g + Number(place.dataset.tare), plan.decimals)));
    each(root, "[data-pot-allowed]", (place) => (place.textContent = shown(now.server.pot_check.allowed_g ?? 0, plan.decimals)));
    look();
  };
}

/**
 * @param {HTMLElement} place
 * @param {View} view
 * @param {number} decimals
 */
function tell(place, view, decimals) {
  const section = /** @type {HTMLElement} */ (place.closest("[data-prompt]"));
  const typed = parse(/** @type {HTMLInputElement} */ (section.querySelector("[data-entry] [data-number]")).value);
  const pot = section.querySelector("[data-pot-gross]");
  const tare = pot instanceof HTMLElement ? Number(pot.dataset.tare) : 0;
  const found = typed === null ? null : gapOf(typed, view.pot_g, view.server.pot_check, tare);
  const text = found ? sentence(found, place.dataset, decimals) : "";
  if (place.textContent !== text) place.textContent = text;
  place.classList.toggle("is-stop", Boolean(found && !found.isOk));
}

/**
 * @param {{gap: number, isOk: boolean, like: string}} found
 * @param {DOMStringMap} words
 * @param {number} decimals
 * @returns {string}
 */
function sentence({ gap, isOk, like }, words, decimals) {
  const size = `${shown(Math.abs(gap), decimals)} g`;
  if (isOk) return `${size}: ${words.agrees}`;
  const said = `${size} ${gap < 0 ? words.light : words.heavy}`;
  if (!like) return said;
  const cause = like === "tare" ? words.tared : `${words.like} ${like}`;
  return `${said}, ${cause}`;
}

/**
 * @param {number} typed grams
 * @param {number} expected grams
 * @param {{allowed_g?: number, parts?: [string, number][]}} check
 * @param {number} tare grams of the empty pot
 * @returns {{gap: number, isOk: boolean, like: string}} like names the fat, or "tare", that the gap is the size of
 */
export function gapOf(typed, expected, { allowed_g: allowed = 0, parts = [] }, tare) {
  const gap = Number((typed - expected).toFixed(6));
  const size = Math.abs(gap);
  if (size <= allowed) return { gap, isOk: true, like: "" };
  const near = parts.filter(([, mass]) => Math.abs(mass - size) <= allowed);
  const nearest = near.sort((one, other) => Math.abs(one[1] - size) - Math.abs(other[1] - size))[0];
  const isTare = tare > 0 && Math.abs(gap - tare) <= allowed;
  return { gap, isOk: false, like: isTare ? "tare" : (nearest?.[0] ?? "") };
}
