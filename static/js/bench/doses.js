/**
 * Portions as they were really split, and what of each colour, scent and addition goes into them. The phone's half of
 * soapbench.bench.folding.targets and takings; both are run against tests/vectors.
 */
import { batterTotal, isFat, massOf, onTheScale, roundTo, total } from "./sums.js";
import { tolerance } from "./weighing.js";

/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Taking} Taking */
/** @typedef {import("./tally.js").Tally} Tally */

const ADDITIONS = ["colourant", "scent", "addition"];

/** @param {Tally} tally */
function pot(tally) {
  return Math.max(0, batterTotal(tally) - tally.lostBatter);
}

/**
 * @param {Tally} tally
 * @returns {{letter: string, share: number}[]} portions that are neither split off nor left out
 */
function openPortions(tally) {
  return tally.plan.portions.filter(({ letter }) => !(letter in tally.portions) && !tally.leftOut.has(`portion:${letter}`));
}

/**
 * @param {Tally} tally
 * @returns {Record<string, number>} grams of each portion: those still in the pot share what is really left there
 */
export function portionTargets(tally) {
  const { portions, resolution_g: step } = tally.plan;
  const waiting = openPortions(tally);
  const whole = waiting.reduce((sum, { share }) => sum + share, 0);
  const left = Math.max(0, pot(tally) - Object.values(tally.portions).reduce((sum, mass) => sum + mass, 0));
  const grams = (/** @type {{letter: string, share: number}} */ portion) =>
    waiting.includes(portion) ? (left * portion.share) / whole : portion.share * batterTotal(tally);
  return Object.fromEntries(portions.map((portion) => [`portion:${portion.letter}`, roundTo(grams(portion), step)]));
}

/**
 * @param {Tally} tally
 * @returns {Record<string, number>} the last portion is what is left in the pot
 */
export function portionsNow(tally) {
  const missing = openPortions(tally);
  const split = Object.values(tally.portions);
  if (missing.length !== 1 || split.length === 0) return tally.portions;
  const rest = Math.max(0, pot(tally) - split.reduce((sum, mass) => sum + mass, 0));
  return { ...tally.portions, [missing[0].letter]: Number(rest.toFixed(6)) };
}

/**
 * @param {Tally} tally
 * @returns {Record<string, number>} grams of each addition, by line, for the batter and the portions as they are
 */
export function doseTargets(tally) {
  const lines = tally.plan.lines.filter(({ group }) => ADDITIONS.includes(group));
  return Object.fromEntries(lines.map((line) => [line.key, dose(tally, line)]));
}

/**
 * @param {Tally} tally
 * @param {Line} line
 */
function dose(tally, line) {
  const usual = line.portion === "all" ? 1 : (tally.plan.portions.find(({ letter }) => letter === line.portion)?.share ?? 0);
  const share = line.portion === "all" ? 1 : shareOf(tally, line.portion, usual);
  const [fats, base] = [total(tally, isFat), baseNow(tally)];
  const [plannedFats, plannedBase] = [planned(tally, isFat), planned(tally, isBase)];
  if (share === usual && isSame(fats, plannedFats) && isSame(base, plannedBase)) return line.planned_g;
  /** @type {Record<string, number>} */
  const gramsForOne = {
    "percent of fats": (share * fats) / 100,
    "percent of batter": (share * base) / 100,
    "grams per kg of fats": (share * fats) / 1000,
  };
  const each = gramsForOne[line.basis];
  const exact = each !== undefined ? line.rate * each : usual && line.portion !== "all" ? (line.planned_g * share) / usual : line.planned_g;
  return onTheScale(exact, tally.plan.resolution_g);
}

/**
 * @param {number} one
 * @param {number} other
 */
function isSame(one, other) {
  return Math.abs(one - other) < 1e-6;
}

/**
 * @param {Tally} tally
 * @param {string} letter
 * @param {number} planned
 */
function shareOf(tally, letter, planned) {
  const split = portionsNow(tally);
  const whole = batterTotal(tally);
  return letter in split && whole > 0 ? split[letter] / whole : planned;
}

/**
 * @param {Tally} tally
 * @param {(line: Line) => boolean} wanted
 */
function planned(tally, wanted) {
  return tally.plan.lines.filter(wanted).reduce((sum, line) => sum + line.planned_g, 0);
}

/**
 * Fats, lye and liquids together are what "percent of batter" counts on.
 * @param {Line} line
 */
function isBase({ group }) {
  return ["fat", "carrier", "water", "liquid", "alkali"].includes(group);
}

/**
 * @param {Tally} tally
 * @returns {number} grams of the base as it is: of what is in the lye jug, the share that is poured
 */
function baseNow(tally) {
  const jars = tally.plan.lines.filter(({ group }) => group === "alkali");
  const isMade = jars.length > 0 && jars.every(({ key }) => key in tally.weights);
  const mass = (/** @type {Line} */ line) => {
    if (line.group === "alkali") return isMade ? tally.lyeShare * massOf(tally, line) : line.planned_g;
    return (tally.plan.jug.includes(line.key) ? tally.lyeShare : 1) * massOf(tally, line);
  };
  return tally.plan.lines.filter(isBase).reduce((sum, line) => sum + mass(line), 0);
}

/**
 * @param {Tally} tally
 * @param {Record<string, number>} targets
 * @returns {Record<string, Taking>} by line, what to take of each addition that is weighed, its carrier with it
 */
export function takings(tally, targets) {
  const lines = tally.plan.lines.filter((line) => ADDITIONS.includes(line.group) && (tally.weights[line.key]?.mass_g ?? 0) > 0);
  return Object.fromEntries(lines.map((line) => [line.key, taking(tally, line, targets[line.key])]));
}

/**
 * The same sum as soapbench.science.taking.
 * @param {Tally} tally
 * @param {Line} line
 * @param {number} needed
 * @returns {Taking}
 */
function taking(tally, line, needed) {
  const weighed = tally.weights[line.key].mass_g;
  const of = weighed + total(tally, ({ key }) => key.startsWith(`carrier:${line.portion}:${line.material}:`));
  const gap = needed - weighed;
  if (Math.abs(gap) <= tolerance(line.kind, needed, tally.plan.resolution_g) + 1e-9) return { take_g: of, of_g: of, share: 1 };
  if (gap > 0) return { take_g: of, of_g: of, share: weighed / needed };
  return { take_g: (of * needed) / weighed, of_g: of, share: 1 };
}
