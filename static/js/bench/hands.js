/**
 * Who has which prompt in hand: the phone's half of soapbench.bench.folding.hands, and where the work of this phone
 * goes on meanwhile. Pure. Nobody is locked out: a prompt in another's hand can be taken over, or answered.
 */
import { knows } from "./conflicts.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").InHand} InHand */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Prompt} Prompt */
/** @typedef {import("./types.js").State} State */
/** @typedef {{person: string, device: string}} Me */

const LYE_MEETS_FATS = "combine";

/**
 * Put a prompt into somebody's hand. Of two who took it at once the first has it.
 * @param {Record<string, Event>} taken
 * @param {Event} event
 */
export function take(taken, event) {
  const held = taken[event.prompt];
  if (!held || knows(event, held)) taken[event.prompt] = event;
}

/**
 * @param {Record<string, Event>} taken
 * @returns {Record<string, InHand>}
 */
export function inHand(taken) {
  return Object.fromEntries(Object.entries(taken).map(([key, event]) => [key, handOf(event)]));
}

/**
 * @param {Event} event
 * @returns {InHand}
 */
function handOf({ id, payload, person = "", device, happened_at }) {
  return { person: payload.to || person, device: payload.to ? "" : device, since: happened_at, event: id };
}

/**
 * @param {InHand | undefined} hand
 * @param {Me} me
 * @returns {"" | "mine" | "theirs"}
 */
export function whose(hand, me) {
  if (!hand) return "";
  const isMine = hand.device ? hand.device === me.device : hand.person === me.person;
  return isMine ? "mine" : "theirs";
}

/**
 * Which work may be done side by side: the name of the stretch a prompt lies in, "" for what everything waits for.
 * @param {Prompt} prompt
 */
export function stretchOf({ kind, phase, meanwhile }) {
  if (meanwhile) return "meanwhile";
  if (phase === "gather") return phase;
  if (phase === "fats" && (kind === "weigh" || kind === "act")) return phase;
  if (phase === "portions" && kind === "act") return phase;
  return phase === "rest" && (kind === "act" || kind === "tick") ? phase : "";
}

/**
 * Where this phone's work goes on: at what it has in hand, else at the first open prompt that is in nobody else's and
 * can be done beside what they have; "" when all of it waits for them.
 * @param {Plan} plan
 * @param {State} state
 * @param {Me} me
 * @returns {string}
 */
export function nextFor(plan, state, me) {
  const open = plan.prompts.filter(({ key }) => !(key in state.done) && !(key in state.skipped));
  const mine = open.find(({ key }) => whose(state.in_hand[key], me) === "mine");
  if (mine) return mine.key;
  /** @type {Prompt[]} */
  const theirs = [];
  for (const prompt of open) {
    if (whose(state.in_hand[prompt.key], me) === "theirs") theirs.push(prompt);
    else if (theirs.every((held) => goBeside(held, prompt, state))) return prompt.key;
  }
  return "";
}

/**
 * @param {Prompt} held by somebody else
 * @param {Prompt} prompt
 * @param {State} state
 */
function goBeside(held, prompt, state) {
  const [theirs, own] = [stretchOf(held), stretchOf(prompt)];
  const isEarly = !(LYE_MEETS_FATS in state.done);
  if (own === "meanwhile" && isEarly) return true; // cups and colours, at any time before there is batter
  if (theirs === "meanwhile") return isEarly && prompt.kind !== "hold" && prompt.phase !== "portions";
  return theirs !== "" && theirs === own;
}
