/**
 * Photos and voice notes at their prompts: those the server has, and those that still wait on this device.
 */
import { panel } from "./panels.js";
import { each } from "./show.js";
import { translated } from "../words.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */
/** @typedef {import("./types.js").Event} Event */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireAttached({ root }) {
  /** @type {Map<string, string>} addresses of files that wait here, by event */
  const waiting = new Map();
  root.addEventListener("click", (event) => openPicture(root, event));

  /** @param {Event} event */
  function addressOf(event) {
    if (!event.file) return `${root.dataset.attach}${event.id}/`;
    const known = waiting.get(event.id) ?? URL.createObjectURL(new Blob([event.file.bytes], { type: event.file.media }));
    waiting.set(event.id, known);
    return known;
  }

  return (view) => {
    const back = new Set(view.log.filter(({ kind }) => kind === "took-back").map(({ payload }) => payload.event));
    const found = view.log.filter(({ kind, id }) => kind === "attached" && !back.has(id));
    each(root, "[data-attached]", (list) => {
      const prompt = /** @type {HTMLElement} */ (list.closest("[data-prompt]")).dataset.prompt;
      const here = found.filter((event) => event.prompt === prompt);
      list.hidden = here.length === 0;
      // Rows that stand there already stay: a note that is playing plays on.
      if (list.dataset.ids !== idsOf(here)) list.replaceChildren(...here.map((event) => row(event, addressOf(event))));
      list.dataset.ids = idsOf(here);
    });
    each(root, "[data-step-files]", (words) => {
      const count = found.filter(({ prompt }) => prompt === words.dataset.stepFiles).length;
      words.textContent = count ? `+${count}` : "";
    });
  };
}

/**
 * @param {Event[]} events
 * @returns {string} another one when a file has reached the server
 */
function idsOf(events) {
  return events.map(({ id, file }) => id + (file ? " waits" : "")).join();
}

/**
 * @param {Event} event
 * @param {string} address
 * @returns {HTMLElement}
 */
function row({ payload, happened_at }, address) {
  const item = document.createElement("li");
  const small = document.createElement("small");
  const time = new Date(happened_at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  small.textContent = `${time} ${payload.words ?? ""}`;
  item.append(payload.what === "photo" ? thumb(address) : player(address), small);
  return item;
}

/** @param {string} address */
function thumb(address) {
  const link = document.createElement("a");
  const image = document.createElement("img");
  link.href = address;
  link.className = "thumb";
  link.dataset.largeOf = "";
  image.src = address;
  image.alt = translated("Photo");
  link.append(image);
  return link;
}

/** @param {string} address */
function player(address) {
  const audio = document.createElement("audio");
  audio.controls = true;
  audio.preload = "none";
  audio.src = address;
  return audio;
}

/**
 * Show a photo large over the page, which stays as it is.
 * @param {HTMLElement} root
 * @param {MouseEvent} event
 */
function openPicture(root, event) {
  const link = /** @type {Element} */ (event.target).closest("[data-large-of]");
  const box = panel(root, "picture");
  if (!(link instanceof HTMLAnchorElement) || !box?.showPopover) return;
  event.preventDefault();
  const image = document.createElement("img");
  image.src = link.href;
  image.alt = translated("Photo");
  each(box, "[data-large]", (place) => place.replaceChildren(image));
  each(box, "[data-large-words]", (words) => (words.textContent = link.closest("li")?.querySelector("small")?.textContent ?? ""));
  box.showPopover();
}
