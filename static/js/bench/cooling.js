/**
 * The cooling pots on the page: the picture drawn from the server's last fit, the line of now that moves with the
 * clock, what to do when the window is missed, and what to do meanwhile.
 */
import { benchTime } from "./clock.js";
import { xOf, yOf } from "./curve.js";
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

const SVG = "http://www.w3.org/2000/svg";
const TICK_MS = 5000;

/** @param {Room} room */
export function wireCooling(room) {
  const tick = () => each(room.root, "[data-picture]", (svg) => showNow(svg, room.view()));
  setInterval(tick, TICK_MS);
  return (/** @type {View} */ view) => {
    const { cooling } = view.server;
    each(room.root, "[data-cooling-sentence]", (line) => {
      say(line, cooling.sentence);
      line.classList.toggle("is-attention", cooling.is_missed);
    });
    each(room.root, "[data-picture]", (svg) => showPicture(svg, view));
    each(room.root, "[data-pot-words]", (list) => list.replaceChildren(...cooling.pots.map(potRow)));
    each(room.root, "[data-room-words]", (words) => cooling.room && (words.textContent = cooling.room));
    each(room.root, "[data-ways]", (box) => showWays(box, cooling));
    showMeanwhile(room, view);
    showMixing(room.root, cooling.mixing);
    showStart(room.root, view.server);
    tick();
  };
}

/**
 * @param {HTMLElement} element
 * @param {string} words
 */
function say(element, words) {
  if (element.textContent !== words) element.textContent = words;
  element.hidden = !words;
}

/**
 * @param {string} name
 * @param {Record<string, string | number>} attributes
 * @param {string} [words]
 */
function draw(name, attributes, words = "") {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.textContent = words;
  return element;
}

/**
 * @param {HTMLElement} svg
 * @param {View} view
 */
function showPicture(svg, view) {
  const { picture } = view.server.cooling;
  svg.toggleAttribute("hidden", !picture);
  if (!picture) return;
  each(svg, "[data-curve-window]", (band) => {
    band.setAttribute("y", picture.window_y);
    band.setAttribute("height", picture.window_height);
  });
  each(svg, "[data-window-words]", (words) => {
    words.textContent = picture.window_words;
    words.setAttribute("y", picture.window_y);
  });
  each(svg, "[data-axis]", (axis) => axis.replaceChildren(...ticks(picture)));
  each(svg, "[data-curves]", (group) => group.replaceChildren(...picture.curves.flatMap(curve)));
  each(svg, "[data-marks]", (group) => group.replaceChildren(...marks(view)));
}

/**
 * @param {any} picture
 * @returns {Element[]}
 */
function ticks({ degrees, minutes, left, right, bottom }) {
  return [
    ...degrees.flatMap((/** @type {any} */ tick) => [
      draw("path", { d: `M${left} ${tick.at}H${right}` }),
      draw("text", { class: "is-degree", x: left - 4, y: tick.at }, tick.label),
    ]),
    ...minutes.flatMap((/** @type {any} */ tick) => [
      draw("path", { d: `M${tick.at} ${bottom}v5` }),
      draw("text", { class: "is-minute", x: tick.at, y: bottom + 22 }, tick.label),
    ]),
  ];
}

/** @param {{pot: string, band: string, middle: string}} paths */
function curve({ pot, band, middle }) {
  return [draw("path", { class: `is-band is-${pot}`, d: band }), draw("path", { class: `is-middle is-${pot}`, d: middle })];
}

/**
 * The readings that the server has placed, and after them those that are still on their way.
 * @param {View} view
 * @returns {Element[]}
 */
function marks(view) {
  const { picture, began } = view.server.cooling;
  const placed = new Set(picture.marks.map((/** @type {any} */ mark) => mark.event));
  const waiting = view.readings.filter(({ pot, at, event }) => !placed.has(event) && (pot === "lye" || pot === "fats") && Date.parse(at) >= Date.parse(began));
  return [
    ...picture.marks,
    ...waiting.map(({ pot, temp_c, at }) => ({ pot, x: xOf(picture, minutesAt(began, Date.parse(at))), y: yOf(picture, temp_c), is_odd: false })),
  ].flatMap(({ pot, x, y, is_odd }) => [
    draw("use", { class: `is-${pot}${is_odd ? " is-odd" : ""}`, href: `#mark-${is_odd ? "odd" : pot}`, x, y }),
    ...(is_odd ? [draw("text", { class: "is-unit", x, y, dx: 10, dy: 6 }, "odd")] : []),
  ]);
}

/**
 * @param {string} began
 * @param {number} at milliseconds since 1970
 */
function minutesAt(began, at) {
  return (at - Date.parse(began)) / 60_000;
}

