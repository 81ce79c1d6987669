/**
 * What a change means at the prompts that come after it, also without a network: the phone's half of
 * soapbench.bench.folding.notices. Pure; tests/vectors hold both to the same words.
 */

import { translated } from "../words.js";

/** @typedef {import("./types.js").Change} Change */
/** @typedef {import("./types.js").Line} Line */
/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").Prompt} Prompt */
/** @typedef {import("./types.js").State} State */
/** @typedef {{event: string, at: string, sentence: string}} Notice */
/** @typedef {(plan: Plan, change: Change, targets: Record<string, number>) => [Prompt, string][]} Says */

const WARMED = ["cover", "oven"];

/**
 * @param {Plan} plan
 * @param {State} state
 * @returns {Record<string, Notice[]>} by the prompt's key; prompts that are done have none
 */
export function noticesOf(plan, state) {
  /** @type {Record<string, Notice[]>} */
  const found = {};
  for (const change of state.changes) {
    for (const [prompt, sentence] of SAYS[change.payload.what]?.(plan, change, state.targets) ?? []) {
      if (prompt.key === change.prompt || prompt.key in state.done) continue;
      (found[prompt.key] ??= []).push({ event: change.event, at: change.at, sentence });
    }
  }
  return found;
}

/**
 * @param {number} mass
 * @returns {string}
 */
function grams(mass) {
  return translated("{mass} g", { mass: Number(mass.toFixed(4)) });
}

/**
 * @param {string} decision
 * @returns {string} without a full stop at its end
 */
function decided(decision) {
  return decision.replace(/\.+$/, "");
}

/**
 * @param {Plan} plan
 * @param {Change} change
 */
function lineOf(plan, change) {
  return plan.lines.find(({ key }) => key === change.payload.line);
}

/**
 * The pours that a portion goes into; every pour for "" and for what is in the whole batter.
 * @param {Plan} plan
 * @param {string} letter
 */
function pours(plan, letter) {
  const isWhole = letter === "" || letter === "all";
  return plan.prompts.filter(({ kind, letters }) => kind === "pour" && (isWhole || letters.includes(letter)));
}

/**
 * @param {Plan} plan
 * @param {...string} kinds
 */
function ofKind(plan, ...kinds) {
  return plan.prompts.filter(({ kind }) => kinds.includes(kind));
}

/**
 * @param {Prompt[]} prompts
 * @param {string} sentence
 * @returns {[Prompt, string][]}
 */
function all(prompts, sentence) {
  return prompts.map((prompt) => [prompt, sentence]);
}

/**
 * @param {Plan} plan
 * @param {Line} line
 * @returns {[Prompt, string][]}
 */
function withoutIt(plan, line) {
  const start = `carrier:${line.portion}:${line.material}:`;
  const carriers = ofKind(plan, "weigh").flatMap((prompt) => {
    const carrier = plan.lines.find(({ key }) => key === prompt.line);
    if (!carrier?.key.startsWith(start)) return [];
    const names = { name: line.name, carrier: carrier.name };
    const sentence =
      carrier.basis === "fat"
        ? translated("{name} is left out: {carrier} still belongs to the fats.", names)
        : translated("{name} is left out: leave this out too.", names);
    return all([prompt], sentence);
  });
  if (line.group !== "colourant" && line.group !== "scent") return carriers;
  const { name, portion } = line;
  const without =
    portion === "all"
      ? translated("No {name} in the batter.", { name })
      : translated("No {name} in portion {portion}.", { name, portion });
  return [...carriers, ...all(pours(plan, portion), without)];
}

/**
 * @param {string} name
 * @param {number | null} mass
 * @returns {string}
 */
function lostOfLine(name, mass) {
  if (mass == null) return translated("Some {name} was lost.", { name });
  return translated("{mass} of {name} was lost.", { mass: grams(mass), name });
}

/**
 * @param {string} letter
 * @param {number | null} mass
 * @returns {string}
 */
