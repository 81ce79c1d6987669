/**
 * How thick the batter is by now. The same rule as soapbench.science.drawing_fit; tests/js/traces.json is read by both.
 */

export const TRACES = ["emulsion", "thin", "medium", "thick"];

/**
 * @param {string} seen the trace that was seen last
 * @param {number} used share of the working time that is gone, of the portion that has least left
 * @param {{stiffer: number, thick: number}} at shares from which it counts as thicker, and as thick
 * @returns {string}
 */
export function traceNow(seen, used, at) {
  if (used >= at.thick) return "thick";
  const place = TRACES.indexOf(seen) + (used >= at.stiffer ? 1 : 0);
  return TRACES[Math.min(place, TRACES.length - 1)];
}

/**
 * @param {string} thickest that a drawing can be made in
 * @param {string} now
 */
export function isBorne(thickest, now) {
  return TRACES.indexOf(now) <= TRACES.indexOf(thickest);
}

/**
 * @param {readonly {portion: string, started_at: string, ends_at: string}[]} timers
 * @param {number} now milliseconds since 1970
 * @returns {number} the largest share of a portion's working time that is gone
 */
export function timeUsed(timers, now) {
  const shares = timers
    .filter(({ portion }) => portion)
    .map(({ started_at, ends_at }) => (now - Date.parse(started_at)) / (Date.parse(ends_at) - Date.parse(started_at)));
  return Math.max(0, ...shares);
}
