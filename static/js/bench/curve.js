/**
 * Places on what the server drew: the tiles round a temperature, and where a reading stands in the picture. Pure.
 */

/** @typedef {{first: number, last: number, cold: number, hot: number, left: number, right: number, top: number, bottom: number}} Frame */

/**
 * Return as many whole degrees as there are tiles, the expected one in the middle.
 * @param {number} expected °C
 * @param {number} count
 * @returns {number[]}
 */
export function tilesAround(expected, count) {
  const first = Math.round(expected) - Math.floor(count / 2);
  return Array.from({ length: count }, (_, index) => first + index);
}

/**
 * @param {Frame} frame
 * @param {number} minutes
 * @returns {number}
 */
export function xOf(frame, minutes) {
  const share = (minutes - frame.first) / (frame.last - frame.first);
  return frame.left + Math.min(Math.max(share, 0), 1) * (frame.right - frame.left);
}

/**
 * @param {Frame} frame
 * @param {number} temp °C
 * @returns {number}
 */
export function yOf(frame, temp) {
  const share = (frame.hot - temp) / (frame.hot - frame.cold);
  return frame.top + Math.min(Math.max(share, 0), 1) * (frame.bottom - frame.top);
}
