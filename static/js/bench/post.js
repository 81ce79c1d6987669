/**
 * One event to the server. The token is read from the cookie at sending time: the page may be from yesterday.
 */

import { heard } from "./clock.js";

/** @typedef {import("./outbox.js").Kept} Kept */

/** @returns {string} */
function token() {
  const name = document.documentElement.dataset.csrfCookie ?? "csrftoken"; // another one at the secure address
  return new RegExp(`(?:^|; )${name}=([^;]*)`).exec(document.cookie)?.[1] ?? "";
}

/**
 * @param {string} address
 * @param {Kept} event
 * @param {number} have how many facts the device holds
 * @returns {Promise<Response>}
 */
export async function post(address, event, have) {
  const sent = performance.now();
  const response = await send(address, event, have);
  heard(response.headers.get("X-Soapbench-Now") ?? "", sent);
  if (response.status !== 403) return response;
  await fetch(location.href, { credentials: "same-origin" }); // a fresh token, once
  return send(address, event, have);
}

/**
 * Ask something of the server that it keeps nothing of.
 * @param {string} address
 * @param {object} question
 * @returns {Promise<Response>}
 */
export function ask(address, question) {
  return fetch(address, { method: "POST", credentials: "same-origin", redirect: "manual", headers: headers(), body: JSON.stringify(question) });
}

/** @returns {Record<string, string>} */
function headers() {
  return { "Content-Type": "application/json", "X-CSRFToken": token() };
}

/**
 * @param {string} address
 * @param {Kept} event
 * @param {number} have
 */
function send(address, event, have) {
  if (event.file) return sendFile(address, event, event.file, have);
  const { id, kind, prompt, payload, happened_at, device_at, device } = event;
  return fetch(address, {
    method: "POST",
    credentials: "same-origin",
    redirect: "manual",
    headers: headers(),
    body: JSON.stringify({ id, kind, prompt, payload, happened_at, device_at, device, have }),
  });
}

/**
 * @param {string} address
 * @param {Kept} event
 * @param {import("./types.js").FileKept} file
 * @param {number} have
 */
function sendFile(address, { id, prompt, payload, happened_at, device_at, device }, { bytes, media }, have) {
  const body = new FormData();
  const fields = { id, prompt, happened_at, device_at: device_at ?? "", device, have, what: payload.what, words: payload.words };
  for (const [name, value] of Object.entries(fields)) body.set(name, String(value));
  body.set("file", new Blob([bytes], { type: media }), payload.what);
  const accept = { Accept: "application/json", "X-CSRFToken": token() };
  return fetch(address, { method: "POST", credentials: "same-origin", redirect: "manual", headers: accept, body });
}
