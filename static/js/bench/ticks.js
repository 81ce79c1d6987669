/**
 * Lists to tick, as the fold reads them: who is answered, what is done about what is not here. Pure.
 * The phone's half of soapbench.bench.folding.gathered and of soapbench.bench.rules.gathering.
 */

import { translated } from "../words.js";

/** @typedef {import("./types.js").Prompt} Prompt */
/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./tally.js").Tally} Tally */

/** Class III in service: the load in steps up to which an error in steps is allowed; see soapbench.science.scale. */
const ALLOWED = [
  [500, 1],
  [2000, 2],
  [Infinity, 3],
];
const HAIR = 1e-9;

/**
 * @param {number} known grams
 * @param {number} read grams
 * @param {number} step grams
 * @returns {boolean} whether the scale may weigh the batch
 */
export function scaleIsGood(known, read, step) {
  if (known <= 0) return false;
  const allowed = ALLOWED.find(([load]) => known <= load * step)?.[1] ?? 0;
  return Math.abs(read - known) <= allowed * step + HAIR;
}

/**
 * Tick every item of a list that has no answer yet, but for those that are ticked by themselves.
 * @param {Tally} tally
 * @param {Event} event
 */
export function allHere(tally, event) {
  const prompt = tally.plan.prompts.find(({ key }) => key === event.prompt);
  for (const { key, alone } of prompt?.ticks ?? []) if (!alone) tally.ticked[key] ??= true;
}

/**
 * @param {Tally} tally
 * @returns {Record<string, string>} what is done about each item that a change deals with
 */
export function dealt(tally) {
  const items = tally.plan.prompts.flatMap(({ ticks }) => ticks ?? []);
  const found = items.map(({ key, lines }) => [key, tally.dealtWith[key] ?? ofLines(tally, lines ?? [])]);
  return Object.fromEntries(found.filter(([, words]) => words));
}

/**
 * @param {Tally} tally
 * @param {string[]} lines
 */
function ofLines(tally, lines) {
  const answers = lines.map((line) => {
    const instead = tally.usedInstead[line];
    if (tally.leftOut.has(line)) return translated("left out");
    const name = instead && (tally.plan.names[instead.material] ?? instead.material);
    return name ? translated("{name} instead", { name }) : "";
  });
  return answers.length && answers.every(Boolean) ? [...new Set(answers)].join(", ") : "";
}

/**
 * @param {Prompt} prompt
 * @param {{ticked: Record<string, boolean>, dealt: Record<string, string>}} state
 * @returns {string[]} keys of the items that keep a list of the gate open though the rest is confirmed together
 */
export function openItems(prompt, { ticked, dealt }) {
  if (prompt.phase !== "gather" && prompt.key !== "protection") return [];
  const isOpen = (/** @type {{key: string, alone: boolean}} */ { key, alone }) =>
    ticked[key] !== true && !dealt[key] && (alone || ticked[key] === false);
  return prompt.ticks.filter(isOpen).map(({ key }) => key);
}
