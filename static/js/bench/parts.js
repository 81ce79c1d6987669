/**
 * How much of a line is weighed and how much is still to go, in one part or in several.
 */
import { soFarOf } from "./remedied.js";

/** @typedef {import("./types.js").State} State */

/**
 * @param {State} state
 * @param {string} line
 * @returns {number} grams
 */
export function toGo(state, line) {
  return Number(Math.max(0, (state.targets[line] ?? 0) - soFarOf(state, line)).toFixed(6));
}
