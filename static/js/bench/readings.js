/**
 * Readings in two taps: tiles round what a pot should read now, a keypad for the exact one, and a question about a
 * temperature that cannot be.
 */
import { benchTime } from "./clock.js";
import { tilesAround } from "./curve.js";
import { parse, press } from "./entry.js";
import { tempNow } from "./pausing.js";
import { lastLeftAlone, readingDoubt } from "./readingDoubt.js";
import { each } from "./show.js";
import { MARK, translated, withMark } from "../words.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const FINE_TILES = 5; // round a coarse tile that was tapped
const USUAL_TILES = 3; // the widest row of targets of 15 mm
const TICK_MS = 10_000;
const STEADY_MS = 2000; // a number does not change under a finger

/** @param {Room} room */
export function wireReadings(room) {
  let touchedAt = -Infinity;
  room.root.addEventListener("pointerdown", () => (touchedAt = performance.now()));
  room.root.addEventListener("submit", (event) => onSubmit(room, event), true);
  each(room.root, "[data-degrees]", wireDegrees);
  each(room.root, "[data-typed]", (details) => {
    details.addEventListener("toggle", () => details.hasAttribute("open") && details.scrollIntoView({ block: "end" }));
  });
  const paint = () => {
    const view = room.view();
    each(room.root, "[data-reading]", (section) => showPot(section, view));
    for (const { pot, temp_c } of view.readings) {
      each(room.root, `[data-resume-row=${pot}] [data-last-reading]`, (element) => (element.textContent = `${withMark(String(temp_c))} °C`));
    }
  };
  setInterval(() => performance.now() - touchedAt > STEADY_MS && paint(), TICK_MS);
  return paint;
}

/**
 * Before the run's own wiring sees it: a coarse tile only asks for the exact one, a doubtful reading asks a question.
 * @param {Room} room
 * @param {SubmitEvent} event
 */
function onSubmit(room, event) {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (form.dataset.event !== "read") return;
  const tile = /** @type {HTMLButtonElement | null} */ (event.submitter?.closest("[data-tile]") ?? null);
  const pot = /** @type {HTMLInputElement} */ (form.elements.namedItem("pot")).value;
  const temp = parse((tile?.value ?? /** @type {HTMLInputElement} */ (form.elements.namedItem("temp_c")).value).replace("−", "-"));
  if (tile && "coarse" in form.dataset) {
    stop(event);
    setTiles(form, tilesAround(Number(tile.value), FINE_TILES));
    delete form.dataset.coarse;
    return;
  }
  const found = temp === null ? "" : readingDoubt(lastLeftAlone(room.view(), pot), temp, room.view().server.cooling.room_c || temp);
  if (found && ask(room, form, pot, /** @type {number} */ (temp), found)) stop(event);
  else if (temp !== null) forget(form);
}

/** @param {Event} event */
function stop(event) {
  event.preventDefault();
  event.stopImmediatePropagation();
}

/**
 * @param {Room} room
 * @param {HTMLFormElement} form
 * @param {string} pot
 * @param {number} temp
 * @param {string} sentence
 * @returns {boolean} whether there was a place to ask
 */
function ask(room, form, pot, temp, sentence) {
  const box = form.closest("[data-reading]")?.querySelector("[data-reading-doubt]");
  if (!(box instanceof HTMLElement)) return false;
  const prompt = /** @type {HTMLInputElement} */ (form.elements.namedItem("prompt")).value;
  box.hidden = false;
  each(box, "[data-reading-doubt-sentence]", (words) => (words.textContent = sentence));
  each(box, "[data-reading-again]", (button) => (button.onclick = () => forget(form)));
  each(box, "[data-reading-yes]", (button) => {
    button.onclick = () => {
      forget(form);
      void room.record("read", { pot, temp_c: temp, doubts_answered: ["reading"] }, prompt);
    };
  });
  box.scrollIntoView({ block: "nearest" });
  return true;
}

/**
 * Close the question and the keypad, ready for the next reading.
 * @param {HTMLFormElement} form
 */
function forget(form) {
  const section = form.closest("[data-reading]");
  if (!section) return;
  each(section, "[data-reading-doubt]", (box) => (box.hidden = true));
  // The form is still to be read by whoever sends it, so its field is emptied afterwards.
  setTimeout(() => {
    each(section, "[data-typed]", (details) => details.removeAttribute("open"));
    each(section, "[name=temp_c]:not(button)", (input) => (/** @type {HTMLInputElement} */ (input).value = ""));
  });
}

/** @param {HTMLElement} keypad */
function wireDegrees(keypad) {
  const form = /** @type {HTMLFormElement} */ (keypad.closest("form"));
  const input = /** @type {HTMLInputElement} */ (form.elements.namedItem("temp_c"));
  keypad.hidden = false;
  each(keypad, '[data-degree="."]', (key) => (key.textContent = MARK));
  if (matchMedia("(pointer: coarse)").matches) input.inputMode = "none"; // our keys are larger than the phone's
  keypad.addEventListener("click", (event) => {
    const key = /** @type {Element} */ (event.target).closest("[data-degree]");
    if (!(key instanceof HTMLElement)) return;
    const typed = press(input.value, key.dataset.degree ?? "", { decimals: 1, mark: MARK });
    input.value = typed.text;
    each(form, "[data-degree-blocked]", (words) => (words.textContent = typed.blocked && translated("One decimal is enough.")));
  });
}

/**
 * @param {HTMLElement} section
 * @param {View} view
 */
function showPot(section, view) {
  const pot = section.dataset.reading ?? "";
  const last = view.readings.filter((one) => one.pot === pot).at(-1);
  if (!last || (pot === "lye" && !("alkali-into-water" in view.done))) return;
  const time = new Date(last.at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hour12: false });
  each(section, "[data-last-reading]", (element) => (element.textContent = `${withMark(String(last.temp_c))} °C · ${time}`));
  each(section, "[data-tiles]", (form) => {
    delete form.dataset.coarse;
    setTiles(form, tilesAround(expected(view, pot, last), USUAL_TILES));
  });
}

/**
 * @param {View} view
 * @param {string} pot
 * @param {import("./types.js").Reading} last
 * @returns {number} along the curve of the last fit, or as last read when there is none
 */
function expected(view, pot, last) {
  const curve = view.server.pots[pot];
  return curve ? tempNow(curve, benchTime()) : last.temp_c;
}

/**
 * @param {HTMLElement} form
 * @param {number[]} values
 */
function setTiles(form, values) {
  const tiles = [...form.querySelectorAll("[data-tile]")];
  if (tiles.length === values.length && tiles.every((tile, index) => tile.textContent === String(values[index]))) return;
  const wanted = values.map((value, index) => {
    const tile = tiles[index] ?? tiles[0].cloneNode();
    tile.textContent = String(value);
    /** @type {HTMLButtonElement} */ (tile).value = String(value);
    return tile;
  });
  for (const tile of tiles.slice(values.length)) tile.remove();
  form.append(...wanted);
}
