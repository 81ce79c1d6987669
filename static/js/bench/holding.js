/**
 * Holding a button, as a pure state: a tap by mistake, a drifting finger and water on the glass do nothing.
 */

import { translated } from "../words.js";

export const HOLD_MS = 1000;
export const DRIFT_PX = 32; // 5 mm at 6.3 px per mm
export const ARMED_MS = 5000;

/**
 * @typedef {{pointer: number, x: number, y: number, at: number}} Grip a finger that is down
 * @typedef {{grip: Grip | null, why: string}} Hold `why` says what let go, "" when nothing did
 */

/** @type {Hold} */
export const IDLE = { grip: null, why: "" };

/**
 * A second pointer lets go of the first: a drop of water touches like a finger.
 * @param {Hold} hold
 * @param {number} pointer
 * @param {number} x
 * @param {number} y
 * @param {number} at milliseconds
 * @returns {Hold}
 */
export function pressed(hold, pointer, x, y, at) {
  if (hold.grip && hold.grip.pointer !== pointer) return { grip: null, why: translated("Two touches at once. Dry the glass.") };
  return { grip: { pointer, x, y, at }, why: "" };
}

/**
 * @param {Hold} hold
 * @param {number} pointer
 * @param {number} x
 * @param {number} y
 * @returns {Hold}
 */
export function moved(hold, pointer, x, y) {
  const grip = hold.grip;
  if (!grip || grip.pointer !== pointer) return hold;
  const drift = Math.hypot(x - grip.x, y - grip.y);
  return drift > DRIFT_PX ? { grip: null, why: translated("The finger moved. Hold still.") } : hold;
}

/**
 * @param {Hold} hold
 * @param {number} now milliseconds
 * @returns {number} 0 when nothing is held, 1 when it was held long enough
 */
export function progress(hold, now) {
  return hold.grip ? Math.min(1, Math.max(0, (now - hold.grip.at) / HOLD_MS)) : 0;
}

/**
 * Whether the second button of the way without holding still answers.
 * @param {number | null} armedAt milliseconds
 * @param {number} now
 * @returns {boolean}
 */
export function isArmed(armedAt, now) {
  return armedAt !== null && now - armedAt <= ARMED_MS;
}
