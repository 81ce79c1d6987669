/**
 * The sums that the bench needs without a network: what is in the pot, and the alkali and water that suit it.
 * Alkali is linear in the fats, so the plan carries moles per gram of each material and grams per mole of each jar.
 */

/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Settlement} Settlement */
/** @typedef {import("./tally.js").Tally} Tally */

const LYE_SIDE = ["alkali", "water", "liquid"];
const ADDITIONS = ["colourant", "scent", "addition"];
const HAIR = 1e-9; // lifts 2.4999999999 that meant 2.5

/**
 * @param {number} grams
 * @param {number} step of the scale
 * @returns {number} whole steps, half a step upwards
 */
export function roundTo(grams, step) {
  return Number((Math.floor(grams / step + 0.5 + HAIR) * step).toFixed(9));
}

/**
 * @param {number} grams
 * @param {number} step of the scale
 * @returns {number} the same, but never something rounded down to nothing
 */
export function onTheScale(grams, step) {
  return roundTo(grams, step) || Number(grams.toFixed(4));
}

/**
 * @param {Tally} tally
 * @param {Line} line
 * @returns {number} grams as weighed, none when left out, else as planned
 */
export function massOf(tally, line) {
  return tally.weights[line.key]?.mass_g ?? (tally.leftOut.has(line.key) ? 0 : plannedOf(tally, line));
}

/**
 * @param {Tally} tally
 * @param {Line} line
 * @returns {number} grams as planned, with what a chosen way out has made of them since
 */
export function plannedOf(tally, line) {
  const scaled = line.planned_g * (line.group === "fat" || line.group === "carrier" ? tally.factor : 1);
  const asked = Math.max(0, scaled + (tally.shift[line.key] ?? 0));
  return asked === line.planned_g ? asked : roundTo(asked, tally.plan.resolution_g);
}

/**
 * @param {Tally} tally
 * @returns {number} grams of batter: all that is not for one portion alone, without what stays in the lye jug
 */
export function batterTotal(tally) {
  const poured = (/** @type {Line} */ line) => (tally.plan.jug.includes(line.key) ? tally.lyeShare : 1) * massOf(tally, line);
  const whole = tally.plan.lines.filter(({ portion }) => portion === "" || portion === "all");
  return whole.reduce((sum, line) => sum + poured(line), 0);
}

/** @param {Line} line */
export function isFat(line) {
  return line.group === "fat" || (line.group === "carrier" && line.basis === "fat");
}

/**
 * @param {Tally} tally
 * @param {(line: Line) => boolean} wanted
 * @returns {number} grams of those lines together
 */
export function total(tally, wanted) {
  return tally.plan.lines.filter(wanted).reduce((sum, line) => sum + massOf(tally, line), 0);
}

/**
 * @param {Tally} tally
 * @returns {number} grams of fats weighed into the pot so far
 */
export function potTotal(tally) {
  const weighed = total(tally, (line) => line.group === "fat" && line.key in tally.weights);
  return Number(weighed.toFixed(6));
}

/**
 * @param {Tally} tally
 * @param {Line} line
 * @returns {number} moles of alkali that a gram of what the line really is takes
 */
function takes(tally, line) {
  const used = tally.weights[line.key] ?? tally.usedInstead[line.key] ?? line;
  const lot = tally.plan.lots[String(used.lot)];
  const own = lot?.material === used.material ? lot.takes_mol_per_g : null;
  return own ?? tally.plan.takes_mol_per_g[used.material] ?? 0;
}

/**
 * @param {Tally} tally
 * @returns {Settlement | null} null until every fat of the pot is weighed or left out
 */
export function settle(tally) {
  const { plan } = tally;
  const fats = plan.lines.filter((line) => line.group === "fat");
  if (!fats.every((line) => line.key in tally.weights || tally.leftOut.has(line.key))) return null;
  const takers = plan.lines.filter((line) => isFat(line) || ADDITIONS.includes(line.group));
  const moles = takers.reduce((sum, line) => sum + massOf(tally, line) * takes(tally, line), 0);
  if (total(tally, isFat) <= 0) return null;
  const jars = plan.lines.filter((line) => line.group === "alkali");
  const alkali = jars.map((line) => [line.key, roundTo(moles * (plan.alkali_g_per_mol[line.key] ?? 0), plan.resolution_g)]);
  /** @type {Record<string, number>} */
  const recomputed = Object.fromEntries(alkali);
  const isNeeded = jars.some((line) => Math.abs(recomputed[line.key] - line.planned_g) > line.tolerance_g + HAIR);
  const planned = Object.fromEntries(plan.lines.filter(isLyeSide).map((line) => [line.key, line.planned_g]));
  return { is_needed: isNeeded, choice: tally.choice, planned, recomputed: { ...recomputed, ...wet(tally, recomputed) } };
}

/** @param {Line} line */
function isLyeSide(line) {
  return LYE_SIDE.includes(line.group);
}

/**
 * @param {Tally} tally
 * @param {Record<string, number>} alkali grams by jar
 * @returns {Record<string, number>} grams of water and liquids that go with it
 */
function wet(tally, alkali) {
  const { lines, resolution_g: step } = tally.plan;
  const sum = (/** @type {(line: Line) => boolean} */ wanted) =>
    lines.filter(wanted).reduce((grams, line) => grams + line.planned_g, 0);
  const needed = Object.values(alkali).reduce((grams, jar) => grams + jar, 0);
  const more = waterFor(tally, needed, total(tally, isFat)) - waterFor(tally, sum((line) => line.group === "alkali"), sum(isFat));
  const planned = sum((line) => line.group === "water" || line.group === "liquid");
  const share = (/** @type {Line} */ line) => (planned ? line.planned_g / planned : 0);
  const wetLines = lines.filter((line) => line.group === "water" || line.group === "liquid");
  return Object.fromEntries(
    wetLines.map((line) => [line.key, roundTo(Math.max(0, line.planned_g + share(line) * more), step)]),
  );
}

/**
 * @param {Tally} tally
 * @param {number} alkali grams
 * @param {number} fats grams
 * @returns {number} grams of water, never less than the alkali: it would not dissolve
 */
function waterFor(tally, alkali, fats) {
  const { by, value } = tally.plan.water;
  const ways = { "water to alkali ratio": value * alkali, "lye concentration": (alkali * (1 - value)) / value };
  const water = by === "percent of fats" ? (value / 100) * fats : ways[/** @type {keyof typeof ways} */ (by)];
  return Math.max(alkali, water);
}
