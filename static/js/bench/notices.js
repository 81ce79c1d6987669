/**
 * What a change means at the prompts that come after it, also without a network: the phone's half of
 * soapbench.bench.folding.notices. Pure; tests/vectors hold both to the same words.
 */

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
  return `${Number(mass.toFixed(4))} g`;
}

/**
 * @param {string} decision
 * @returns {string} without a full stop at its end
 */
function decided(decision) {
  return `Decided: ${decision.replace(/\.+$/, "")}.`;
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
    const rest = carrier.basis === "fat" ? `${carrier.name} still belongs to the fats` : "leave this out too";
    return all([prompt], `${line.name} is left out: ${rest}.`);
  });
  if (line.group !== "colourant" && line.group !== "scent") return carriers;
  const where = line.portion === "all" ? "the batter" : `portion ${line.portion}`;
  return [...carriers, ...all(pours(plan, line.portion), `No ${line.name} in ${where}.`)];
}

/** @type {Record<string, Says>} */
const SAYS = {
  substituted(plan, change, targets) {
    const [line, name] = [lineOf(plan, change), plan.names[change.payload.material]];
    if (!line || !name) return [];
    return plan.prompts
      .filter((prompt) => prompt.line === line.key)
      .map((prompt) => {
        const weighs = prompt.kind === "weigh" ? `: weigh ${grams(targets[line.key] ?? line.planned_g)}` : "";
        return [prompt, `${name} goes in for ${line.name}${weighs}.`];
      });
  },
  "amount off"(plan, change) {
    const [line, mass] = [lineOf(plan, change), change.payload.mass_g];
    if (!line || mass == null) return [];
    const acts = ofKind(plan, "act").filter((prompt) => prompt.line === line.key);
    return all(acts, `${line.name}: ${grams(mass)} weighed, ${grams(line.planned_g)} planned.`);
  },
  "lost or spilt"(plan, change) {
    const line = lineOf(plan, change);
    const { mass_g: mass = null, portion: letter = "" } = change.payload;
    if (line) {
      const prompts = plan.prompts.filter((prompt) => prompt.line === line.key);
      return all(prompts, mass == null ? `Some ${line.name} was lost.` : `${grams(mass)} of ${line.name} was lost.`);
    }
    const howMuch = mass == null ? "Some batter" : `${grams(mass)} of batter`;
    const from = letter ? ` from portion ${letter}` : "";
    const sentence = `${howMuch} was lost${from}: fewer or thinner bars.`;
    return all([...pours(plan, letter), ...ofKind(plan, "cut")], sentence);
  },
  "left out"(plan, change) {
    const line = lineOf(plan, change);
    if (line) return withoutIt(plan, line);
    const letter = change.payload.portion;
    return letter ? all([...pours(plan, letter), ...ofKind(plan, "draw", "cut")], `Portion ${letter} is left out.`) : [];
  },
  "drawn differently"(plan, change) {
    const tool = plan.tools[change.payload.tool];
    const withTool = tool ? ` with ${tool}` : "";
    return all(ofKind(plan, "draw", "cut"), `Drawn: ${change.payload.path}${withTool}. Planned: ${plan.path}.`);
  },
  "thickened early"(plan, change) {
    const letter = change.payload.portion ?? "";
    const where = letter ? `Portion ${letter}` : "The batter";
    const acts = plan.prompts.filter(
      ({ kind, phase, portion }) => kind === "act" && phase === "portions" && (!letter || letter === portion),
    );
    return [
      ...all(acts, `${where} thickened early: stir by hand only.`),
      ...all(pours(plan, letter), `${where} thickened early. ${decided(change.payload.decision)}`),
    ];
  },
  "temperature off"(plan, change) {
    const title = plan.prompts.find(({ key }) => key === change.prompt)?.title;
    const prompts = plan.prompts.filter(({ kind, key }) => kind === "trace" || WARMED.includes(key));
    const where = title ? ` at “${title}”` : "";
    return all(prompts, `${change.payload.temp_c} °C${where}. ${decided(change.payload.decision)}`);
  },
};
