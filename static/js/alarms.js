/**
 * Every page: a timer of a batch that has run out is shown and rings here too, not only at the bench. The bench keeps
 * the deadlines of its timers on the device; the most overdue leads back to its batch.
 */
import { benchTime, recallClock } from "./bench/clock.js";
import { ring, unlock } from "./bench/sound.js";
import { mark } from "./bench/store.js";
import { left, soundsDue, words } from "./bench/timers.js";

/** @typedef {{key: string, label: string, ends_at: string}} Timer */
/** @typedef {{run: string, name: string, timer: Timer}} Alarm */

const LOOK_MS = 1000;
const FORGET_MS = 12 * 3600_000; // what nobody looked after for so long is the rack's
const box = /** @type {HTMLElement | null} */ (document.querySelector("[data-alarm]"));
const here = document.querySelector("[data-run]")?.getAttribute("data-run");
let rung = -1;

/** @returns {Promise<Alarm | undefined>} the most overdue one that was not answered yet */
async function overdue() {
  /** @type {Record<string, {name: string, timers: Timer[]}>} */
  const kept = (await mark("alarms")) ?? {};
  const found = [];
  for (const [run, { name, timers }] of Object.entries(kept)) {
    const heard = run === here ? null : ((await mark(`heard:${run}`)) ?? {});
    if (!heard) continue; // the bench itself shows and rings
    for (const timer of timers) {
      const over = -left(timer, benchTime());
      if (over >= 0 && over < FORGET_MS && !heard[`${timer.key} ${timer.ends_at}`]) found.push({ run, name, timer });
    }
  }
  return found.sort((one, other) => Date.parse(one.timer.ends_at) - Date.parse(other.timer.ends_at))[0];
}

/** @param {HTMLElement} place */
async function look(place) {
  const alarm = await overdue();
  place.hidden = !alarm;
  if (!alarm) return;
  const remaining = left(alarm.timer, benchTime());
  const link = /** @type {HTMLAnchorElement} */ (place.querySelector("a"));
  link.href = `/bench/${alarm.run}/`;
  link.textContent = `${alarm.name} · ${alarm.timer.label} ${words(remaining)}`;
  const due = soundsDue(remaining);
  if (due > rung) ring();
  rung = due;
}

if (box && "indexedDB" in globalThis) {
  await recallClock().catch(() => {});
  addEventListener("pointerdown", unlock, { once: true });
  setInterval(() => document.hidden || look(box).catch(() => {}), LOOK_MS);
}
