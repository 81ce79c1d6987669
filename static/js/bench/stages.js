/**
 * How far the batch has come, by what would have to be made safe. Pure; the phone's half of soapbench.bench.safety.
 */

/** @typedef {import("./types.js").Plan} Plan */
/** @typedef {import("./types.js").State} State */

/**
 * Return the stage, and "lye" beside it while a part of the lye that met no fats stands somewhere.
 * @param {Plan} plan
 * @param {State} view
 * @returns {string[]}
 */
export function stagesNow(plan, view) {
  const isPartLeft = "combine" in view.done && view.lye_share < 1 && !("clean" in view.done);
  return [stageOf(plan, view), ...(isPartLeft ? ["lye"] : [])];
}

/**
 * @param {Plan} plan
 * @param {State} view
 * @returns {"start" | "dry" | "lye" | "batter" | "loaf" | "bars"}
 */
export function stageOf(plan, view) {
  if ("cut" in view.done) return "bars";
  if ("combine" in view.done) {
    const isPoured = plan.prompts.every(({ key, phase }) => phase !== "pour" || key in view.done);
    return isPoured ? "loaf" : "batter";
  }
  if ("alkali-into-water" in view.done) return "lye";
  return plan.lines.some(({ key, group }) => group === "alkali" && key in view.weights) ? "dry" : "start";
}
