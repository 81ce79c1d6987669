/**
 * The loaf at rest, on the phone alone: which gel was seen, when it is usually firm, when a soft one is pressed again.
 * Pure; the phone's half of soapbench.bench.folding.firming.
 */

import { translated } from "../words.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Rest} Rest */
/** @typedef {import("./types.js").RunningTimer} RunningTimer */
/** @typedef {import("./tally.js").Tally} Tally */

const HOUR = 3_600_000;
const FIRM = "firm";

/**
 * @param {string} from
 * @param {number} hours
 */
function later(from, hours) {
  return new Date(Date.parse(from) + hours * HOUR).toISOString();
}

/**
 * @param {Tally} tally
 * @returns {Rest | null} null before the loaf was set aside
 */
export function rest(tally) {
  const plan = tally.plan.rest;
  const began = plan && tally.done[plan.starts];
  if (!plan || !began) return null;
  const gel = gelOf(tally, began, plan.gel_shows_hours);
  const { earliest_h, latest_h, sentence } = plan.windows[gel];
  return { began, gel, earliest: later(began, earliest_h), latest: later(began, latest_h), sentence };
}

/**
 * @param {Tally} tally
 * @param {string} began
 * @param {number} shows hours after which no gel means none
 * @returns {"yes" | "no" | ""}
 */
function gelOf(tally, began, shows) {
  if (tally.looks.some(({ payload }) => payload.gel === "yes")) return "yes";
  const isSettled = (/** @type {Event} */ look) => Date.parse(look.happened_at) - Date.parse(began) >= shows * HOUR;
  return tally.looks.some((look) => look.payload.gel === "no" && isSettled(look)) ? "no" : "";
}

/**
 * @param {Tally} tally
 * @returns {RunningTimer[]} the timer of a loaf that dented, until it is firm
 */
export function again(tally) {
  const [plan, last] = [tally.plan.rest, tally.pressings.at(-1)];
  if (!plan || !last || FIRM in tally.done) return [];
  const ends = later(last.happened_at, plan.again_hours);
  return [{ key: "firm-again", label: translated("Loaf: press again"), started_at: last.happened_at, ends_at: ends, until: FIRM, portion: "", spoon_after: null }];
}
