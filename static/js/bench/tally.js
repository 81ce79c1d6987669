/**
 * What the events have told so far. The phone's half of soapbench.bench.folding: reading, changes and tally.
 */
import { take } from "./hands.js";
import { forget, remedy, soFarOf, tidy } from "./remedied.js";
import { allHere, scaleIsGood } from "./ticks.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Weight} Weight */

/** @param {Plan} plan */
export function emptyTally(plan) {
  return {
    plan,
    lines: new Map(plan.lines.map((line) => [line.key, line])),
    done: /** @type {Record<string, string>} */ ({}),
    ticked: /** @type {Record<string, boolean>} */ ({}),
    weights: /** @type {Record<string, Weight>} */ ({}),
    usedInstead: /** @type {Record<string, {material: string, lot: number | null}>} */ ({}),
    dealtWith: /** @type {Record<string, string>} */ ({}),
    pathAhead: "", // chosen before there was batter
    leftOut: /** @type {Set<string>} */ (new Set()),
    parts: /** @type {Record<string, number[]>} */ ({}), // weighed of a line that is not whole yet
    owed: /** @type {Record<string, number>} */ ({}), // still to weigh of a line that was weighed or left out
    shift: /** @type {Record<string, number>} */ ({}), // more or less than planned of a line that is still open
    factor: 1, // of the batch, on every amount still open
    lyeShare: 1, // of the made lye, that is poured
    choice: "",
    readings: /** @type {import("./types.js").Reading[]} */ ([]),
    portions: /** @type {Record<string, number>} */ ({}),
    lostBatter: 0, // grams from the pot; what a cup loses is taken off its portion
    trace: "",
    changes: /** @type {import("./types.js").Change[]} */ ([]),
    looks: /** @type {Event[]} */ ([]),
    pressings: /** @type {Event[]} */ ([]),
    taken: /** @type {Record<string, Event>} */ ({}), // prompt -> who took it in hand
    ended: "",
    last: "",
    pausedSince: /** @type {string | null} */ (null),
    rinsingSince: /** @type {string | null} */ (null),
  };
}

/** @typedef {ReturnType<typeof emptyTally>} Tally */

/**
 * @param {Tally} tally
 * @param {Event} event
 */
export function read(tally, event) {
  READERS[event.kind]?.(tally, event);
  if (!ASIDE.includes(event.kind)) tally.pausedSince = null;
  if (!UNTAKEN.includes(event.kind) && !tally.ended) tally.last = event.id;
}

// No work at the bench: a batch on hold stays on hold.
const HANDS = ["taken-in-hand", "given-back", "credited"];
const ASIDE = ["paused", "resumed", "rinsed", "noted", "attached", "decided", ...HANDS];
// Never what "take back" means.
const UNTAKEN = ["started", "paused", "resumed", "rinsed", ...HANDS];

