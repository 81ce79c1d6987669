/**
 * The whole plan as the server keeps it, in the shape that soapbench.bench.phone.plan_document hands to the phone.
 * @param {any} plan
 */
export function forThePhone(plan) {
  const materials = Object.entries({ ...plan.materials, ...plan.stand_ins });
  return {
    ...plan,
    water: plan.formula.water,
    items: Object.fromEntries(plan.prompts.flatMap(({ ticks = [] }) => ticks.map(({ key, text }) => [key, text]))),
    names: Object.fromEntries(materials.map(([key, { name }]) => [key, name])),
    lots: Object.fromEntries(plan.lots.map((lot) => [String(lot.lot), lot])),
  };
}
