/**
 * Minutes since lye met fats, in sight from then until the last pour. Counted from a moment, so a reload, a lock or a
 * missing network changes nothing.
 */
import { benchTime } from "./clock.js";
import { each } from "./show.js";
import { words } from "./timers.js";

/** @typedef {import("./room.js").Room} Room */
/** @typedef {import("./session.js").View} View */

/**
 * @param {import("./types.js").Plan} plan
 * @param {View} view
 * @returns {string} when lye met fats, as long as not everything is poured; else ""
 */
export function batterSince(plan, view) {
  const pours = plan.prompts.filter(({ phase }) => phase === "pour");
  const isPoured = pours.every(({ key }) => key in view.done || key in view.skipped);
  return isPoured || !view.current ? "" : (view.done.combine ?? "");
}

/** @param {Room} room */
export function wireBatterClock({ root, plan, view }) {
  const paint = () => {
    const now = view();
    const since = batterSince(plan, now);
    each(root, "[data-batter-clock]", (clock) => {
      clock.hidden = !since;
      each(clock, "time", (time) => (time.textContent = since ? words(benchTime() - Date.parse(since)) : ""));
      each(clock, "[data-usual-trace]", (usual) => (usual.hidden = !plan.usual_trace_minutes || "trace" in now.done));
    });
  };
  setInterval(paint, 1000);
  return paint;
}
