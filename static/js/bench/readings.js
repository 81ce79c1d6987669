/**
 * The cooling pots on the page: last readings, tiles around them, and the curve of both.
 */
import { each } from "./show.js";

/** @typedef {import("./types.js").Reading} Reading */
/** @typedef {import("./session.js").View} View */

const WIDTH = 320;
const HEIGHT = 120;
const [COLDEST, HOTTEST] = [15, 105];
const WARMER = 1; // the first tile stands one degree above the last reading; the others go down

/**
 * @param {HTMLElement} root
 * @param {View} view
 */
export function showReadings(root, view) {
  each(root, "[data-reading]", (section) => showPot(section, view.readings));
  for (const { pot, temp_c } of view.readings) {
    each(root, `[data-resume-row=${pot}] [data-last-reading]`, (element) => (element.textContent = `${temp_c} °C`));
  }
  each(root, "[data-curve]", (curve) => {
    curve.toggleAttribute("hidden", view.readings.length === 0);
    each(curve, "[data-curve-pot]", (line) => line.setAttribute("points", points(view.readings, line.dataset.curvePot ?? "")));
  });
}

/**
 * @param {HTMLElement} section
 * @param {Reading[]} readings
 */
function showPot(section, readings) {
  const last = readings.filter(({ pot }) => pot === section.dataset.reading).at(-1);
  if (!last) return;
  each(section, "[data-last-reading]", (element) => (element.textContent = `${last.temp_c} °C`));
  [...section.querySelectorAll("[data-tile]")].forEach((tile, index) => {
    const value = String(Math.round(last.temp_c) + WARMER - index);
    tile.setAttribute("value", value);
    tile.textContent = value;
  });
}

/**
 * @param {Reading[]} readings
 * @param {string} pot
 * @returns {string} points of a polyline
 */
function points(readings, pot) {
  const width = Math.max(30, ...readings.map(({ minutes }) => minutes));
  const y = (/** @type {number} */ temp) =>
    Math.round(((HOTTEST - Math.min(Math.max(temp, COLDEST), HOTTEST)) / (HOTTEST - COLDEST)) * HEIGHT);
  return readings
    .filter((reading) => reading.pot === pot)
    .map(({ minutes, temp_c }) => `${Math.round((Math.max(0, minutes) / width) * WIDTH)},${y(temp_c)}`)
    .join(" ");
}
