/**
 * The timers on the page: soonest first, counting up once overdue, ringing until they are answered or their prompt is done.
 */
import { benchTime } from "./clock.js";
import { ring } from "./sound.js";
import { mark, setMark } from "./store.js";
import { announcement, lateAct, left, soonest, soundsDue, words } from "./timers.js";

/** @typedef {import("./types.js").RunningTimer} RunningTimer */

/**
 * Keep the deadlines on the device, so that every page of the app can tell of them.
 * @param {string} run
 * @param {RunningTimer[]} timers
 */
async function keepAlarms(run, timers) {
  const { [run]: _mine, ...others } = (await mark("alarms")) ?? {};
  const name = document.querySelector("[data-where] + strong")?.textContent ?? "";
  await setMark("alarms", timers.length ? { ...others, [run]: { name, timers } } : others);
}

/**
 * @param {HTMLElement} list
 * @param {HTMLElement} live where a screen reader hears of it
 * @param {string} run
 */
export function clocks(list, live, run) {
  /** @type {RunningTimer[]} */
  let timers = [];
  /** @type {Record<string, boolean>} by key and deadline: the maker has heard it */
  let heard = {};
  /** @type {Map<string, number>} */
  const rung = new Map();
  /** @type {Map<string, HTMLLIElement>} */
  const rows = new Map();
  let before = benchTime();
  const name = (/** @type {RunningTimer} */ timer) => `${timer.key} ${timer.ends_at}`;

  mark(`heard:${run}`).then(
    (kept) => {
      heard = { ...kept, ...heard };
    },
    () => {}, // without a store the timers ring once more after a reload
  );

  list.addEventListener("click", (event) => {
    const button = /** @type {Element} */ (event.target).closest("[data-heard]");
    if (!(button instanceof HTMLElement)) return;
    heard[button.dataset.heard ?? ""] = true;
    if (button.matches(".timer-act")) hearPortions();
    setMark(`heard:${run}`, heard).catch(() => {});
    paint();
  });

  /** Who goes to one late portion has heard of the others too. */
  function hearPortions() {
    for (const timer of timers) if (timer.portion && left(timer, Date.now()) < 0) heard[name(timer)] = true;
  }

  function paint() {
    const now = benchTime();
    const wanted = soonest(timers).map((timer) => row(timer, now));
    // A row stays the same element from second to second: a press that began on its button must end there too.
    if (wanted.some((item, index) => item !== list.children[index]) || list.children.length !== wanted.length) {
      list.replaceChildren(...wanted);
    }
    for (const timer of timers) tell(timer, now);
    before = now;
  }

  /**
   * @param {RunningTimer} timer
   * @param {number} now
   */
  function tell(timer, now) {
    const said = announcement(timer, before, now);
    if (said) live.textContent = said;
    const due = soundsDue(left(timer, now));
    if (due > (rung.get(name(timer)) ?? 0) && !heard[name(timer)]) ring();
    rung.set(name(timer), due);
  }

  /**
   * @param {RunningTimer} timer
   * @param {number} now
   */
  function row(timer, now) {
    const remaining = left(timer, now);
    const item = rows.get(name(timer)) ?? newRow(timer);
    rows.set(name(timer), item);
    item.classList.toggle("is-over", remaining < 0);
    // A new fit may give another reason for the same moment.
    /** @type {HTMLElement} */ (item.querySelector(".timer-label")).textContent = timer.label;
    const time = /** @type {HTMLElement} */ (item.querySelector("time"));
    time.textContent = words(remaining);
    const button = /** @type {HTMLElement} */ (item.querySelector("[data-heard]"));
    button.hidden = remaining >= 0 || heard[name(timer)] || Boolean(timer.portion); // a portion leads on instead
    showAct(item, lateAct(timer, now));
    return item;
  }

  /** @param {RunningTimer} timer */
  function newRow(timer) {
    const item = document.createElement("li");
    item.className = "timer";
    const label = document.createElement("span");
    label.className = "timer-label";
    label.textContent = timer.label;
    if (timer.portion) item.append(...swatch(timer.portion));
    const time = document.createElement("time");
    time.dateTime = timer.ends_at;
    item.append(label, time, silence(timer));
    if (timer.portion) item.append(leadOn(timer));
    return item;
  }

  /** @param {string} letter */
  function swatch(letter) {
    return [...document.querySelectorAll(`[data-swatch-of="${letter}"] > svg`)].map((one) => one.cloneNode(true));
  }

  /**
   * A portion that is overdue leads on to its pour.
   * @param {RunningTimer} timer
   */
  function leadOn(timer) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "timer-act";
    button.dataset.stepOf = timer.until;
    button.dataset.heard = name(timer);
    button.dataset.portion = timer.portion;
    button.hidden = true;
    return button;
  }

  /**
   * @param {HTMLElement} item
   * @param {"" | "pour" | "spoon"} act
   */
  function showAct(item, act) {
    const button = /** @type {HTMLElement | null} */ (item.querySelector(".timer-act"));
    if (!button) return;
    button.hidden = !act;
    if (act) button.textContent = (act === "spoon" ? list.dataset.spoonWord : list.dataset.pourWord) ?? "";
  }

  /** @param {RunningTimer} timer */
  function silence(timer) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "timer-heard";
    button.dataset.heard = name(timer);
    button.textContent = list.dataset.heardWord ?? "OK";
    return button;
  }

  setInterval(paint, 1000);
  document.addEventListener("visibilitychange", () => document.hidden || paint());
  return {
    /** @param {RunningTimer[]} running */
    set(running) {
      if (JSON.stringify(running) !== JSON.stringify(timers)) keepAlarms(run, running).catch(() => {});
      timers = running;
      paint();
    },
  };
}
