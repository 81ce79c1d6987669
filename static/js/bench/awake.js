/**
 * Keeps the screen on while a batch is at the bench, tells the phone when a timer runs out behind another page, and
 * says honestly when an alarm cannot be promised.
 */
import { benchTime } from "./clock.js";
import { left } from "./timers.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireAwake({ root, view }) {
  const note = /** @type {HTMLElement | null} */ (root.querySelector("[data-alarm-note]"));
  /** @type {any} */
  let lock = null;

  async function stayOn() {
    if (document.hidden || view().status !== "bench" || lock) return;
    try {
      lock = await /** @type {any} */ (navigator).wakeLock.request("screen");
      lock.addEventListener("release", () => {
        lock = null;
      });
    } catch {
      lock = null; // an old browser, a plain address, or a battery that is nearly empty
    }
    tell();
  }

  function tell() {
    if (note) note.hidden = Boolean(lock) || view().timers.length === 0;
  }

  document.addEventListener("visibilitychange", stayOn);
  root.addEventListener("click", stayOn); // some browsers want a tap first
  root.querySelector("[data-alarm-allow]")?.addEventListener("click", () => void globalThis.Notification?.requestPermission());
  wireNotices(view);
  void stayOn();
  return tell;
}

/**
 * A page that is not seen tells of a timer that has run out, once.
 * @param {() => View} view
 */
function wireNotices(view) {
  /** @type {Set<string>} */
  const told = new Set();
  setInterval(async () => {
    if (!document.hidden || globalThis.Notification?.permission !== "granted") return;
    for (const timer of view().timers.filter((each) => left(each, benchTime()) <= 0)) {
      const name = `${timer.key} ${timer.ends_at}`;
      if (told.has(name)) continue;
      told.add(name);
      const registration = await navigator.serviceWorker?.getRegistration();
      await registration?.showNotification(timer.label, { tag: name, requireInteraction: true, data: location.pathname });
    }
  }, 1000);
}
