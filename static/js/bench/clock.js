/**
 * The bench's clock. What happened gets the server's time as well as this device can tell it, and the device's own
 * beside it; timers run on the same time. While a page lives, a clock that is set anew moves nothing.
 */
import { mark, setMark } from "./store.js";

const LONGEST_ROUND_MS = 5000; // a slower answer says too little about the time
const LEAST_SLEEP_MS = 2000;

/**
 * @param {() => number} device milliseconds since 1970 by the device
 * @param {() => number} steady milliseconds that nobody can set
 * @returns {{now: () => number, heard: (server: number, sent: number, came: number) => boolean, offset: () => number,
 *   set: (offset: number) => void, woke: () => void}}
 */
export function benchClock(device, steady) {
  let offset = 0; // server less device
  let base = device() - steady();
  const now = () => base + steady() + offset;
  return {
    now,
    offset: () => now() - device(),
    set(found) {
      offset = found;
    },
    /**
     * A phone that slept has a steady time that stood still, so that its own clock is ahead of it. Should somebody
     * have set that clock meanwhile, the next answer puts it right.
     */
    woke() {
      const slept = device() - (base + steady());
      if (slept > LEAST_SLEEP_MS) base += slept;
    },
    /** Learn from an answer: it was the server's time half way between sending and coming, both by `steady`. */
    heard(server, sent, came) {
      if (!Number.isFinite(server) || came - sent > LONGEST_ROUND_MS) return false;
      base = device() - steady();
      offset = server - (base + (sent + came) / 2);
      return true;
    },
  };
}

const clock = benchClock(
  () => Date.now(),
  () => performance.now(),
);

globalThis.document?.addEventListener("visibilitychange", () => document.hidden || clock.woke());

/** @returns {number} milliseconds since 1970, the server's as far as it is known */
export const benchTime = () => clock.now();

/**
 * @param {Date} at by the bench's time
 * @returns {{happened_at: string, device_at: string}} both times of what happened then
 */
export function momentsOf(at) {
  return { happened_at: at.toISOString(), device_at: new Date(at.getTime() - clock.offset()).toISOString() };
}

/**
 * @param {string} server its time as it answered
 * @param {number} sent by performance.now()
 */
export function heard(server, sent) {
  if (clock.heard(Date.parse(server), sent, performance.now())) setMark("clock", clock.offset()).catch(() => {});
}

/** Bring back what was known of the server's time before this page was loaded. */
export async function recallClock() {
  clock.set((await mark("clock")) ?? 0);
}
