/**
 * "Hold on", and the card on return: it stands over the unchanged prompt, says what went on without the maker, and
 * leaves only by a tap.
 */
import { benchTime } from "./clock.js";
import { shown } from "./entry.js";
import { eventWords } from "./eventWords.js";
import { checks, inVessel, mayOpen, tempNow } from "./pausing.js";
import { each } from "./show.js";
import { mark, setMark } from "./store.js";
import { soonest, words } from "./timers.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireResume(room) {
  const { root, runId, plan, record } = room;
  const card = /** @type {any} */ (root.querySelector("#hold-on"));
  const isOpen = () => card.matches(":popover-open");
  let leftAt = benchTime();
  let touchedAt = benchTime();
  let openedAt = -Infinity; // by itself
  /** @type {number | null} since when the card counts, when nobody tapped "hold on" */
  let away = null;

  const since = () => away ?? Date.parse(room.view().paused_since ?? "");
  const fill = () => fillCard(card, room, since(), benchTime());
  const open = () => {
    card.removeAttribute("data-opened");
    card.popover = "manual";
    fill();
    if (!isOpen()) card.showPopover?.();
  };
  /** @param {number} from */
  const cameBack = (from) => {
    const prompt = plan.prompts.find(({ key }) => key === room.view().current);
    if (isOpen() || !mayOpen(prompt, benchTime() - from, benchTime() - openedAt)) return;
    openedAt = benchTime();
    setMark(`card:${runId}`, openedAt).catch(() => {});
    away = from;
    open();
  };
  /** @param {string} checked */
  const goOn = async (checked) => {
    card.hidePopover?.();
    if (away !== null) await record("paused", { why: "away from the page" }, room.view().current, new Date(away));
    away = null;
    touchedAt = benchTime();
    await record("resumed", { checked }, room.view().current);
  };

  root.querySelector("[data-hold-on]")?.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation();
    open();
    if (!room.view().paused_since) void record("paused", {});
  });
  card.addEventListener("submit", (/** @type {SubmitEvent} */ event) => {
    const { kind, value } = { kind: /** @type {HTMLElement} */ (event.target).dataset.event, value: answer(event) };
    if (kind !== "resumed" && kind !== "trace-seen") return;
    event.preventDefault();
    event.stopPropagation();
    void goOn(kind === "resumed" ? value : "").then(() => {
      if (kind !== "resumed") void record(kind, { trace: value }, "");
    });
  });
  root.addEventListener("pointerdown", () => (touchedAt = benchTime()));
  root.addEventListener("keydown", () => (touchedAt = benchTime()));
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) return cameBack(leftAt);
    leftAt = benchTime();
    setMark(`left:${runId}`, leftAt).catch(() => {});
  });
  setInterval(() => {
    if (isOpen()) fill();
    else if (!document.hidden && typed(root)) cameBack(touchedAt);
  }, 1000);
  Promise.all([mark(`left:${runId}`), mark(`card:${runId}`)]).then(
    ([left, opened]) => {
      openedAt = opened ?? openedAt;
      const last = Date.parse(room.view().log.at(-1)?.happened_at ?? "");
      if (!Number.isNaN(last)) cameBack(Math.max(left ?? 0, last));
    },
    () => {}, // without a store nobody knows how long it was
  );

  return (view) => {
    each(root, "[data-hold-on] [name=prompt]", (input) => (/** @type {HTMLInputElement} */ (input).value = room.shown()));
    if (view.paused_since && !isOpen()) open();
    else if (!view.paused_since && away === null && isOpen()) card.hidePopover?.();
  };
}

/**
 * @param {SubmitEvent} event
 * @returns {string} the value of the button that was tapped
 */
function answer({ submitter }) {
  return submitter instanceof HTMLButtonElement ? submitter.value : "";
}

/**
 * @param {ParentNode} root
 * @returns {string} what is typed at the prompt and not sent yet
 */
function typed(root) {
  const input = root.querySelector("[data-prompt]:not([hidden]) [data-entry] input");
  return input instanceof HTMLInputElement ? input.value : "";
}

/**
 * @param {HTMLElement} card
 * @param {Room} room
 * @param {number} since milliseconds since 1970
 * @param {number} now
 */
function fillCard(card, room, since, now) {
  const { root, plan } = room;
  const view = room.view();
  const put = (/** @type {string} */ name, /** @type {string} */ text) =>
    each(card, `[data-resume-${name}]`, (element) => {
      element.textContent = text;
      each(card, `[data-resume-row=${name}]`, (row) => (row.hidden = !text));
    });
  each(card, "[data-pause-title]", (title) => (title.hidden = (title.dataset.pauseTitle === "held") !== Boolean(view.paused_since)));
  put("away", Number.isNaN(since) ? "0:00" : words(Math.max(0, now - since)));
  put("now", plan.prompts.find(({ key }) => key === view.current)?.title ?? "");
  put("last", eventWords(plan, view.log.find(({ id }) => id === view.last_event)));
  put("typed", typed(root) && `${typed(root)} g`);
  put("batter", batterAge(view, now));
  for (const pot of ["lye", "fats"]) put(pot, potNow(view, pot, now));
  const asked = checks(plan, view, Number.isNaN(since) ? 0 : now - since);
  each(card, "[data-check]", (box) => (box.hidden = !asked.includes(box.dataset.check ?? "")));
  fillTimers(card, view, now);
  fillVessel(card, room);
}

/**
 * @param {View} view
 * @param {string} pot
 * @param {number} now
 * @returns {string} "41"
 */
function potNow(view, pot, now) {
  const found = "combine" in view.done ? undefined : view.server.pots[pot];
  return found ? tempNow(found, now).toFixed(0) : "";
}

/**
 * @param {View} view
 * @param {number} now
 */
function batterAge(view, now) {
  return view.done.combine && view.status === "bench" ? words(now - Date.parse(view.done.combine)) : "";
}

/**
 * @param {HTMLElement} card
 * @param {View} view
 * @param {number} now
 */
function fillTimers(card, view, now) {
  const rows = soonest(view.timers).map((timer) => {
    const row = document.createElement("li");
    const left = Date.parse(timer.ends_at) - now;
    row.classList.toggle("is-over", left < 0);
    row.append(timer.label, " ", Object.assign(document.createElement("strong"), { textContent: words(left) }));
    return row;
  });
  each(card, "[data-resume-timers]", (list) => {
    list.replaceChildren(...rows);
    list.hidden = rows.length === 0;
  });
}

/**
 * @param {HTMLElement} card
 * @param {Room} room
 */
function fillVessel(card, { plan, view }) {
  const found = inVessel(plan, view());
  const put = (/** @type {string} */ name, /** @type {string} */ text) =>
    each(card, `[data-vessel-${name}]`, (element) => (element.textContent = text));
  if (!found) return;
  put("name", found.name);
  put("vessel", found.vessel);
  put("without", shown(found.without, plan.decimals));
  put("with", shown(found.with, plan.decimals));
  each(card, "[data-vessel-tare]", (words) => (words.hidden = words.dataset.vesselTare !== String(found.hasTare)));
}
