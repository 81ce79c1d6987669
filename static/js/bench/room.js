/**
 * The shape of what a feature of the run page may see and do; apart from features.js, which imports the features.
 */

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Plan} Plan */

/**
 * @typedef {object} Room what a feature may see and do
 * @property {HTMLElement} root the run page
 * @property {string} runId
 * @property {Plan} plan
 * @property {() => View} view where the run stands now, with what is still on its way
 * @property {() => string} shown key of the prompt on the screen
 * @property {(kind: string, payload: Record<string, any>, prompt?: string, at?: Date,
 *   file?: import("./types.js").FileKept) => Promise<void>} record keeps an event and moves on; the prompt is the one shown when none is given, the moment is now
 * @property {(words: string) => void} say tells a screen reader
 */
export {};
