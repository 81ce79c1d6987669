/**
 * One event in a few words, for "take back" and for what waits. The short form of soapbench.bench.fact_words.
 */

import { translated, withMark } from "../words.js";

/** @typedef {import("./types.js").Event} Event */
/** @typedef {import("./types.js").Plan} Plan */

/**
 * @param {Plan} plan
 * @param {Event | undefined} event
 * @returns {string}
 */
export function eventWords(plan, event) {
  if (!event) return "";
  const { kind, payload } = event;
  const line = plan.lines.find(({ key }) => key === payload.line)?.name;
  if (kind === "weighed") return `${line ?? payload.line} ${withMark(String(payload.mass_g))} g`;
  if (kind === "part-weighed") return `${line ?? payload.line} + ${withMark(String(payload.mass_g))} g`;
  if (kind === "remedied") return String(payload.decision).slice(0, 60);
  if (kind === "ticked") return plan.items[payload.item] ?? payload.item;
  if (kind === "read") return `${translated(payload.pot)} ${withMark(String(payload.temp_c))} °C`;
  if (kind === "rest-tested") return restWords(payload);
  if (kind === "split") return `${payload.portion} ${withMark(String(payload.mass_g))} g`;
  if (kind === "changed") return line ? `${payload.what}: ${line}` : payload.what;
  if (kind === "looked") return `gel: ${payload.gel}`;
  if (kind === "firmness-checked") return payload.crumbles ? "crumbles" : payload.is_firm ? "firm, no dent" : "it dents";
  if (kind === "paused") return translated("hold on");
  if (kind === "resumed") return [translated("back at the bench"), payload.checked].filter(Boolean).join(" · ");
  if (kind === "rinsed") return payload.is_running ? "rinsing began" : "rinsing ended";
  if (kind === "taken-in-hand") return translated("in the hand of {name}", { name: payload.to || event.person });
  if (kind === "given-back") return translated("free again");
  if (kind === "credited") return translated("that was {name}", { name: payload.by });
  if (kind === "decided") return translated("decided which answer counts");
  if (kind === "attached") return [payload.what === "photo" ? "photo" : "voice note", payload.words].filter(Boolean).join(": ");
  if (kind === "scale-checked") return `${withMark(String(payload.known_g))} g: ${withMark(String(payload.read_g))} g`;
  if (kind === "postponed") return payload.why;
  if (kind === "noted") return String(payload.text).slice(0, 60);
  return plan.prompts.find(({ key }) => key === event.prompt)?.title ?? kind;
}

/** @param {Record<string, any>} payload */
function restWords({ oil_film, thickens_as_it_cools }) {
  const found = [oil_film && translated("oil on top"), thickens_as_it_cools && translated("thickens as it cools")].filter(Boolean);
  return found.join(", ") || translated("rested, looks right");
}
