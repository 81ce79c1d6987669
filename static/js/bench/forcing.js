/**
 * What two forcing functions need from a script: a jar that is read anew each time, and a pour that asks offline too.
 */
import { each } from "./show.js";

/** @typedef {import("./features.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireForcing({ root, plan }) {
  return (view) => {
    each(root, "[data-not-in]", (row) => {
      const prompt = row.dataset.notIn ?? "";
      row.hidden = !("combine" in view.done) || prompt in view.done || prompt in view.skipped; // nothing goes in before there is batter
    });
    for (const { key } of plan.lines.filter(({ group }) => group === "alkali")) {
      if (`weigh:${key}` in view.done) forget(root, key); // another weighing reads the jar again
    }
  };
}

/**
 * @param {HTMLElement} root
 * @param {string} line
 */
function forget(root, line) {
  const prompt = CSS.escape(`weigh:${line}`);
  each(root, `[data-prompt="${prompt}"] [name=jar]`, (jar) => {
    /** @type {HTMLInputElement} */ (jar).checked = false;
  });
}