/** @type {Record<string, (tally: Tally, event: Event) => void>} */
const READERS = {
  paused: (tally, event) => void (tally.pausedSince ??= event.happened_at),
  resumed: (tally) => void (tally.pausedSince = null),
  rinsed: (tally, event) =>
    void (tally.rinsingSince = event.payload.is_running ? (tally.rinsingSince ?? event.happened_at) : null),
  "taken-in-hand": (tally, event) => void (event.prompt in tally.done || take(tally.taken, event)),
  "given-back": (tally, event) => void delete tally.taken[event.prompt],
  ticked: (tally, { payload }) => void (tally.ticked[payload.item] = payload.is_here ?? true),
  weighed: (tally, event) => weighWhole(tally, event, tally.lines.get(event.payload.line), event.payload.lot ?? null),
  "part-weighed": (tally, event) => weighPart(tally, event.payload.line, event.payload.mass_g),
  remedied: (tally, event) => remedy(tally, event, reopen),
  done(tally, event) {
    if (event.payload.all_here) allHere(tally, event);
    markDone(tally, event.prompt, event);
  },
  "scale-checked"(tally, event) {
    const { known_g: known, read_g: read } = event.payload;
    if (scaleIsGood(known, read, tally.plan.resolution_g)) markKind(tally, event, "scale check");
    else delete tally.done["scale-check"];
  },
  settled(tally, event) {
    tally.choice = event.payload.choice;
    markDone(tally, event.prompt, event);
  },
  read(tally, event) {
    const began = Date.parse(tally.done["alkali-into-water"] ?? event.happened_at);
    const minutes = (Date.parse(event.happened_at) - began) / 60_000;
    tally.readings.push({ pot: event.payload.pot, temp_c: event.payload.temp_c, minutes, at: event.happened_at, event: event.id });
    markKind(tally, event, "read");
  },
  "pot-checked": (tally, event) => markKind(tally, event, "pot check"),
  "trace-seen"(tally, event) {
    tally.trace = event.payload.trace;
    markKind(tally, event, "trace");
  },
  "rest-tested"(tally, event) {
    if (!event.payload.oil_film && !event.payload.thickens_as_it_cools) return markKind(tally, event, "rest test");
    tally.trace = ""; // it was no trace: blend on to it, then rest once more
    delete tally.done.trace;
    delete tally.done["rest-test"];
  },
  split(tally, event) {
    tally.portions[event.payload.portion] = event.payload.mass_g;
    const prompts = tally.plan.prompts.filter(({ kind, portion }) => kind === "split" && portion === event.payload.portion);
    for (const prompt of prompts) markDone(tally, prompt.key, event);
  },
  drawn: (tally, event) => markKind(tally, event, "draw"),
  changed: change,
  looked(tally, event) {
    tally.looks.push(event);
    if (kindOf(tally, event.prompt) === "look") markDone(tally, event.prompt, event);
  },
  "firmness-checked"(tally, event) {
    tally.pressings.push(event);
    const isOver = event.payload.is_firm || event.payload.crumbles;
    if (isOver && kindOf(tally, event.prompt) === "firmness") markDone(tally, event.prompt, event);
  },
  cut: (tally, event) => markKind(tally, event, "cut"),
  tested: (tally, event) => markKind(tally, event, "test"),
  released: end,
  rejected: end,
  stopped: end,
};

/**
 * @param {Tally} tally
 * @param {Event} event
 */
function end(tally, event) {
  tally.ended = event.kind;
  if (event.kind !== "stopped") markKind(tally, event, "release");
}

/**
 * @param {Tally} tally
 * @param {string} key
 */
function kindOf(tally, key) {
  return tally.plan.prompts.find((prompt) => prompt.key === key)?.kind;
}

/**
 * @param {Tally} tally
 * @param {string} key
 * @param {Event} event
 */
function markDone(tally, key, event) {
  if (!key || !tally.plan.prompts.some((prompt) => prompt.key === key)) return;
  tally.done[key] ??= event.happened_at;
  delete tally.taken[key];
}

/**
 * Mark the prompt done that the event names, or else the one that waits for just this.
 * @param {Tally} tally
 * @param {Event} event
 * @param {string} kind
 */
function markKind(tally, event, kind) {
  const named = tally.plan.prompts.find((prompt) => prompt.key === event.prompt);
  if (named) {
    if (named.kind === kind) markDone(tally, named.key, event);
  } else if (kind !== "read") {
    for (const prompt of tally.plan.prompts) if (prompt.kind === kind) markDone(tally, prompt.key, event);
  }
}

/**
 * @param {Tally} tally
 * @param {string} line
 * @returns {string} the key of the prompt that weighs it
 */
function weighPrompt(tally, line) {
  return tally.plan.prompts.find((prompt) => prompt.kind === "weigh" && prompt.line === line)?.key ?? "";
}

/**
 * End a line: its mass is what was weighed of it so far and this together.
 * @param {Tally} tally
 * @param {Event} event
 * @param {Line | undefined} line
 * @param {number | null} lot
 */
function weighWhole(tally, event, line, lot) {
  if (!line) return;
  const mass = tidy(soFarOf(tally, line.key) + event.payload.mass_g);
  weigh(tally, { ...event, payload: { ...event.payload, mass_g: mass } }, line, lot);
}

