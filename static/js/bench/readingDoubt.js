/**
 * The question that a temperature raises before it is kept. The same rule as soapbench.science.cooling_window:
 * tests/js/readings.json is written from the one and read by the other. Pure.
 */

import { translated } from "../words.js";

const WARMING = 2; // K that a pot left alone cannot rise
const UNDER_ROOM = 3; // K that a pot can read under its room
const HOTTEST = 120; // °C

/**
 * @param {number | null} last the pot's latest reading since it was left alone, °C
 * @param {number} temp °C
 * @param {number} room °C
 * @returns {string} "" when there is nothing to ask
 */
export function readingDoubt(last, temp, room) {
  if (temp > HOTTEST) {
    const celsius = ((temp - 32) / 1.8).toFixed(0);
    return translated("{temp} °C is hotter than any lye here. If the thermometer shows °F, it is {celsius} °C.", { temp, celsius });
  }
  if (last === null) return "";
  if (temp > Math.max(last, room) + WARMING) {
    return translated("{temp} °C is hotter than {last} °C before. Stir, then read again.", { temp, last });
  };
  if (temp < Math.min(last, room) - UNDER_ROOM) {
    return translated("{temp} °C is colder than the room. Read again, or say that it stands in a cold bath.", { temp });
  }
  return "";
}

/**
 * Return what a new reading of a pot is held against. What was read in the jug before the alkali is its water, and
 * what was read before somebody warmed or cooled a pot tells nothing of it now.
 * @param {import("./session.js").View} view
 * @param {string} pot
 * @returns {number | null}
 */
export function lastLeftAlone(view, pot) {
  const moved = view.log.filter(({ id, kind, prompt, payload }) => kind === "changed" && prompt === "cool" && payload.what === "temperature off" && !isTakenBack(view, id));
  const since = [...moved.map(({ happened_at }) => happened_at), ...(pot === "lye" ? [view.done["alkali-into-water"] ?? ""] : [])];
  const from = Math.max(0, ...since.filter(Boolean).map(Date.parse));
  return view.readings.filter((one) => one.pot === pot && Date.parse(one.at) >= from).at(-1)?.temp_c ?? null;
}

/**
 * @param {import("./session.js").View} view
 * @param {string} id
 */
function isTakenBack(view, id) {
  return view.log.some(({ kind, payload }) => kind === "took-back" && payload.event === id);
}
