/**
 * Two answers to one question: the phone's half of soapbench.bench.folding.conflicts. Pure; tests/vectors hold both to
 * the same. An answer knows of another when whoever gave it had seen it, or gave it on the same device.
 */

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Conflict} Conflict */
/** @typedef {Record<string, any>} Payload */

const PLAIN_PAGE = "plain page";
const TRACES = ["emulsion", "thin", "medium", "thick"];
const NOTHING_COUNTS = "settled";
/** @type {Record<string, string[]>} what tells two answers apart */
export const TOLD = {
  ticked: ["is_here"],
  "scale-checked": ["known_g", "read_g"],
  weighed: ["mass_g", "lot"],
  settled: ["choice"],
  "pot-checked": ["mass_g"],
  "trace-seen": ["trace"],
  "rest-tested": ["oil_film", "thickens_as_it_cools"],
  split: ["mass_g"],
  drawn: ["path", "tool", "passes"],
  looked: ["gel"],
  "firmness-checked": ["is_firm", "crumbles"],
  cut: ["bars", "mass_g", "offcuts_g"],
  done: [],
};
/** @type {Record<string, any>} what a payload means where it does not say, as the server stores it */
const UNSAID = { is_here: true, lot: null, tool: "", passes: 0, crumbles: false, offcuts_g: 0 };
/** @type {Record<string, string>} */
const NAMED_BY = { ticked: "item", weighed: "line", split: "portion" };

/**
 * The facts without those that do not count, a weight that is true twice as one sum, and the conflicts.
 * @param {Plan} plan
 * @param {Event[]} standing in the order of the log
 * @returns {{facts: Event[], conflicts: Conflict[]}}
 */
export function counted(plan, standing) {
  const conflicts = sideBySide(standing).map((answers) => conflictOf(plan, answers, standing));
  const summed = conflicts.flatMap(sumOf);
  const sums = new Map(summed.map((fact) => [fact.id, fact]));
  const aside = new Set(conflicts.flatMap((conflict) => setAside(conflict, sums)));
  const facts = standing.filter(({ id }) => !aside.has(id)).map((fact) => sums.get(fact.id) ?? fact);
  return { facts, conflicts };
}

/**
 * @param {Conflict} conflict
 * @param {Map<string, Event>} sums
 */
function setAside({ facts, counts }, sums) {
  const isSum = counts.length > 1;
  return facts.map(({ id }) => id).filter((id) => !counts.includes(id) || (isSum && !sums.has(id)));
}

/**
 * @param {Event} later
 * @param {Event} earlier
 */
export function knows(later, earlier) {
  const isSameHand = later.device === earlier.device && (later.device !== PLAIN_PAGE || later.person === earlier.person);
  return isSameHand || later.seen == null || later.seen >= (earlier.position ?? Infinity);
}

/**
 * @param {Event[]} standing
 * @returns {Event[][]}
 */
function sideBySide(standing) {
  /** @type {Map<string, Event[]>} */
  const live = new Map();
  for (const fact of standing) {
    if (!(fact.kind in TOLD)) continue;
    const before = live.get(subjectOf(fact)) ?? [];
    live.set(subjectOf(fact), [...before.filter((each) => !knows(fact, each)), fact]);
  }
  return [...live.values()].filter((answers) => answers.length > 1);
}

/** @param {Event} fact */
function subjectOf({ kind, prompt, payload }) {
  return `${kind} ${payload[NAMED_BY[kind]] || prompt}`;
}

/**
 * @param {Event} fact
 * @param {string} name
 */
export function said({ payload }, name) {
  return payload[name] ?? UNSAID[name] ?? null;
}

/**
 * @param {Plan} plan
 * @param {Event[]} answers
 * @param {Event[]} standing
 * @returns {Conflict}
 */
