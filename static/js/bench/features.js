/**
 * What the run page can do besides moving on: one line each. A feature is wired once and may return what it shows
 * anew whenever the run has moved; it reaches the run through the room alone.
 */
import { wireHoldOn, wireStandIns } from "./panels.js";
import { showReadings } from "./readings.js";
import { showRemedies } from "./remedies.js";
import { wireRinse } from "./rinse.js";
import { each } from "./show.js";

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Plan} Plan */

/**
 * @typedef {object} Room what a feature may see and do
 * @property {HTMLElement} root the run page
 * @property {string} runId
 * @property {Plan} plan
 * @property {() => View} view where the run stands now, with what is still on its way
 * @property {() => string} shown key of the prompt on the screen
 * @property {(kind: string, payload: Record<string, any>, prompt?: string) => Promise<void>} record keeps an event
 *   and moves on; the prompt is the one shown when none is given
 * @property {(words: string) => void} say tells a screen reader
 */

/** @typedef {(room: Room) => ((view: View) => void) | void} Feature */

/** @type {Feature[]} */
const FEATURES = [
  ({ root }) => (view) => showReadings(root, view),
  ({ root }) => (view) => showRemedies(root, view),
  ({ root, plan }) => wireStandIns(root, plan),
  ({ root, view }) => wireHoldOn(root, view),
  ({ root, runId, record }) => each(root, "[data-rinse]", (box) => wireRinse(box, runId, (text) => void record("noted", { text }))),
];

/**
 * @param {Room} room
 * @returns {(view: View) => void} shows all of them anew
 */
export function wireFeatures(room) {
  const shows = FEATURES.map((feature) => feature(room)).filter((show) => show !== undefined);
  return (view) => shows.forEach((show) => show(view));
}
