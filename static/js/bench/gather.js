/**
 * Setting out: what is not here leads to what helps, and a batch that is put off leaves the bench.
 */
import { each } from "./show.js";
import { openItems } from "./ticks.js";

/** @typedef {import("./features.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const MINUTE = 60_000;

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireGather({ root, plan }) {
  const panel = /** @type {any} */ (root.querySelector("#missing"));
  let isLeaving = false;
  root.addEventListener("click", (event) => {
    const link = /** @type {Element} */ (event.target).closest("[data-helps]");
    if (!(link instanceof HTMLElement)) return;
    event.preventDefault();
    open(panel, link.dataset.helps ?? "", link.dataset.missingName ?? "");
  });
  root.addEventListener("submit", (event) => {
    const form = /** @type {HTMLFormElement} */ (event.target);
    if (form.dataset.event === "postponed") isLeaving = true;
    if (form.dataset.event === "scale-checked") setTimeout(() => form.reset()); // once it is read
    if (form.dataset.event === "done") form.closest("[data-prompt]")?.querySelector("[data-needed]")?.scrollIntoView({ block: "center" });
    if (form.dataset.missing) open(panel, form.dataset.missing, form.dataset.missingName ?? "");
  });
  showUntil(root);
  setInterval(() => showUntil(root), MINUTE);
  return (view) => {
    showItems(root, plan, view);
    const latest = view.log.filter(({ kind }) => kind !== "noted").at(-1);
    each(root, "[data-put-off]", (notice) => (notice.hidden = latest?.kind !== "postponed"));
    if (isLeaving && latest?.kind === "postponed" && view.waiting === 0) location.assign(root.dataset.home ?? "/");
    if (isOutdated(plan, view.server)) location.reload();
  };
}

/**
 * Whether the page was made for another scale, whose steps every figure has, or for another drawing.
 * @param {import("./types.js").Plan} plan
 * @param {any} server
 */
function isOutdated(plan, server) {
  return plan.scale.name !== server.scale || (server.drawing_ahead && server.drawing_ahead !== plan.drawing);
}

/**
 * Open the panel with what can be done at once, and put what the server works out in its place when it answers.
 * @param {any} panel
 * @param {string} item
 * @param {string} name
 */
async function open(panel, item, name) {
  const here = /** @type {HTMLElement} */ (panel.querySelector("[data-helps-here]"));
  const plain = /** @type {HTMLElement} */ (panel.querySelector("[data-helps-plain]"));
  here.replaceChildren();
  plain.hidden = false;
  each(panel, "h2", (title) => (title.textContent = `${panel.dataset.words} ${name}`));
  each(panel, "[data-put-off-why]", (input) => (/** @type {HTMLInputElement} */ (input).value = name));
  panel.showPopover?.();
  const words = await fetched(`${panel.dataset.address}?item=${encodeURIComponent(item)}`);
  if (!words) return;
  const template = document.createElement("template");
  template.innerHTML = words;
  here.replaceChildren(template.content);
  plain.hidden = true;
}

/**
 * @param {string} address
 * @returns {Promise<string>} "" without a network
 */
async function fetched(address) {
  try {
    const answer = await fetch(address, { credentials: "same-origin", redirect: "error", headers: { "HX-Request": "true" } });
    return answer.ok ? await answer.text() : "";
  } catch {
    return "";
  }
}

/**
 * @param {HTMLElement} root
 * @param {import("./types.js").Plan} plan
 * @param {View} view
 */
function showItems(root, plan, view) {
  each(root, "[data-item]", (row) => {
    const key = row.dataset.item ?? "";
    const isHere = view.ticked[key] === true;
    const done = isHere ? "" : (view.dealt[key] ?? "");
    row.classList.toggle("is-missing", view.ticked[key] === false && !done);
    row.classList.toggle("is-dealt", Boolean(done));
    each(row, "[data-dealt]", (words) => (words.textContent = done));
  });
  for (const prompt of plan.prompts.filter(({ kind }) => kind === "tick")) {
    const open = openItems(prompt, view);
    for (const { key } of prompt.ticks) {
      each(root, `[data-item="${CSS.escape(key)}"]`, (row) => row.toggleAttribute("data-needed", open.includes(key)));
    }
  }
}

/** @param {HTMLElement} root */
function showUntil(root) {
  each(root, "[data-until]", (words) => {
    const until = new Date(Date.now() + Number(words.dataset.until) * MINUTE);
    const time = until.toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
    words.textContent = (words.textContent ?? "").replace(/\d{1,2}:\d{2}/, time);
  });
}
