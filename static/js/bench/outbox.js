/**
 * Events on their way to the server. Each is on the device's disk before the screen moves, in the order it was made,
 * and leaves only when the server has named it.
 */
import { inStore } from "./store.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {Event & {run: string, refused: string, order?: number}} Kept `refused` is the server's sentence, "" while waiting */

/**
 * @param {string} run
 * @param {Event} event
 * @returns {Promise<unknown>}
 */
export function keep(run, event) {
  return inStore("events", "readwrite", (store) => store.add({ ...event, run, refused: "" }));
}

/**
 * @param {string} run
 * @returns {Promise<Kept[]>} in the order they were made, refused ones too
 */
export function kept(run) {
  return inStore("events", "readonly", (store) => store.index("run").getAll(run));
}

/**
 * @param {Kept} event
 * @returns {Promise<unknown>}
 */
export function drop(event) {
  return inStore("events", "readwrite", (store) => store.delete(/** @type {number} */ (event.order)));
}

/**
 * Keep a refused event aside with the reason; it is sent no more until the maker answers.
 * @param {Kept} event
 * @param {string} sentence
 * @returns {Promise<unknown>}
 */
export function park(event, sentence) {
  return inStore("events", "readwrite", (store) => store.put({ ...event, refused: sentence }));
}