/**
 * @param {Tally} tally
 * @param {string} key
 * @param {number} mass grams
 */
function weighPart(tally, key, mass) {
  if (!tally.lines.has(key)) return;
  if (key in tally.weights && !(key in tally.owed)) reopen(tally, key); // weighed anew, in parts this time
  (tally.parts[key] ??= []).push(mass);
  tally.leftOut.delete(key);
}

/**
 * @param {Tally} tally
 * @param {Event} event
 * @param {Line | undefined} line
 * @param {number | null} lot
 */
function weigh(tally, event, line, lot) {
  if (!line) return;
  forget(tally, line.key);
  const used = tally.usedInstead[line.key] ?? { material: line.material, lot: line.lot };
  tally.weights[line.key] = {
    mass_g: event.payload.mass_g,
    target_g: line.planned_g,
    material: used.material,
    lot: lot ?? used.lot,
    name: used.material === line.material ? line.name : (tally.plan.names[used.material] ?? line.name),
  };
  tally.leftOut.delete(line.key);
  markDone(tally, weighPrompt(tally, line.key), event);
}

/**
 * @param {Tally} tally
 * @param {Event} event
 */
function change(tally, event) {
  const line = tally.lines.get(event.payload.line);
  CHANGES[event.payload.what]?.(tally, event, line);
  const { id, prompt, happened_at, payload } = event;
  tally.changes.push({ event: id, prompt, at: happened_at, payload });
  if (event.payload.item) tally.dealtWith[event.payload.item] = event.payload.decision;
}

/** @type {Record<string, (tally: Tally, event: Event, line: Line | undefined) => void>} */
const CHANGES = {
  substituted(tally, event, line) {
    if (!line) return;
    const { material, lot = null, mass_g = null } = event.payload;
    tally.usedInstead[line.key] = { material, lot };
    tally.leftOut.delete(line.key);
    const weight = tally.weights[line.key];
    if (mass_g !== null) weigh(tally, event, line, lot);
    else if (weight) Object.assign(weight, { material, lot, name: tally.plan.names[material] ?? line.name });
  },
  "amount off"(tally, event, line) {
    if (line && event.payload.mass_g != null) weigh(tally, event, line, tally.weights[line.key]?.lot ?? line.lot);
  },
  "lost or spilt"(tally, event, line) {
    const weight = line && tally.weights[line.key];
    if (!line) loseBatter(tally, event.payload);
    if (!line || !weight) return;
    if (event.payload.mass_g != null) weight.mass_g = Math.max(0, weight.mass_g - event.payload.mass_g);
    else if (isStillApart(tally, line)) reopen(tally, line.key);
  },
  "left out"(tally, event, line) {
    if (!line) {
      if (event.payload.portion) tally.leftOut.add(`portion:${event.payload.portion}`);
      return;
    }
    tally.leftOut.add(line.key);
    forget(tally, line.key);
    markDone(tally, weighPrompt(tally, line.key), event);
  },
  "drawn differently"(tally, event) {
    if ("combine" in tally.done) markKind(tally, event, "draw");
    else tally.pathAhead = event.payload.path;
  },
  "another scale": (tally, event) => markDone(tally, "scale-check", event),
};

/**
 * @param {Tally} tally
 * @param {Record<string, any>} payload
 */
function loseBatter(tally, { portion, mass_g }) {
  if (mass_g == null || !("combine" in tally.done)) return;
  if (portion in tally.portions) tally.portions[portion] = Math.max(0, tally.portions[portion] - mass_g);
  else tally.lostBatter += mass_g;
}

/**
 * @param {Tally} tally
 * @param {Line} line
 * @returns {boolean} whether it can still be weighed anew
 */
function isStillApart(tally, line) {
  const isInLye = "alkali-into-water" in tally.done && (line.group === "alkali" || line.group === "water");
  return !("combine" in tally.done) && !isInLye;
}

/**
 * @param {Tally} tally
 * @param {string} line
 */
function reopen(tally, line) {
  forget(tally, line);
  delete tally.done[weighPrompt(tally, line)];
}