function conflictOf(plan, answers, standing) {
  const ids = answers.map(({ id }) => id);
  const decision = decisionOf(ids, standing);
  const isSame = answers.slice(1).every((each) => saysTheSame(plan, answers[0], each));
  return {
    subject: subjectOf(answers[0]),
    prompt: answers[0].prompt,
    facts: answers,
    counts: decision ? ids.filter((id) => decision.payload.counts.includes(id)) : careful(plan, answers, isSame),
    is_same: isSame,
    may_be_both: answers[0].kind === "weighed",
    decision,
    is_open: !decision && !isSame,
  };
}

/**
 * @param {string[]} ids
 * @param {Event[]} standing
 * @returns {Event | null}
 */
function decisionOf(ids, standing) {
  const isAbout = (/** @type {Event} */ { kind, payload }) =>
    kind === "decided" && ids.every((id) => payload.events.includes(id)) && ids.some((id) => payload.counts.includes(id));
  const found = standing.filter(isAbout);
  const last = found.at(-1);
  if (!last) return null;
  const rivals = found.slice(0, -1).filter((fact) => !knows(last, fact));
  const counts = (/** @type {Event} */ fact) => [...new Set(fact.payload.counts)].sort().join();
  return rivals.every((rival) => counts(rival) === counts(last)) ? last : null;
}

/**
 * @param {Plan} plan
 * @param {Event} one
 * @param {Event} other
 */
function saysTheSame(plan, one, other) {
  return TOLD[one.kind].every((name) => isAlike(plan, one, name, said(other, name)));
}

/**
 * @param {Plan} plan
 * @param {Event} one
 * @param {string} name
 * @param {any} value
 */
function isAlike(plan, one, name, value) {
  const own = said(one, name);
  if (name === "lot") return own === null || value === null || own === value;
  if (!name.endsWith("_g")) return own === value;
  const allowed = lineOf(plan, one.payload)?.tolerance_g ?? plan.resolution_g;
  return Math.abs(own - value) <= allowed + 1e-9;
}

/**
 * @param {Plan} plan
 * @param {Payload} payload
 */
function lineOf(plan, payload) {
  return plan.lines.find(({ key }) => key === payload.line);
}

/**
 * @param {Plan} plan
 * @param {Event[]} answers
 * @param {boolean} isSame
 * @returns {string[]}
 */
function careful(plan, answers, isSame) {
  const [first] = answers;
  if (first.kind === NOTHING_COUNTS && !isSame) return [];
  const side = CAREFUL[first.kind] ?? (() => 0);
  const least = answers.reduce((best, each) => (side(each, plan) < side(best, plan) ? each : best));
  return [least.id];
}

/**
 * @param {Event} fact
 * @param {Plan} plan
 */
function weight({ payload }, plan) {
  const group = lineOf(plan, payload)?.group ?? "";
  return payload.mass_g * (["fat", "carrier", "water", "liquid"].includes(group) ? 1 : -1);
}

/** @type {Record<string, (fact: Event, plan: Plan) => number>} */
const CAREFUL = {
  ticked: (fact) => Number(said(fact, "is_here")),
  "scale-checked": ({ payload }) => -Math.abs(payload.read_g - payload.known_g),
  weighed: weight,
  "pot-checked": ({ payload }) => payload.mass_g,
  "trace-seen": ({ payload }) => TRACES.indexOf(payload.trace),
  "rest-tested": ({ payload }) => -(Number(payload.oil_film) + Number(payload.thickens_as_it_cools)),
  split: ({ payload }) => payload.mass_g,
  looked: ({ payload }) => ["no", "unknown", "yes"].indexOf(payload.gel),
  "firmness-checked": (fact) => Number(said(fact, "is_firm")) - 2 * Number(said(fact, "crumbles")),
  cut: ({ payload }) => payload.bars,
};

/**
 * @param {Conflict} conflict
 * @returns {Event[]} the last of the weights that are all true, with the grams of all
 */
function sumOf({ facts, counts }) {
  if (counts.length < 2) return [];
  const told = facts.filter(({ id }) => counts.includes(id));
  const grams = Number(told.reduce((sum, { payload }) => sum + payload.mass_g, 0).toFixed(6));
  const last = told[told.length - 1];
  return [{ ...last, payload: { ...last.payload, mass_g: grams } }];
}
