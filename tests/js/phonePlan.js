/** @type {Record<string, string>} the same table as soapbench.bench.folding.tolerances.KIND */
const KIND = {
  fat: "fat",
  carrier: "fat",
  water: "water",
  liquid: "water",
  alkali: "alkali",
  colourant: "colour",
  scent: "scent",
  addition: "addition",
};

/**
 * The whole plan as the server keeps it, in the shape that soapbench.bench.phone.plan_document hands to the phone.
 * @param {any} plan
 * @param {any} phone what only that page adds
 */
export function forThePhone(plan, phone) {
  const lines = plan.lines.map((line) => ({ portion: "", lot: null, rate: 0, basis: "", kind: KIND[line.group], ...line }));
  const materials = Object.entries({ ...plan.materials, ...plan.stand_ins });
  return {
    ...plan,
    lines,
    water: plan.formula.water,
    path: plan.formula.drawing?.path ?? "none",
    tools: Object.fromEntries((plan.drawings ?? []).map(({ tool, tool_name }) => [tool, tool_name])),
    prompts: plan.prompts.map((prompt) => ({ ...prompt, letters: lettersOf(plan, prompt) })),
    items: Object.fromEntries(plan.prompts.flatMap(({ ticks = [] }) => ticks.map(({ key, text }) => [key, text]))),
    names: Object.fromEntries(materials.map(([key, { name }]) => [key, name])),
    jug: phone.jug,
    mol_per_g: phone.mol_per_g,
    acid_mol_per_g: phone.acid_mol_per_g,
    lots: Object.fromEntries(
      plan.lots.map((lot) => [String(lot.lot), { ...lot, mol_per_g: phone.lots_mol_per_g[String(lot.lot)] }]),
    ),
  };
}

/**
 * The portions that a prompt is about, as soapbench.bench.folding.book tells them.
 * @param {any} plan
 * @param {any} prompt
 * @returns {string[]}
 */
function lettersOf(plan, prompt) {
  if (prompt.kind !== "pour") return prompt.portion ? [prompt.portion] : [];
  const stage = plan.formula.pour?.[Number(prompt.key.split(":")[1]) - 1];
  return stage?.portions ?? plan.portions.map((/** @type {any} */ { letter }) => letter);
}
