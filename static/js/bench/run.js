/**
 * The run page: shows one prompt at a time, records each tap on the device first, sends it when it can.
 */
import { breath } from "./breath.js";
import { benchTime, momentsOf, recallClock } from "./clock.js";
import { clocks } from "./clocks.js";
import { isCertain } from "./doubt.js";
import { wireFeatures } from "./features.js";
import { wireHold } from "./hold.js";
import { newId } from "./ids.js";
import { doubtsOf, wireKeypad } from "./keypad.js";
import { drop, keep, kept, park } from "./outbox.js";
import { panel, showSign } from "./panels.js";
import { toGo } from "./parts.js";
import { payloadOf } from "./payload.js";
import { post } from "./post.js";
import { keepAsRemark, sendAgain } from "./refused.js";
import { sender } from "./sender.js";
import { session } from "./session.js";
import { each, show } from "./show.js";
import { unlock } from "./sound.js";
import { mark, setMark } from "./store.js";
import { tapGate } from "./taps.js";

/** @typedef {import("./types.js").Answer} Answer */
/** @typedef {import("./types.js").Event} Event */

const root = /** @type {HTMLElement} */ (document.querySelector("[data-run]"));
const runId = root.dataset.run ?? "";
const read = (/** @type {string} */ id) => JSON.parse(document.getElementById(id)?.textContent ?? "null");
const run = session(read("plan-document"), read("state-document"), read("fact-documents"));
await breath();
const live = /** @type {HTMLElement} */ (root.querySelector("[data-live]"));
const timers = clocks(/** @type {HTMLElement} */ (root.querySelector("[data-timers]")), live, runId);
const STAYS = ["noted", "paused", "resumed", "rinsed", "attached"]; // what leaves the prompt where it is
const gate = tapGate();
/** @type {Set<string>} codes of the doubts that the maker has answered at this prompt */
const answered = new Set();
/** @type {WeakSet<Element>} the prompts whose keys and held buttons listen */
const wired = new WeakSet();
const at = new URLSearchParams(location.search).get("at");
const asked = run.plan.prompts.find(({ key }) => key === at)?.key ?? ""; // by the address
let shownPrompt = asked || run.view().current;
let device = newId();
let trouble = /** @type {"" | "offline" | "sign in" | "full"} */ ("");
await breath();
const showFeatures = await wireFeatures({
  root,
  runId,
  plan: run.plan,
  view: () => run.view(),
  shown: () => shownPrompt,
  record: (kind, payload, prompt = shownPrompt, at = new Date(benchTime()), file) => record(kind, prompt, payload, at, file),
  say: (words) => void (live.textContent = words),
});

const outgoing = sender({
  kept: () => kept(runId),
  drop,
  park: refuse,
  post: (event) => post((event.file ? root.dataset.attach : root.dataset.events) ?? "", event, run.have()),
  onAnswer: take,
  async onTrouble(found) {
    trouble = found;
    await refresh();
  },
  later: (act, milliseconds) => setTimeout(act, milliseconds),
});

/**
 * Keep what the server did not take, and lead back to where the run really stands.
 * @param {import("./outbox.js").Kept} event
 * @param {string} sentence
 */
async function refuse(event, sentence) {
  await park(event, sentence);
  await refresh();
  go(run.view().current);
}

/** @param {Answer} answer */
function take(answer) {
  run.take(answer);
  setMark(`known:${runId}`, { state: answer.state, facts: run.facts() }).catch(() => {});
  if (answer.remark && answer.remark !== answer.state.off_words) showEffect(answer.remark);
  if (!answer.state.current) location.reload(); // the run has ended: the server shows how
}

/** @param {string} words */
function showEffect(words) {
  const notice = root.querySelector("[data-prompt]:not([hidden]) [data-effect]");
  if (!(notice instanceof HTMLElement)) return;
  notice.hidden = !words;
  each(notice, "[data-effect-words]", (element) => (element.textContent = words));
}

async function refresh() {
  run.setKept(await kept(runId).catch(() => []));
  paint();
}

function paint() {
  const view = run.view();
  show(root, run.plan, view, shownPrompt);
  wirePrompt();
  showFeatures(view);
  timers.set(view.timers);
  showSign(root, run.plan, run.kept(), trouble);
}

/** @param {string} prompt */
function go(prompt) {
  if (!prompt || prompt === shownPrompt) return;
  shownPrompt = prompt;
  answered.clear();
  setMark(`draft:${runId}`, undefined).catch(() => {});
  each(root, "[data-effect], [data-doubt]", (element) => (element.hidden = true));
  gate.moved(performance.now());
  paint();
  const title = root.querySelector("[data-prompt]:not([hidden]) [data-title]");
  if (title instanceof HTMLElement) title.focus({ preventScroll: true });
  scrollTo({ top: 0 });
}

/**
 * Record what happened: on this device first, then the screen moves, then the network.
 * @param {string} kind
 * @param {string} prompt
 * @param {Record<string, any>} payload
 * @param {Date} [at]
 * @param {import("./types.js").FileKept} [file]
 */
async function record(kind, prompt, payload, at = new Date(benchTime()), file) {
  const event = { id: newId(), kind, prompt, payload, ...momentsOf(at), device, ...(file && { file }) };
  try {
    await keep(runId, event);
  } catch {
    trouble = "full";
    showSign(root, run.plan, run.kept(), trouble);
    panel(root, "needs").showPopover?.();
    return;
  }
  const before = run.view();
  await refresh();
  const after = run.view();
  const moves = shownPrompt === before.current || shownPrompt in after.done || kind === "took-back";
  if (moves && !STAYS.includes(kind)) go(after.current);
  outgoing.send();
}

