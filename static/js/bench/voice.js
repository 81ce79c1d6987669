/**
 * The key of the voice note: tapped to start, tapped to stop. Time and level are shown while it runs.
 */
import { mayRecord, record } from "./recorder.js";
import { each } from "./show.js";

/** @typedef {import("./notes.js").Desk} Desk */
/** @typedef {import("./recorder.js").Recording} Recording */

/** @param {Desk} desk */
export function wireVoice(desk) {
  /** @type {Recording | null} */
  let running = null;
  each(desk.box, "[data-voice]", (key) => key.addEventListener("click", () => void start()));
  each(desk.box, "[data-voice-stop]", (key) => key.addEventListener("click", () => running?.stop()));
  each(desk.box, "[data-voice-drop]", (key) => key.addEventListener("click", () => running?.drop()));
  // Nothing that was said is lost when the panel is closed or the screen goes dark.
  desk.box.addEventListener("beforetoggle", (event) => {
    if (/** @type {any} */ (event).newState === "closed") running?.stop();
  });
  document.addEventListener("visibilitychange", () => void (document.hidden && running?.stop()));

  async function start() {
    if (running) return;
    desk.complain("");
    running = await record((elapsed, level) => showLook(desk.box, elapsed, level)).catch((error) => {
      desk.complain(whyNot(error));
      return null;
    });
    if (!running) return;
    showRunning(desk.box, true);
    const file = await running.file.catch(() => {
      desk.complain("failed");
      return null;
    });
    running = null;
    showRunning(desk.box, false);
    if (file) await desk.attach("voice", file);
  }
}

/**
 * @param {unknown} error
 * @returns {string} name of the sentence that says why there is no microphone
 */
export function whyNot(error) {
  if (!mayRecord()) return "insecure";
  const name = error instanceof Error ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return "denied";
  return name === "NotFoundError" || name === "NotReadableError" || name === "OverconstrainedError" ? "missing" : "failed";
}

/**
 * @param {HTMLElement} box
 * @param {boolean} isRunning
 */
function showRunning(box, isRunning) {
  showLook(box, 0, 0);
  each(box, "[data-recording]", (part) => (part.hidden = !isRunning));
  each(box, "[data-note-ways]", (part) => (part.hidden = isRunning));
}

/**
 * @param {HTMLElement} box
 * @param {number} elapsed milliseconds
 * @param {number} level from 0 to 1
 */
function showLook(box, elapsed, level) {
  const seconds = Math.floor(elapsed / 1000);
  each(box, "[data-recording-time]", (time) => {
    time.textContent = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  });
  each(box, "[data-level]", (bar) => (bar.style.transform = `scaleX(${level.toFixed(2)})`));
}
