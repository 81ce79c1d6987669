/**
 * Sends what waits, one by one in order, and tries again with longer and longer pauses.
 * Works without Web Locks: should two pages send the same event, the server takes it once.
 */

import { translated } from "../words.js";

/** @typedef {import("./outbox.js").Kept} Kept */
/** @typedef {import("./types.js").Answer} Answer */

/**
 * @typedef {object} Parts what a sender is made of; given, so that tests can play the network
 * @property {() => Promise<Kept[]>} kept
 * @property {(event: Kept) => Promise<unknown>} drop
 * @property {(event: Kept, sentence: string) => Promise<unknown>} park
 * @property {(event: Kept) => Promise<Response>} post
 * @property {(answer: Answer) => void} onAnswer
 * @property {(trouble: "" | "offline" | "sign in") => Promise<unknown> | void} onTrouble called after every try, and now and then on the way
 * @property {(act: () => void, milliseconds: number) => unknown} later
 */

const FIRST_PAUSE = 1000;
const LONGEST_PAUSE = 60_000;
const SHOW_EVERY = 10;

/**
 * @param {Parts} parts
 * @returns {{send: () => Promise<void>}} `send` does nothing when a sending is under way
 */
export function sender(parts) {
  let pause = FIRST_PAUSE;
  let isBusy = false;
  let isAgain = false;

  /** @returns {Promise<void>} */
  async function send() {
    isAgain = true;
    if (isBusy) return;
    isBusy = true;
    let trouble = /** @type {"" | "offline" | "sign in"} */ ("");
    while (isAgain && !trouble) {
      isAgain = false;
      trouble = await sendAll(parts);
    }
    isBusy = false;
    await parts.onTrouble(trouble);
    if (!trouble) pause = FIRST_PAUSE;
    else waitAndSend();
  }

  function waitAndSend() {
    parts.later(send, pause);
    pause = Math.min(pause * 2, LONGEST_PAUSE);
  }

  return { send };
}

/**
 * @param {Parts} parts
 * @returns {Promise<"" | "offline" | "sign in">} why it stopped early
 */
async function sendAll(parts) {
  const waiting = (await parts.kept()).filter((kept) => !kept.refused);
  for (const [index, event] of waiting.entries()) {
    const outcome = await sendOne(parts, event);
    if (outcome === "offline" || outcome === "sign in") return outcome;
    // After a long time away hundreds may wait: showing each as it goes would take longer than sending it.
    if (index % SHOW_EVERY === 0) await parts.onTrouble("");
  }
  return "";
}

/**
 * @param {Parts} parts
 * @param {Kept} event
 */
async function sendOne(parts, event) {
  const response = await parts.post(event).catch(() => null);
  if (!response || response.status >= 500 || response.status === 429) return "offline";
  if (response.status === 403 || response.type === "opaqueredirect") return "sign in";
  const body = await response.json().catch(() => null);
  if (response.ok && body?.accepted?.includes(event.id)) {
    await parts.drop(event);
    parts.onAnswer(body);
    return "sent";
  }
  if (response.ok) return "offline"; // an answer that does not name the event is no receipt
  await parts.park(event, body?.sentence ?? translated("The server did not take this. Look at it with somebody."));
  return "parked";
}
