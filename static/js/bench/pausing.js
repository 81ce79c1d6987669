/**
 * Called away and back, on the phone alone: what to look at first, what has cooled, and how rarely a card may open by
 * itself. Pure. The server's half is soapbench.bench.pausing; both are held by tests/vectors.
 */

/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Prompt} Prompt */
/** @typedef {import("./types.js").State} State */
/** @typedef {{began: string, curve: [number, number][]}} Pot rows of minutes and °C, from the server's fit */

const MINUTE = 60_000;
const [LYE, COMBINE] = ["alkali-into-water", "combine"];
const FLUID = ["combine", "portions", "pour", "drawing"];
const LONG_PAUSE_MS = 5 * MINUTE;
// A prompt at which the maker has something in hand; at the others one comes and goes.
const IN_HAND = ["weigh", "act", "hold", "settle", "read", "pot check", "trace", "split", "pour", "draw"];
const BENCH = ["fats", "lye", "meanwhile", "combine", "portions", "pour", "drawing"];

export const AWAY_MS = 30_000;
export const BETWEEN_CARDS_MS = 10 * MINUTE;

/**
 * @param {Plan} plan
 * @param {State} view
 * @param {number} away milliseconds
 * @returns {string[]} what to look at first, the urgent before the others
 */
export function checks(plan, view, away) {
  const prompt = plan.prompts.find(({ key }) => key === view.current);
  if (!prompt) return [];
  const isCombined = COMBINE in view.done;
  const isFluid = isCombined && FLUID.includes(prompt.phase);
  const asked = {
    finish: [LYE, COMBINE].includes(prompt.key),
    pour: isFluid,
    stir: isFluid && away >= LONG_PAUSE_MS && "trace" in view.done && prompt.phase !== "drawing",
    read: LYE in view.done && !isCombined && prompt.kind !== "cool",
    added: prompt.kind === "weigh" && !isFluid,
    "stirred in": prompt.kind === "act" && Boolean(prompt.line),
  };
  return Object.entries(asked).flatMap(([check, isAsked]) => (isAsked ? [check] : []));
}

/**
 * @param {Plan} plan
 * @param {State} view
 * @returns {{without: number, with: number, name: string, vessel: string, hasTare: boolean} | null} grams of the
 *   vessel of what is in hand, without it and with it
 */
export function inVessel(plan, view) {
  const prompt = plan.prompts.find(({ key }) => key === view.current);
  const line = prompt && plan.lines.find(({ key }) => key === prompt.line);
  if (!line) return null;
  const others = plan.lines.filter((each) => each.vessel === line.vessel && each.portion === line.portion && each.key !== line.key);
  const held = others.reduce((sum, { key }) => sum + (view.weights[key]?.mass_g ?? 0), 0);
  const without = Number(((plan.tares[line.vessel] ?? 0) + held).toFixed(6));
  const withIt = Number((without + (view.targets[line.key] ?? line.planned_g)).toFixed(6));
  const name = view.weights[line.key]?.name ?? line.name;
  return { without, with: withIt, name, vessel: line.vessel, hasTare: line.vessel in plan.tares };
}

/**
 * @param {Pot} pot
 * @param {number} now milliseconds since 1970
 * @returns {number} °C to expect, straight between the rows, level before and after them
 */
export function tempNow({ began, curve }, now) {
  const minutes = (now - Date.parse(began)) / MINUTE;
  const found = curve.findIndex(([at]) => at >= minutes);
  const after = found < 0 ? curve.length - 1 : found;
  const [[later, warmLater], [earlier, warmEarlier]] = [curve[after], curve[Math.max(0, after - 1)]];
  if (minutes >= later || later === earlier) return warmLater;
  return warmEarlier + ((warmLater - warmEarlier) * (minutes - earlier)) / (later - earlier);
}

/**
 * Whether the card may open by itself: there is something in hand, the maker was away, and none opened lately.
 * @param {Prompt | undefined} prompt of now
 * @param {number} away milliseconds
 * @param {number} sinceLast milliseconds since a card last opened by itself
 * @returns {boolean}
 */
export function mayOpen(prompt, away, sinceLast) {
  if (!prompt || !IN_HAND.includes(prompt.kind) || !BENCH.includes(prompt.phase)) return false;
  return away > AWAY_MS && sinceLast >= BETWEEN_CARDS_MS;
}
