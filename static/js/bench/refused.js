/**
 * What the maker can do about an event that the server did not take: send it again, or keep it as a remark.
 */
import { newId } from "./ids.js";
import { drop, keep, park } from "./outbox.js";
import { translated } from "../words.js";

/** @typedef {import("./outbox.js").Kept} Kept */

const LONGEST_REMARK = 2000;

/**
 * @param {Kept} event
 * @returns {Promise<unknown>}
 */
export function sendAgain(event) {
  return park(event, "");
}

/**
 * @param {string} run
 * @param {Kept} event
 */
export async function keepAsRemark(run, event) {
  const text = `${translated("Not taken ({why})", { why: event.refused ?? "" })}: ${event.kind} ${JSON.stringify(event.payload)}`.slice(0, LONGEST_REMARK);
  const { prompt, happened_at, device_at, device } = event;
  await keep(run, { id: newId(), kind: "noted", prompt, payload: { text }, happened_at, device_at, device });
  await drop(event);
}
