/**
 * A note at any prompt: in words, by voice, as a photo. What is refused or missing is said in words, and the keyboard
 * stays.
 */
import { panel } from "./panels.js";
import { shrunk } from "./photo.js";
import { kept, mayRecord } from "./recorder.js";
import { each } from "./show.js";
import { wireVoice } from "./voice.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./types.js").FileKept} FileKept */

const LONGEST_CAPTION = 200;
const MOST_VOICE_BYTES = 2 * 1024 * 1024;

/**
 * @typedef {object} Desk what the parts of the panel do
 * @property {HTMLElement} box the panel
 * @property {(name: string) => void} complain says one of the panel's sentences, "" for none
 * @property {(what: "photo" | "voice", file: FileKept) => Promise<void>} attach
 */

/** @param {Room} room */
export function wireNotes(room) {
  const box = panel(room.root, "note");
  const said = /** @type {HTMLElement} */ (box.querySelector("[data-note-words]"));
  const text = /** @type {HTMLTextAreaElement} */ (box.querySelector("[data-note-text]"));

  /** @type {Desk} */
  const desk = {
    box,
    complain(name) {
      each(box, "[data-note-trouble]", (trouble) => {
        trouble.hidden = !name;
        trouble.textContent = said.dataset[name] ?? "";
      });
    },
    async attach(what, { bytes, media }) {
      const words = text.value.trim();
      const isCaption = words.length <= LONGEST_CAPTION; // more than that is a remark of its own, and stays
      if (isCaption) text.value = "";
      const payload = { what, sha256: "", media, size: bytes.byteLength, words: isCaption ? words : "" };
      desk.complain("");
      box.hidePopover?.();
      await room.record("attached", payload, room.shown(), undefined, { bytes, media });
    },
  };
  each(box, "[data-note-ways]", (ways) => (ways.hidden = false));
  each(box, "[data-photo]", (input) => input.addEventListener("change", () => void takePhoto(desk, input)));
  each(box, "[data-voice-file]", (form) => {
    form.classList.toggle("when-plain", mayRecord()); // a recording can be chosen where none can be made
    form.addEventListener("change", () => void takeVoiceFile(desk, /** @type {HTMLFormElement} */ (form)));
  });
  wireVoice(desk);
  // Opened from within another panel, it would leave that one open under it.
  box.addEventListener("toggle", (/** @type {any} */ { newState }) => {
    if (newState === "closed") each(room.root, ".panel:popover-open", (other) => /** @type {any} */ (other).hidePopover());
  });
  box.addEventListener("beforetoggle", () => {
    desk.complain("");
    each(box, "[name=prompt]", (input) => (/** @type {HTMLInputElement} */ (input).value = room.shown()));
  });
}

/**
 * @param {Desk} desk
 * @param {HTMLElement} field
 */
async function takePhoto(desk, field) {
  const input = /** @type {HTMLInputElement} */ (field);
  const file = input.files?.[0];
  if (!file) return;
  const small = await shrunk(file).catch(() => null);
  input.value = "";
  if (small) await desk.attach("photo", small);
  else desk.complain("unreadable");
}

/**
 * @param {Desk} desk
 * @param {HTMLFormElement} form
 */
async function takeVoiceFile(desk, form) {
  const file = /** @type {HTMLInputElement | null} */ (form.querySelector("[type=file]"))?.files?.[0];
  if (!file) return;
  if (file.size <= MOST_VOICE_BYTES) await desk.attach("voice", await kept(file));
  else desk.complain("tooLarge");
  form.reset();
}
