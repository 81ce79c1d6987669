/**
 * Draws the server's pictures anew when what they show has changed and there is a network. Without one the page keeps
 * those of the plan.
 */
import { each } from "./show.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {Room} room
 * @returns {(view: View) => void}
 */
export function wireFreshen({ root, view }) {
  let drawn = shows(view());
  let isAsking = false;
  return (now) => {
    const wanted = shows(now);
    if (now.waiting || isAsking || wanted === drawn) return;
    isAsking = true;
    freshen(root)
      .then(() => {
        drawn = wanted;
      })
      .catch(() => {}) // the next change asks again
      .finally(() => (isAsking = false));
  };
}

/** @param {View} view */
function shows({ portions_g, trace, done, server, log }) {
  const drawings = log.filter(({ kind }) => kind === "drawn" || kind === "changed" || kind === "took-back").length;
  return JSON.stringify([portions_g, trace, "draw" in done, server.changes.length, drawings]);
}

/** @param {HTMLElement} root */
async function freshen(root) {
  const response = await fetch(location.pathname, { headers: { Accept: "text/html" } });
  if (!response.ok || response.redirected) throw new Error("no page");
  const page = new DOMParser().parseFromString(await response.text(), "text/html");
  each(root, "[data-server-drawn]", (old) => {
    const found = page.querySelector(`[data-server-drawn="${old.dataset.serverDrawn}"]`);
    if (found && !old.querySelector("details[open], :focus")) old.replaceWith(document.adoptNode(found));
  });
}
