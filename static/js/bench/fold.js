/**
 * Where a run stands, on the phone alone: the small part of soapbench.bench.run.fold that the bench needs without a
 * network. Pure. The server's answer corrects it; both are run against tests/vectors.
 */
import { doseTargets, portionTargets, portionsNow, takings } from "./doses.js";
import { counted } from "./conflicts.js";
import { again, rest } from "./firming.js";
import { inHand } from "./hands.js";
import { soFarOf, tidy } from "./remedied.js";
import { plannedOf, potTotal, settle } from "./sums.js";
import { emptyTally, read } from "./tally.js";
import { dealt } from "./ticks.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Prompt} Prompt */
/** @typedef {import("./types.js").RunningTimer} RunningTimer */
/** @typedef {import("./types.js").Settlement} Settlement */
/** @typedef {import("./types.js").State} State */
/** @typedef {import("./tally.js").Tally} Tally */

const MINUTE = 60_000;
const FIRM = "firm";

/**
 * @param {Plan} plan
 * @param {readonly Event[]} events those the server has, by position, and after them those on their way
 * @returns {State}
 */
export function fold(plan, events) {
  const log = inOrder(events);
  const withdrawn = withdrawnBy(log);
  const standing = log.filter(({ id, kind }) => !withdrawn.has(id) && kind !== "took-back");
  const { facts, conflicts } = counted(plan, credited(standing));
  const tally = emptyTally(plan);
  for (const event of facts) read(tally, event);
  return { ...stateOf(tally, settle(tally)), conflicts };
}

/**
 * @param {Event[]} standing
 * @returns {Event[]} each with the person who really did it
 */
function credited(standing) {
  const said = standing.filter(({ kind }) => kind === "credited").map(({ payload }) => [payload.event, payload.by]);
  const credits = new Map(/** @type {[string, string][]} */ (said));
  return standing.map((event) => (credits.has(event.id) ? { ...event, person: credits.get(event.id) } : event));
}

/**
 * @param {readonly Event[]} events
 * @returns {Event[]} each once, the server's order first
 */
function inOrder(events) {
  const once = new Map();
  for (const event of events) if (!once.has(event.id)) once.set(event.id, event);
  return [...once.values()].sort((one, other) => (one.position ?? Infinity) - (other.position ?? Infinity) || 0);
}

/**
 * Read from the end, so that a taking back that was itself taken back withdraws nothing.
 * @param {readonly Event[]} log
 * @returns {Set<string>}
 */
function withdrawnBy(log) {
  /** @type {Set<string>} */
  const withdrawn = new Set();
  for (const event of [...log].reverse()) {
    if (event.kind === "took-back" && !withdrawn.has(event.id)) withdrawn.add(event.payload.event);
  }
  return withdrawn;
}

/**
 * @param {Tally} tally
 * @param {Settlement | null} settlement
 * @returns {Omit<State, "conflicts">}
 */
function stateOf(tally, settlement) {
  const skipped = notNeeded(tally, settlement);
  const isOpen = (/** @type {Prompt} */ prompt) => !(prompt.key in tally.done) && !(prompt.key in skipped);
  const current = tally.ended ? "" : (tally.plan.prompts.find(isOpen)?.key ?? "");
  const timers = running(tally, skipped);
  const asked = targets(tally, settlement);
  return {
    status: statusOf(tally, current),
    current,
    done: tally.done,
    skipped,
    ticked: tally.ticked,
    dealt: dealt(tally),
    weights: tally.weights,
    used_instead: tally.usedInstead,
    targets: asked,
    parts: tally.parts,
    owed: tally.owed,
    left_out: [...tally.leftOut],
    lye_share: tally.lyeShare,
    takings: takings(tally, asked),
    pot_g: potTotal(tally),
    portions_g: portionsNow(tally),
    settlement,
    readings: tally.readings,
    timers,
    due_at: dueAt(tally, current, timers),
    rest: rest(tally),
    pressed_at: tally.pressings.at(-1)?.happened_at ?? null,
    in_hand: tally.ended ? {} : inHand(tally.taken),
    paused_since: tally.ended ? null : tally.pausedSince,
    rinsing_since: tally.rinsingSince,
    last_event: tally.ended ? "" : tally.last,
    trace: tally.trace,
    changes: tally.changes,
  };
}

