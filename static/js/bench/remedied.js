/**
 * Parts of a weighing and chosen ways out, on the phone alone. The same as soapbench.bench.folding.remedying.
 */

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./tally.js").Tally} Tally */

const COUNTED = ["C15-out", "C15-twice"];
const WEIGH_AGAIN = ["C15-in", "C15-again"];
const [ALKALI_AGAIN, LYE_AGAIN] = ["C1", "remake"];

/**
 * @param {number} grams
 * @returns {number} without what a machine adds in the last places
 */
export function tidy(grams) {
  return Number(grams.toFixed(6));
}

/**
 * @param {{owed: Record<string, number>, parts: Record<string, number[]>, weights: Record<string, {mass_g: number}>}} tally
 * @param {string} key of a line
 * @returns {number} grams that are weighed already while more is asked for
 */
export function soFarOf(tally, key) {
  const before = key in tally.owed ? (tally.weights[key]?.mass_g ?? 0) : 0;
  return tidy((tally.parts[key] ?? []).reduce((sum, mass) => sum + mass, before));
}

/**
 * Drop what was weighed of a line, its parts and what was still owed of it.
 * @param {Tally} tally
 * @param {string} key
 */
export function forget(tally, key) {
  delete tally.weights[key];
  delete tally.parts[key];
  delete tally.owed[key];
}

/**
 * @param {Tally} tally
 * @param {Event} event
 * @param {(tally: Tally, line: string) => void} reopen asks for a line once more
 */
export function remedy(tally, event, reopen) {
  const { code, adds = [], lye_share = null, factor = null } = event.payload;
  if (factor !== null) {
    tally.factor = factor;
    tally.choice = "recomputed";
    if (tally.plan.prompts.some(({ key }) => key === "settle")) tally.done.settle ??= event.happened_at;
  }
  for (const [key, mass] of adds) {
    const line = tally.lines.get(key);
    if (line) add(tally, line, mass, code);
  }
  if (lye_share !== null) tally.lyeShare = lye_share;
  if (code === ALKALI_AGAIN || code === LYE_AGAIN) anew(tally, code, reopen);
  if (WEIGH_AGAIN.includes(code)) delete tally.done["pot-check"];
}

/**
 * @param {Tally} tally
 * @param {Line} line
 * @param {number} mass grams
 * @param {string} code
 */
function add(tally, line, mass, code) {
  const weight = tally.weights[line.key];
  if (COUNTED.includes(code) && weight) {
    weight.mass_g = tidy(Math.max(0, weight.mass_g + mass));
    if (weight.mass_g > 0) return;
    forget(tally, line.key);
    tally.leftOut.add(line.key);
  } else if (!weight && !tally.leftOut.has(line.key) && !(line.key in tally.parts)) {
    tally.shift[line.key] = (tally.shift[line.key] ?? 0) + mass;
  } else if (mass > 0) {
    tally.owed[line.key] = mass;
    const prompt = tally.plan.prompts.find(({ kind, line: key }) => kind === "weigh" && key === line.key);
    if (prompt) delete tally.done[prompt.key];
  }
}

/**
 * @param {Tally} tally
 * @param {string} code
 * @param {(tally: Tally, line: string) => void} reopen
 */
function anew(tally, code, reopen) {
  const groups = code === ALKALI_AGAIN ? ["alkali"] : ["alkali", "water", "liquid"];
  for (const { key, group } of tally.plan.lines) {
    if (groups.includes(group) && tally.plan.jug.includes(key)) reopen(tally, key);
  }
  if (code !== LYE_AGAIN) return;
  tally.lyeShare = 1;
  delete tally.done["alkali-into-water"];
}