/**
 * @param {HTMLFormElement} form
 * @param {string} words
 */
function complain(form, words) {
  const place = form.querySelector("[data-blocked], [data-form-trouble]");
  if (place instanceof HTMLElement) {
    place.hidden = false;
    place.textContent = words;
  } else live.textContent = words;
}

/** @param {SubmitEvent} event */
function onSubmit(event) {
  const form = /** @type {HTMLFormElement} */ (event.target);
  const kind = form.dataset.event;
  if (!kind) return;
  event.preventDefault();
  if (!form.reportValidity()) return;
  const { payload, wrong } = payloadOf(form, event.submitter);
  const entered = form.querySelector("[data-entry]:not([data-optional]) [data-number]")?.getAttribute("name");
  if (wrong || (entered && payload[entered] === undefined)) {
    complain(form, root.dataset.notNumber ?? "");
    return;
  }
  if (kind === "done" && form.closest("[data-prompt]")?.querySelector("[data-needed]")) {
    form.closest("[data-prompt]")?.classList.add("complained");
    complain(form, root.dataset.tickFirst ?? "");
    return;
  }
  if (kind === "changed" && !(payload.why && payload.decision)) {
    complain(form, root.dataset.whyNeeded ?? "");
    return;
  }
  if (kind === "weighed" && !isCertain(form, doubtsOf(form, run.plan, run.view()), answered)) return;
  const prompt = /** @type {HTMLInputElement} */ (form.querySelector("[name=prompt]")).value;
  if (!gate.takes(`${kind} ${prompt} ${JSON.stringify(payload)}`, performance.now())) return;
  if (answered.size > 0) payload.doubts_answered = [...answered];
  const popover = /** @type {any} */ (form.closest("[popover]"));
  popover?.hidePopover?.();
  form.querySelectorAll("[data-form-trouble]").forEach((element) => element.setAttribute("hidden", ""));
  record(kind, prompt, payload);
  if (popover) form.reset();
}

/** @param {MouseEvent} event */
function onClick(event) {
  unlock();
  const target = /** @type {Element} */ (event.target);
  const step = target.closest("[data-step-of], [data-to-now]");
  if (step instanceof HTMLElement) {
    event.preventDefault();
    panel(root, "steps").hidePopover?.();
    go(step.dataset.stepOf ?? run.view().current);
  }
  const answer = target.closest("[data-refused-again], [data-refused-note]");
  if (answer instanceof HTMLElement) answerRefusal(answer);
}

/** @param {HTMLElement} button */
async function answerRefusal(button) {
  const event = run.kept().find(({ order }) => String(order) === button.dataset.order);
  if (!event) return;
  await (button.matches("[data-refused-again]") ? sendAgain(event) : keepAsRemark(runId, event));
  await refresh();
  outgoing.send();
}

/** A page kept for the day without a network is older than what this device heard since. */
async function catchUp() {
  const known = await mark(`known:${runId}`);
  if (known && known.facts.length > run.have()) run.take(known);
}

/**
 * Bring back the device's name and a half-typed weight.
 * @returns {Promise<boolean>} whether a weight came back
 */
async function recall() {
  device = (await mark("device")) ?? device;
  await setMark("device", device);
  const draft = await mark(`draft:${runId}`);
  if (draft?.prompt !== shownPrompt) return false;
  const input = root.querySelector("[data-prompt]:not([hidden]) [data-entry] input");
  if (input instanceof HTMLInputElement) input.value = draft.text;
  return true;
}

/**
 * A panel that a refused form has opened on a page without a script becomes an ordinary one.
 * @param {any} opened
 */
function reopen(opened) {
  opened.removeAttribute("data-opened");
  opened.popover = "auto";
  opened.showPopover?.();
}

/** Wire the prompt that is shown when it is shown first: on one visit most of them are never seen. */
function wirePrompt() {
  const section = root.querySelector("[data-prompt]:not([hidden])");
  if (!(section instanceof HTMLElement) || wired.has(section)) return;
  wired.add(section);
  const target = () => toGo(run.view(), /** @type {HTMLElement | null} */ (section.querySelector("[data-target]"))?.dataset.target ?? "");
  const onTyped = (/** @type {string} */ text) =>
    void setMark(`draft:${runId}`, { prompt: section.dataset.prompt, text }).catch(() => {});
  each(section, "[data-entry]", (entry) => wireKeypad(entry, target, onTyped));
  each(section, "[data-hold]", wireHold);
}

function wire() {
  each(root, "[data-hold]", (way) => way.closest("[data-prompt]") || wireHold(way));
  each(root, "[data-opened]:not([data-opened=manual])", reopen);
  root.addEventListener("submit", onSubmit);
  root.addEventListener("click", onClick);
  addEventListener("online", () => void outgoing.send());
  document.addEventListener("visibilitychange", () => document.hidden || void outgoing.send());
}

wire();
await breath();
wirePrompt();
root.dataset.live = "true";
await recallClock().catch(() => {});
await catchUp().catch(() => {});
run.setKept(await kept(runId).catch(() => []));
shownPrompt = asked || run.view().current; // what waits here may be ahead of the server's page
paint();
if (await recall().catch(() => false)) paint();
outgoing.send();
