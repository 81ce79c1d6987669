/**
 * Questions that a typed weight raises. The same rules as soapbench.science.doubts, in the same order:
 * tests/js/doubts.json is written from the one and read by the other.
 */

import { translated, withMark } from "../words.js";

/**
 * @typedef {{entered_g: number, target_g: number, kind: string, resolution_g: number,
 *   tares: Record<string, number>, running_total_g: number | null, other_targets: Record<string, number>,
 *   tolerance_g: number | null}} Entry
 * @typedef {{code: string, sentence: string, stops: boolean}} Doubt
 */

// Of what has no tolerance of its own; fats and alkali come with theirs, by their effect on the superfat.
/** @type {Record<string, number>} */
const TOLERANCE = { alkali: 0.005, fat: 0.01, water: 0.02, scent: 0.02, colour: 0.05, addition: 0.02 };
/** @type {[number, number][]} */
const TENS = [[9.5, 10.5], [0.095, 0.105], [95, 105], [0.0095, 0.0105]]; // prettier-ignore
/** @type {[number, string][]} */
const UNITS = [
  [28.35, "grams and ounces"],
  [1000, "grams and kilograms"],
  [453.6, "grams and pounds"],
  [16, "ounces and pounds"],
  [2.205, "pounds and kilograms"],
];
const UNIT_SLACK = 0.01;
const HAIR = 1e-9; // 404.1 - 400 is a little more than 4.1 to a machine

/**
 * @param {string} kind
 * @param {number} target grams
 * @param {number} resolution grams
 * @returns {number} how far a reading may be off, grams
 */
export function tolerance(kind, target, resolution) {
  return Math.max(resolution, (TOLERANCE[kind] ?? 0) * target);
}

/**
 * @param {number} grams
 * @returns {string} ten significant digits at most, no trailing noughts
 */
function plain(grams) {
  return String(Number(grams.toPrecision(10)));
}

/**
 * @param {number} grams
 * @returns {string} the same with the decimal mark of the language
 */
function said(grams) {
  return withMark(plain(grams));
}

/**
 * @param {Entry} entry
 * @param {number} mass
 */
function isNear(entry, mass) {
  const allowed = entry.tolerance_g ?? tolerance(entry.kind, mass, entry.resolution_g);
  return Math.abs(entry.entered_g - mass) <= allowed + HAIR;
}

/** @param {Entry} entry */
function decimalSlip(entry) {
  const ratio = entry.entered_g / entry.target_g;
  if (!TENS.some(([low, high]) => low <= ratio && ratio <= high)) return "";
  const told = {
    times: ratio > 0.05 && ratio < 20 ? 10 : 100,
    entered: said(entry.entered_g),
    target: said(entry.target_g),
  };
  return ratio > 1
    ? translated("{entered} g is {times} times more than {target} g. Is the decimal mark in its place?", told)
    : translated("{entered} g is {times} times less than {target} g. Is the decimal mark in its place?", told);
}

/** @param {Entry} entry */
function unitSlip(entry) {
  const ratio = entry.entered_g / entry.target_g;
  const found = UNITS.find(([factor]) => [factor, 1 / factor].some((goal) => Math.abs(ratio / goal - 1) <= UNIT_SLACK));
  return found ? translated("This looks like {pair} mixed up. Does the scale show g?", { pair: translated(found[1]) }) : "";
}

/** @param {Entry} entry */
function tareLeft(entry) {
  const over = entry.entered_g - entry.target_g;
  const found = Object.entries(entry.tares).find(
    ([, tare]) => tare > 0 && Math.abs(over - tare) <= 2 * entry.resolution_g,
  );
  return found
    ? translated("This is over by the weight of {name} ({tare} g). Was the scale set to zero with it on?", {
        name: found[0],
        tare: said(found[1]),
      })
    : "";
}

/** @param {Entry} entry */
function runningTotal(entry) {
  const total = entry.running_total_g;
  const isTotal = Boolean(total) && (isNear(entry, Number(total)) || isNear(entry, Number(total) + entry.target_g));
  return isTotal ? translated("This looks like everything in the pot so far. Was the scale set to zero before pouring?") : "";
}

/** @param {Entry} entry */
function gross(entry) {
  const total = entry.running_total_g;
  if (!total) return "";
  const found = Object.entries(entry.tares).find(([, tare]) => tare > 0 && isNear(entry, total + entry.target_g + tare));
  return found
    ? translated("This looks like {name} with everything in it. Set the scale to zero, or take off what was there.", { name: found[0] })
    : "";
}

/** @param {Entry} entry */
function otherRow(entry) {
  const found = Object.entries(entry.other_targets).find(([, mass]) => mass > 0 && isNear(entry, mass));
  if (!found) return "";
  const told = { mass: said(found[1]), name: found[0] };
  return translated("{mass} g is the weight for {name}. Is this the right jar and the right row?", told);
}

/** @param {Entry} entry */
function swappedDigits(entry) {
  const [entered, target] = [plain(entry.entered_g), plain(entry.target_g)];
  if (entered.length !== target.length) return "";
  const differing = [...entered].filter((digit, index) => digit !== target[index]).length;
  const isSwapped = differing === 2 && [...entered].sort().join("") === [...target].sort().join("");
  if (!isSwapped) return "";
  const told = { entered: withMark(entered), target: withMark(target) };
  return translated("{entered} and {target} have two digits swapped. Read the scale once more.", told);
}

/** @param {Entry} entry */
function doubledDigit(entry) {
  const [entered, target] = [plain(entry.entered_g), plain(entry.target_g)];
  const at = [...entered].findIndex(
    (digit, index) => index > 0 && digit === entered[index - 1] && entered.slice(0, index) + entered.slice(index + 1) === target,
  );
  if (at <= 0) return "";
  const told = { digit: entered[at], target: withMark(target) };
  return translated("Did the {digit} go in twice? {target} g is asked for.", told);
}

/** @param {Entry} entry */
function otherAlkali(entry) {
  const ratio = entry.entered_g / entry.target_g;
  const isOther = entry.kind === "alkali" && (Math.abs(ratio - 1.403) <= 0.01 || Math.abs(ratio - 0.713) <= 0.005);
  return isOther ? translated("This is the weight for the other alkali. Sodium or potassium hydroxide: read the jar.") : "";
}

/** @type {[string, (entry: Entry) => string][]} */
const TESTS = [
  ["decimal", decimalSlip],
  ["unit", unitSlip],
  ["tare", tareLeft],
  ["total", runningTotal],
  ["gross", gross],
  ["row", otherRow],
  ["swapped", swappedDigits],
  ["doubled", doubledDigit],
  ["other alkali", otherAlkali],
];

/**
 * Return the questions that an entry raises, likeliest first; none within tolerance.
 * @param {Entry} entry
 * @returns {Doubt[]}
 */
export function entryDoubts(entry) {
  if (isNear(entry, entry.target_g)) return [];
  const found = TESTS.map(([code, test]) => ({ code, sentence: test(entry), stops: entry.kind === "alkali" })).filter(
    (doubt) => doubt.sentence,
  );
  const ratio = entry.entered_g / entry.target_g;
  if (found.length > 0 || (ratio >= 0.5 && ratio <= 1.5)) return found;
  const told = { entered: said(entry.entered_g), target: said(entry.target_g) };
  const sentence = translated("{entered} g is far from {target} g. Read the scale once more.", told);
  return [{ code: "far", sentence, stops: entry.kind === "alkali" }];
}
