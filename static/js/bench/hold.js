/**
 * The button that is held for what cannot be undone, and its equal for those who cannot hold: press, then answer.
 */
import { HOLD_MS, IDLE, isArmed, moved, pressed, progress } from "./holding.js";
import { translated } from "../words.js";

/**
 * @param {HTMLElement} way
 */
export function wireHold(way) {
  const button = /** @type {HTMLButtonElement} */ (way.querySelector("[data-hold-button]"));
  const second = /** @type {HTMLButtonElement} */ (way.querySelector("[data-hold-second]"));
  const form = /** @type {HTMLFormElement} */ (way.closest("form"));
  button.hidden = false;
  const plain = way.querySelector("[data-plain]");
  plain?.remove(); // its tick would be asked for although nobody sees it
  let hold = IDLE;
  /** @type {number | null} */
  let armedAt = null;

  const paint = () => {
    const share = progress(hold, performance.now());
    way.querySelector("[data-hold-ring]")?.setAttribute("stroke-dasharray", `${share * 100} 100`);
    if (share >= 1) {
      hold = IDLE;
      form.requestSubmit(second);
    } else if (hold.grip) requestAnimationFrame(paint);
  };
  const say = (/** @type {string} */ words) => {
    const why = way.querySelector("[data-hold-why]");
    if (why) why.textContent = words;
  };
  const letGo = () => {
    if (hold.grip && performance.now() - hold.grip.at < HOLD_MS) arm();
    hold = IDLE;
    paint();
  };
  const arm = () => {
    armedAt = performance.now();
    second.hidden = false;
    second.disabled = false;
    say(translated("Hold for one second, or answer below."));
    setTimeout(() => {
      if (isArmed(armedAt, performance.now())) return;
      second.hidden = true;
      say("");
    }, 5100);
  };

  button.addEventListener("pointerdown", (event) => {
    hold = pressed(hold, event.pointerId, event.clientX, event.clientY, performance.now());
    say(hold.why);
    second.disabled = false;
    if (hold.grip) button.setPointerCapture(event.pointerId);
    paint();
  });
  button.addEventListener("pointermove", (event) => {
    hold = moved(hold, event.pointerId, event.clientX, event.clientY);
    if (hold.why) say(hold.why);
  });
  button.addEventListener("pointerup", letGo);
  button.addEventListener("pointercancel", () => {
    hold = IDLE;
    paint();
  });
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  button.addEventListener("click", (event) => {
    if (event.detail === 0) arm(); // by keyboard or by a switch
  });
}
