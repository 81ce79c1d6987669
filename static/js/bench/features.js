/**
 * What the run page can do besides moving on: one line each. A feature is wired once and may return what it shows
 * anew whenever the run has moved; it reaches the run through the room alone.
 */
import { wireAttached } from "./attached.js";
import { wireAwake } from "./awake.js";
import { wireBatterClock } from "./batterClock.js";
import { breath } from "./breath.js";
import { wireCooling } from "./cooling.js";
import { wireDeviation } from "./deviation.js";
import { wireDifferent } from "./different.js";
import { wireDrawings } from "./drawings.js";
import { showFollows, showNotices } from "./follows.js";
import { wireForcing } from "./forcing.js";
import { wireGather } from "./gather.js";
import { wireNotes } from "./notes.js";
import { wirePotGap } from "./potGap.js";
import { wireFreshen } from "./freshen.js";
import { wirePlainAddress } from "./plainAddress.js";
import { wirePortions } from "./portions.js";
import { wireRest } from "./resting.js";
import { wireReadings } from "./readings.js";
import { wireResume } from "./resume.js";
import { wireRinse } from "./rinse.js";
import { wireSafe } from "./safe.js";
import { wireWays } from "./waysOut.js";
import { wireStrokes } from "./strokes.js";

/** @typedef {import("./session.js").View} View */
/** @typedef {import("./room.js").Room} Room */

/** @typedef {(room: Room) => ((view: View) => void) | void} Feature */

/** @type {Feature[]} */
const FEATURES = [
  wireReadings,
  wireCooling,
  wireBatterClock,
  ({ root, plan }) => (view) => showNotices(root, plan, view),
  ({ root }) => (view) => showFollows(root, view),
  wireDifferent,
  wireNotes,
  wireAttached,
  wireWays,
  wireDeviation,
  wirePotGap,
  wireResume,
  wireRest,
  wireRinse,
  wireSafe,
  wireAwake,
  wirePlainAddress,
  wirePortions,
  wireStrokes,
  wireDrawings,
  wireFreshen,
  wireGather,
  wireForcing,
];

/**
 * Wire them one by one, with a breath after each: a slow phone takes taps and draws in between.
 * @param {Room} room
 * @returns {Promise<(view: View) => void>} shows all of them anew
 */
export async function wireFeatures(room) {
  /** @type {((view: View) => void)[]} */
  const shows = [];
  for (const feature of FEATURES) {
    const show = feature(room);
    if (show) shows.push(show);
    await breath();
  }
  return (view) => shows.forEach((show) => show(view));
}