function lostBatter(letter, mass) {
  const told = { letter, mass: mass == null ? "" : grams(mass) };
  if (letter && told.mass) return translated("{mass} of batter was lost from portion {letter}: fewer or thinner bars.", told);
  if (letter) return translated("Some batter was lost from portion {letter}: fewer or thinner bars.", told);
  if (told.mass) return translated("{mass} of batter was lost: fewer or thinner bars.", told);
  return translated("Some batter was lost: fewer or thinner bars.");
}

/** @type {Record<string, Says>} */
const SAYS = {
  substituted(plan, change, targets) {
    const [line, name] = [lineOf(plan, change), plan.names[change.payload.material]];
    if (!line || !name) return [];
    return plan.prompts
      .filter((prompt) => prompt.line === line.key)
      .map((prompt) => {
        const names = { name, line: line.name };
        if (prompt.kind !== "weigh") return [prompt, translated("{name} goes in for {line}.", names)];
        const mass = grams(targets[line.key] ?? line.planned_g);
        return [prompt, translated("{name} goes in for {line}: weigh {mass}.", { mass, ...names })];
      });
  },
  "amount off"(plan, change) {
    const [line, mass] = [lineOf(plan, change), change.payload.mass_g];
    if (!line || mass == null) return [];
    const acts = ofKind(plan, "act").filter((prompt) => prompt.line === line.key);
    return all(acts, 
      translated("{name}: {mass} weighed, {planned} planned.", {
        name: line.name,
        mass: grams(mass),
        planned: grams(line.planned_g),
      }),
    );
  },
  "lost or spilt"(plan, change) {
    const line = lineOf(plan, change);
    const { mass_g: mass = null, portion: letter = "" } = change.payload;
    if (line) {
      const prompts = plan.prompts.filter((prompt) => prompt.line === line.key);
      return all(prompts, lostOfLine(line.name, mass));
    }
    return all([...pours(plan, letter), ...ofKind(plan, "cut")], lostBatter(letter, mass));
  },
  "left out"(plan, change) {
    const line = lineOf(plan, change);
    if (line) return withoutIt(plan, line);
    const letter = change.payload.portion;
    return letter ? all([...pours(plan, letter), ...ofKind(plan, "draw", "cut")], translated("Portion {portion} is left out.", { portion: letter })) : [];
  },
  "drawn differently"(plan, change) {
    const tool = plan.tools[change.payload.tool];
    const names = { path: translated(change.payload.path), tool, planned: translated(plan.path) };
    const sentence = tool
      ? translated("Drawn: {path} with {tool}. Planned: {planned}.", names)
      : translated("Drawn: {path}. Planned: {planned}.", names);
    return all(ofKind(plan, "draw", "cut"), sentence);
  },
  "thickened early"(plan, change) {
    const letter = change.payload.portion ?? "";
    const where = letter ? translated("Portion {letter}", { letter }) : translated("The batter");
    const decision = decided(change.payload.decision);
    const acts = plan.prompts.filter(
      ({ kind, phase, portion }) => kind === "act" && phase === "portions" && (!letter || letter === portion),
    );
    return [
      ...all(acts, translated("{where} thickened early: stir by hand only.", { where })),
      ...all(pours(plan, letter), translated("{where} thickened early. Decided: {decision}.", { where, decision })),
    ];
  },
  "temperature off"(plan, change) {
    const title = plan.prompts.find(({ key }) => key === change.prompt)?.title;
    const prompts = plan.prompts.filter(({ kind, key }) => kind === "trace" || WARMED.includes(key));
    const told = { temp: change.payload.temp_c, title: title ?? "", decision: decided(change.payload.decision) };
    const sentence = title
      ? translated("{temp} °C at “{title}”. Decided: {decision}.", told)
      : translated("{temp} °C. Decided: {decision}.", told);
    return all(prompts, sentence);
  },
};
