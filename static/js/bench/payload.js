/**
 * What a form says, as an event carries it. The same reading as soapbench.bench.forms.payload_of.
 */
import { parse } from "./entry.js";

const ENVELOPE = ["csrfmiddlewaretoken", "id", "kind", "prompt", "shown"];
const OWN_WORDS = "_words"; // a field of this ending, when filled, wins over the choice of the same name
const LISTS = ["doubts_answered", "steps"];
const PAIRS = ["adds"]; // each "line=grams"

/**
 * Return the payload and, when a number is none, the name of its field.
 * @param {HTMLFormElement} form
 * @param {HTMLElement | null} submitter
 * @returns {{payload: Record<string, any>, wrong: string}}
 */
export function payloadOf(form, submitter) {
  const data = new FormData(form, submitter);
  /** @type {Record<string, any>} */
  const payload = {};
  let wrong = "";
  for (const name of new Set(data.keys())) {
    if (ENVELOPE.includes(name)) continue;
    const value = valueOf(form, submitter, name, data);
    if (value === null) wrong ||= name;
    else if (value !== "") payload[name.replace(OWN_WORDS, "")] = value;
  }
  return { payload, wrong };
}

/**
 * @param {HTMLFormElement} form
 * @param {HTMLElement | null} submitter
 * @param {string} name
 * @param {FormData} data
 * @returns {string | number | boolean | any[] | null} null when a number is none
 */
function valueOf(form, submitter, name, data) {
  if (LISTS.includes(name)) return data.getAll(name).map(String);
  if (PAIRS.includes(name)) return data.getAll(name).map((each) => pair(String(each)));
  const text = String(data.get(name) ?? "").trim();
  const control = controlOf(form, submitter, name);
  if (text && control?.hasAttribute("data-number")) return parse(text.replace(/[\u202f\u00a0 ]/g, "").replace("−", "-"));
  if (control?.hasAttribute("data-boolean")) return text === "true";
  return text;
}

/**
 * @param {string} text
 * @returns {[string, number]}
 */
function pair(text) {
  const at = text.lastIndexOf("=");
  return [text.slice(0, at), Number(text.slice(at + 1))];
}

/**
 * @param {HTMLFormElement} form
 * @param {HTMLElement | null} submitter
 * @param {string} name
 * @returns {Element | null}
 */
function controlOf(form, submitter, name) {
  if (submitter?.getAttribute("name") === name) return submitter;
  return form.querySelector(`[name="${name}"]:not(button)`);
}
