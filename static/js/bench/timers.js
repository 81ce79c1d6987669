/**
 * Timers as stored deadlines, never as counters: a locked, frozen or reloaded phone shows the right remainder.
 */

import { translated } from "../words.js";

/** @typedef {{key: string, label: string, ends_at: string}} Timer */

export const MOST_SHOWN = 4;
const SECOND = 1000;
const MINUTE = 60 * SECOND;
const DAY = 24 * 3600; // in seconds
const EARLY_SOUNDS = [0, 15 * SECOND, 30 * SECOND];

/**
 * @param {Timer} timer
 * @param {number} now milliseconds since 1970
 * @returns {number} milliseconds left; negative when overdue
 */
export function left(timer, now) {
  return Date.parse(timer.ends_at) - now;
}

/**
 * Return at most four timers, the soonest first, so the most overdue leads.
 * @template {Timer} T
 * @param {readonly T[]} timers
 * @returns {T[]}
 */
export function soonest(timers) {
  return [...timers].sort((one, other) => Date.parse(one.ends_at) - Date.parse(other.ends_at)).slice(0, MOST_SHOWN);
}

/**
 * Return "12:05" below an hour, "3 h 05 min" above, "42 days" from three days on, and "+04:10" once overdue.
 * @param {number} milliseconds
 * @returns {string}
 */
export function words(milliseconds) {
  const isOver = milliseconds < 0;
  const seconds = isOver ? Math.floor(-milliseconds / SECOND) : Math.ceil(milliseconds / SECOND);
  return (isOver ? "+" : "") + (seconds < 3600 ? clock(seconds) : long(seconds));
}

/** @param {number} seconds */
function clock(seconds) {
  return `${two(Math.floor(seconds / 60))}:${two(seconds % 60)}`;
}

/** @param {number} seconds */
function long(seconds) {
  if (seconds >= 3 * DAY) return translated("{count}\u00a0days", { count: Math.floor(seconds / DAY) });
  const minutes = Math.floor(seconds / 60);
  return `${Math.floor(minutes / 60)}\u00a0h ${two(minutes % 60)}\u00a0min`;
}

/** @param {number} number */
function two(number) {
  return String(number).padStart(2, "0");
}

/**
 * Return how many times a timer should have sounded by now: at 0, 15, 30 and 60 s, each minute to ten minutes,
 * then every five. It sounds when this number grows.
 * @param {number} milliseconds left; negative when overdue
 * @returns {number}
 */
export function soundsDue(milliseconds) {
  const over = -milliseconds;
  if (over < 0) return 0;
  const early = EARLY_SOUNDS.filter((at) => over >= at).length;
  const minutes = Math.floor(over / MINUTE);
  return early + Math.min(minutes, 10) + Math.max(0, Math.floor((minutes - 10) / 5));
}

/**
 * Return what to do with a portion whose working time is over; the minutes come from soapbench.science.late_pour.
 * @param {{ends_at: string, spoon_after: number | null}} timer
 * @param {number} now
 * @returns {"" | "pour" | "spoon"}
 */
export function lateAct(timer, now) {
  const over = now - Date.parse(timer.ends_at);
  if (over < 0 || timer.spoon_after == null) return "";
  return over >= timer.spoon_after * MINUTE ? "spoon" : "pour";
}

/**
 * Return what a screen reader should hear now, or "": at five minutes, at one minute and when due, once each.
 * @param {Timer} timer
 * @param {number} before milliseconds since 1970 of the last look
 * @param {number} now
 * @returns {string}
 */
export function announcement(timer, before, now) {
  const passed = (/** @type {number} */ mark) => left(timer, before) > mark && left(timer, now) <= mark;
  if (passed(0)) return translated("{timer}: now due.", { timer: timer.label });
  if (passed(MINUTE)) return translated("{timer}: one minute left.", { timer: timer.label });
  if (passed(5 * MINUTE)) return translated("{timer}: five minutes left.", { timer: timer.label });
  return "";
}
