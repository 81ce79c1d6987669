/**
 * Says, where it is asked whether everything is saved, what a phone cannot do at a plain address.
 */

/** @param {import("./room.js").Room} room */
export function wirePlainAddress({ root }) {
  const note = /** @type {HTMLElement | null} */ (root.querySelector("[data-plain-address]"));
  if (note) note.hidden = globalThis.isSecureContext;
}
