/**
 * What a typed weight does to the batch: the superfat and the strength of the lye when all that is open comes out as
 * asked. The same sums as soapbench.bench.folding.superfat.as_asked; both are run against tests/vectors.
 */

/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").State} State */

/** @typedef {{superfat: number | null, strength: number | null}} Outlook fractions; null when there is none */

/**
 * @param {Plan} plan
 * @param {State} state
 * @param {Record<string, number>} [typed] grams by line, in place of what stands there
 * @returns {Outlook}
 */
export function outlook(plan, state, typed = {}) {
  const grams = (/** @type {Line} */ line) => typed[line.key] ?? standing(state, line.key);
  const sum = (/** @type {(line: Line) => boolean} */ wanted, /** @type {(line: Line) => number} */ each) =>
    plan.lines.filter(wanted).reduce((whole, line) => whole + each(line), 0);
  const mol = (/** @type {Line} */ line) => grams(line) * molPerGram(plan, state, line);
  const fats = sum(isFat, mol);
  const acid = (/** @type {Line} */ line) => grams(line) * (plan.acid_mol_per_g[usedFor(state, line).material] ?? 0);
  const acids = sum(({ group }) => ["colourant", "scent", "addition"].includes(group), acid);
  const alkali = sum(({ group }) => group === "alkali", mol) * state.lye_share;
  const dry = sum(({ group }) => group === "alkali", grams);
  const jug = sum(({ key }) => plan.jug.includes(key), grams);
  return { superfat: fats > 0 ? 1 - (alkali - acids) / fats : null, strength: dry > 0 ? dry / jug : null };
}

/** @param {Line} line */
function isFat(line) {
  return line.group === "fat" || (line.group === "carrier" && line.basis === "fat");
}

/**
 * @param {State} state
 * @param {string} key
 * @returns {number} grams as weighed, none when left out, else as asked
 */
function standing(state, key) {
  if (key in state.owed) return state.targets[key];
  return state.weights[key]?.mass_g ?? (state.left_out.includes(key) ? 0 : state.targets[key]);
}

/**
 * @param {State} state
 * @param {Line} line
 * @returns {{material: string, lot: number | null}} what the line really is
 */
function usedFor(state, line) {
  return state.weights[line.key] ?? state.used_instead[line.key] ?? line;
}

/**
 * @param {Plan} plan
 * @param {State} state
 * @param {Line} line
 * @returns {number} moles of alkali that a gram of what the line really is takes or gives
 */
function molPerGram(plan, state, line) {
  const used = usedFor(state, line);
  const lot = plan.lots[String(used.lot)];
  return (lot?.material === used.material ? lot.mol_per_g : null) ?? plan.mol_per_g[used.material] ?? 0;
}
