/**
 * What a keypad may do to a typed number. Pure: text and key in, text and a sentence out.
 * A blocked key says why; nothing is cut off or corrected behind the maker's back.
 */

import { MARK, translated } from "../words.js";

export const MOST_DIGITS = 5;

/**
 * @typedef {{text: string, blocked: string}} Pressed `blocked` is the sentence to show, "" when the key was taken
 */

/**
 * @param {string} text what stands there, with either mark
 * @returns {number | null} null when it is no number
 */
export function parse(text) {
  const plain = text.trim().replace(",", ".");
  return /^\d+(\.\d*)?$|^\.\d+$/.test(plain) ? Number(plain) : null;
}

/**
 * Return a number with exactly the scale's decimals, so that screen and scale agree digit for digit.
 * @param {number} grams
 * @param {number} decimals
 * @param {string} [mark]
 * @returns {string}
 */
export function shown(grams, decimals, mark = MARK) {
  const [whole, part] = Math.abs(grams).toFixed(decimals).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, "\u202f");
  return (grams < 0 ? "\u2212" : "") + (part ? grouped + mark + part : grouped);
}

/**
 * @param {string} text
 * @param {string} key a digit, "," or ".", "delete" or "clear"
 * @param {{decimals: number, mark: string}} scale
 * @returns {Pressed}
 */
export function press(text, key, scale) {
  if (key === "clear") return { text: "", blocked: "" };
  if (key === "delete") return { text: text.slice(0, -1), blocked: "" };
  if (key === "," || key === ".") return pressMark(text, scale);
  return pressDigit(text, key, scale);
}

/**
 * @param {string} text
 * @param {{decimals: number, mark: string}} scale
 * @returns {Pressed}
 */
function pressMark(text, scale) {
  if (scale.decimals === 0) return { text, blocked: translated("This scale shows whole grams only.") };
  if (/[.,]/.test(text)) return { text, blocked: translated("There is a decimal mark already.") };
  return { text: (text || "0") + scale.mark, blocked: "" };
}

/**
 * @param {string} text
 * @param {string} digit
 * @param {{decimals: number, mark: string}} scale
 * @returns {Pressed}
 */
function pressDigit(text, digit, scale) {
  const part = text.split(/[.,]/)[1];
  if (part !== undefined && part.length >= scale.decimals) {
    const few = { count: scale.decimals };
    const blocked = few.count === 1 ? translated("The scale shows 1 decimal.") : translated("The scale shows {count} decimals.", few);
    return { text, blocked };
  }
  if (text.replace(/\D/g, "").length >= MOST_DIGITS) {
    return { text, blocked: translated("No weight here has more than {digits} digits.", { digits: MOST_DIGITS }) };
  }
  return { text: (text === "0" ? "" : text) + digit, blocked: "" };
}

/**
 * Return the text moved by so many grams, from the target when nothing is typed yet; never below zero.
 * @param {string} text
 * @param {number} by grams, may be negative
 * @param {number} target grams
 * @param {{decimals: number, mark: string}} scale
 * @returns {string}
 */
export function nudged(text, by, target, scale) {
  const moved = Math.max(0, (parse(text) ?? target) + by);
  return moved.toFixed(scale.decimals).replace(".", scale.mark);
}