/**
 * @param {HTMLElement} svg
 * @param {View} view
 */
function showNow(svg, view) {
  const { picture, began } = view.server.cooling;
  each(svg, "[data-now-line]", (line) => {
    line.toggleAttribute("hidden", !picture);
    if (!picture) return;
    const x = xOf(picture, minutesAt(began, benchTime()));
    line.setAttribute("transform", `translate(${x})`);
    line.classList.toggle("is-late", x > (picture.left + picture.right) / 2); // its word stands to the other side
  });
}

/** @param {any} pot */
function potRow({ pot, name, window, note, read }) {
  const row = document.createElement("li");
  row.className = `is-${pot}`;
  const part = (/** @type {string} */ tag, /** @type {string} */ words, hidden = false) => {
    const element = document.createElement(tag);
    element.textContent = words;
    if (hidden) element.className = "visually-hidden";
    return element;
  };
  row.append(part("strong", name), ` ${window} `, part("small", note), part("span", ` ${read}`, true));
  return row;
}

/**
 * @param {HTMLElement} box
 * @param {any} cooling
 */
function showWays(box, { ways, sentence }) {
  box.hidden = ways.length === 0;
  const template = /** @type {HTMLTemplateElement} */ (box.querySelector("template"));
  const rows = ways.map((/** @type {any} */ way) => {
    const form = /** @type {HTMLElement} */ (/** @type {DocumentFragment} */ (template.content.cloneNode(true)).firstElementChild);
    const put = (/** @type {string} */ name, /** @type {string} */ value) =>
      each(form, `[name=${name}]`, (input) => (/** @type {HTMLInputElement} */ (input).value = value));
    put("temp_c", String(way.temp_c));
    put("why", sentence);
    put("decision", way.title);
    each(form, "[data-way-title]", (words) => (words.textContent = way.title));
    each(form, "[data-way-sentence]", (words) => (words.textContent = way.sentence));
    return form;
  });
  box.replaceChildren(template, ...rows);
}

/**
 * @param {Room} room
 * @param {View} view
 */
function showMeanwhile({ root, plan, shown }, view) {
  const isCooling = "alkali-into-water" in view.done && !("combine" in view.done);
  const open = isCooling ? plan.prompts.filter(({ key, meanwhile }) => meanwhile && !(key in view.done) && !(key in view.skipped)) : [];
  const minutes = open.reduce((sum, prompt) => sum + prompt.takes_minutes, 0);
  each(root, "[data-meanwhile]", (box) => (box.hidden = open.length === 0));
  const isThere = plan.prompts.some(({ key, meanwhile }) => meanwhile && key === shown());
  each(root, "[data-pots-bar]", (link) => (link.hidden = !isCooling || !isThere));
  each(root, "[data-meanwhile-bar]", (link) => {
    link.hidden = open.length === 0 || isThere;
    link.dataset.stepOf = open[0]?.key ?? "";
    each(link, "[data-meanwhile-count]", (words) => (words.textContent = String(open.length)));
    each(link, "[data-meanwhile-minutes]", (words) => (words.textContent = String(Math.ceil(minutes))));
  });
  each(root, "[data-meanwhile-list] li", (row) => {
    row.hidden = !open.some(({ key }) => key === row.dataset.row);
  });
}

/**
 * @param {HTMLElement} root
 * @param {any} mixing
 */
function showMixing(root, mixing) {
  each(root, "[data-mixing]", (box) => {
    box.hidden = !mixing || ("mixed" in box.dataset && !mixing.warning);
    box.classList.toggle("is-attention", Boolean(mixing?.warning));
    each(box, "[data-mixing-sentence]", (line) => say(line, mixing?.sentence ?? ""));
    each(box, "[data-mixing-warning]", (line) => {
      line.hidden = !mixing?.warning;
      each(line, "strong", (words) => (words.textContent = mixing?.warning ?? ""));
    });
    each(box, "[data-mixing-advice]", (line) => say(line, mixing?.advice ?? ""));
  });
}

/**
 * @param {HTMLElement} root
 * @param {any} server
 */
function showStart(root, { start, rest }) {
  each(root, "[data-start-advice]", (line) => {
    say(line, "whenCold" in line.dataset && !start.is_cold ? "" : start.advice);
    line.classList.toggle("is-attention", start.is_cold);
  });
  each(root, "[data-start-short]", (fact) => say(fact, start.short));
  each(root, "[data-start-warning]", (line) => {
    say(line, start.warning);
    line.classList.toggle("is-stop", start.stops);
    line.classList.toggle("is-attention", !start.stops);
  });
  each(root, "[data-rest-advice]", (line) => say(line, rest));
}
