/**
 * What a script says, in the language of the page. The page carries its catalogue as data, so that a page kept on the
 * phone speaks the language in which it was made; in English there is none, and every message stands for itself.
 */

/** @type {Record<string, string>} */
const CATALOGUE = JSON.parse(globalThis.document?.getElementById("catalogue")?.textContent || "{}");

/** The decimal mark of the page's language. */
export const MARK = (1.5).toLocaleString(globalThis.document?.documentElement.lang || "en").charAt(1);

/**
 * Return a whole sentence, its {named} places filled; numbers get the decimal mark of the language.
 * @param {string} message the English, as it stands in the catalogue
 * @param {Record<string, string | number>} [values]
 * @returns {string}
 */
export function translated(message, values = {}) {
  return (CATALOGUE[message] || message).replace(/\{(\w+)\}/g, (place, name) => {
    const value = values[name];
    return typeof value === "number" ? withMark(String(value)) : (value ?? place);
  });
}

/**
 * @param {string} number as JavaScript writes it
 * @returns {string}
 */
export function withMark(number) {
  return number.replace(".", MARK);
}