/**
 * @param {Tally} tally
 * @param {Settlement | null} settlement
 * @returns {Record<string, boolean>}
 */
function notNeeded(tally, settlement) {
  const skipped = tally.plan.prompts.filter((prompt) => !(prompt.key in tally.done) && isSkipped(tally, prompt, settlement));
  return Object.fromEntries(skipped.map((prompt) => [prompt.key, true]));
}

/**
 * @param {Tally} tally
 * @param {Prompt} prompt
 * @param {Settlement | null} settlement
 */
function isSkipped(tally, prompt, settlement) {
  if (prompt.kind === "settle") {
    const isWeighed = tally.plan.lines.some((line) => line.group === "alkali" && line.key in tally.weights);
    return settlement !== null && (!settlement.is_needed || isWeighed);
  }
  if (prompt.kind === "draw" && tally.pathAhead === "none") return true;
  if (prompt.kind === "act" && tally.leftOut.has(prompt.line)) return true;
  return prompt.phase === "portions" && tally.leftOut.has(`portion:${prompt.portion}`);
}

/**
 * @param {Tally} tally
 * @param {Record<string, boolean>} skipped
 * @returns {RunningTimer[]}
 */
function running(tally, skipped) {
  if (tally.ended) return [];
  const found = tally.plan.prompts.flatMap(({ key, timer }) => {
    const began = tally.done[key];
    if (!timer || !began || timer.until in tally.done || timer.until in skipped) return [];
    const resting = timer.until === "rest" ? rest(tally) : null;
    const ends = resting?.earliest ?? new Date(Date.parse(began) + timer.minutes * MINUTE).toISOString();
    return [{ key: timer.key, label: timer.label, started_at: began, ends_at: ends, until: timer.until, portion: timer.portion, spoon_after: timer.spoon_after }];
  });
  return [...found, ...again(tally)];
}

/**
 * @param {Tally} tally
 * @param {string} current
 * @param {RunningTimer[]} timers
 * @returns {string | null}
 */
function dueAt(tally, current, timers) {
  const keys = tally.plan.prompts.flatMap(({ timer }) => (timer && timer.until === current ? [timer.key] : []));
  if (current === FIRM) keys.push("firm-again");
  const ends = timers.filter((timer) => keys.includes(timer.key)).map((timer) => timer.ends_at);
  return ends.sort()[0] ?? null;
}

/**
 * @param {Tally} tally
 * @param {string} current
 */
function statusOf(tally, current) {
  if (tally.ended) return tally.ended;
  const phase = tally.plan.prompts.find((prompt) => prompt.key === current)?.phase ?? "release";
  if (phase === "rest" || phase === "cut") return "resting";
  return phase === "cure" || phase === "release" ? "curing" : "bench";
}

/**
 * Grams to weigh now, line by line, and to split off.
 * @param {Tally} tally
 * @param {Settlement | null} settlement
 * @returns {Record<string, number>}
 */
function targets(tally, settlement) {
  const changed = settlement?.is_needed && settlement.choice !== "planned" ? settlement.recomputed : {};
  const doses = doseTargets(tally);
  const asked = (/** @type {import("./types.js").Line} */ line) =>
    line.key in tally.owed
      ? tidy(soFarOf(tally, line.key) + tally.owed[line.key])
      : (doses[line.key] ?? changed[line.key] ?? plannedOf(tally, line));
  return { ...Object.fromEntries(tally.plan.lines.map((line) => [line.key, asked(line)])), ...portionTargets(tally) };
}
