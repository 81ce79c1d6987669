/**
 * What would follow from a change, asked of the server while its fields are filled and before it is written down.
 */
import { benchTime } from "./clock.js";
import { shown } from "./entry.js";
import { newId } from "./ids.js";
import { payloadOf } from "./payload.js";
import { ask } from "./post.js";
import { each } from "./show.js";
import { translated } from "../words.js";

/** @typedef {import("./room.js").Room} Room */

const ANSWERS = ["why", "decision", "by"]; // what follows does not depend on them
const MOST_ROWS = 3;

/**
 * Ask, and show the answer in the form.
 * @param {Room} room
 * @param {HTMLFormElement} form
 * @returns {Promise<string>} why it could not be written down as it stands, "" when it could
 */
export async function lookAhead({ root, plan }, form) {
  const box = /** @type {HTMLElement} */ (form.querySelector("[data-what-if]"));
  const answer = await answerTo(root, form);
  if (typeof answer === "string") return answer;
  show(box, answer ?? { effect: box.dataset.offline ?? "", superfat: "", moved: [] }, plan.decimals);
  box.hidden = false;
  return "";
}

/**
 * @typedef {{effect: string, superfat: string, moved: {name: string, before_g: number, after_g: number}[]}} WhatIf
 * @param {HTMLElement} root
 * @param {HTMLFormElement} form
 * @returns {Promise<WhatIf | string | null>} a sentence when it was refused, null without a network
 */
async function answerTo(root, form) {
  const { payload, wrong } = payloadOf(form, null);
  if (wrong) return root.dataset.notNumber ?? "";
  for (const name of ANSWERS) delete payload[name];
  const prompt = /** @type {HTMLInputElement} */ (form.querySelector("[name=prompt]")).value;
  const question = { id: newId(), kind: "changed", prompt, payload, happened_at: new Date(benchTime()).toISOString() };
  const response = await ask(root.dataset.whatIfAt ?? "", question).catch(() => null);
  if (!response || response.status >= 500 || response.type === "opaqueredirect") return null;
  const body = await response.json().catch(() => null);
  return response.ok ? body : (body?.sentence ?? null);
}

/**
 * @param {HTMLElement} box
 * @param {WhatIf} found
 * @param {number} decimals
 */
function show(box, { effect, superfat, moved }, decimals) {
  const rows = moved.slice(0, MOST_ROWS).map(({ name, before_g, after_g }) => {
    const row = document.createElement("li");
    row.textContent = translated("{name}: {after} g, not {before} g", {
      name,
      after: shown(after_g, decimals),
      before: shown(before_g, decimals),
    });
    return row;
  });
  each(box, "[data-what-if-effect]", (words) => (words.textContent = effect));
  each(box, "[data-what-if-superfat]", (words) => {
    words.textContent = superfat;
    words.hidden = !superfat;
  });
  each(box, "[data-what-if-moved]", (list) => {
    const more = moved.length - rows.length;
    list.replaceChildren(...rows, ...(more > 0 ? [box.dataset.more?.replace("{number}", String(more)) ?? ""] : []));
    list.hidden = rows.length === 0;
  });
}
