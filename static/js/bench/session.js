/**
 * One run on this device: what the server has, what is still on its way, and where the run stands with both.
 */
import { fold } from "./fold.js";

/** @typedef {import("./types.js").Answer} Answer */
/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").State} State */
/** @typedef {import("./outbox.js").Kept} Kept */

/**
 * @typedef {State & {tolerances: Record<string, number>, server: any, waiting: number, log: Event[]}} View
 */

/**
 * @param {Plan} plan
 * @param {any} server the state as the server folded it
 * @param {Event[]} facts
 */
export function session(plan, server, facts) {
  let base = fold(plan, facts);
  /** @type {Kept[]} */
  let kept = [];

  return {
    plan,
    /** @returns {number} how many facts of the run the device holds */
    have: () => facts.length,
    /** @returns {Event[]} those that the server has, as far as the device knows */
    facts: () => facts,
    /** @returns {Kept[]} events on their way, refused ones too */
    kept: () => kept,
    /** @param {Kept[]} events */
    setKept(events) {
      const known = new Set(facts.map((fact) => fact.id));
      kept = events.filter((event) => !known.has(event.id));
    },
    /** @param {{state: any, facts: Event[]}} answer */
    take(answer) {
      const known = new Set(facts.map((fact) => fact.id));
      facts = [...facts, ...answer.facts.filter((fact) => !known.has(fact.id))];
      server = answer.state;
      base = fold(plan, facts);
    },
    /** @returns {View} */
    view() {
      const waiting = kept.filter((event) => !event.refused);
      const log = [...facts, ...waiting];
      const now = waiting.length ? fold(plan, log) : base;
      return { ...now, timers: withWindow(now, server), targets: corrected(now, base, server), tolerances: server.tolerances, server, waiting: waiting.length, log };
    },
  };
}

/**
 * The server's targets, but for those that what is still on its way has moved.
 * @param {State} now
 * @param {State} base
 * @param {any} server
 * @returns {Record<string, number>}
 */
function corrected(now, base, server) {
  const moved = Object.entries(now.targets).filter(([key, grams]) => grams !== base.targets[key]);
  return { ...now.targets, ...server.targets, ...Object.fromEntries(moved) };
}

/**
 * The timers of the window as the last fit set them, absolute times, in place of the planned one: without a network
 * they go on.
 * @param {State} now
 * @param {any} server
 * @returns {State["timers"]}
 */
function withWindow(now, server) {
  const isOver = "combine" in now.done || !("alkali-into-water" in now.done);
  const wanted = "cool" in now.done ? ["window-closes"] : ["lye-cooling", "window-closes"];
  const fitted = isOver ? [] : server.timers.filter((/** @type {{key: string}} */ { key }) => wanted.includes(key));
  const keys = new Set(fitted.map((/** @type {{key: string}} */ { key }) => key));
  return [...now.timers.filter(({ key }) => !keys.has(key)), ...fitted];
}
