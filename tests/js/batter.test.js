import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

import { isBorne, timeUsed, traceNow } from "../../static/js/bench/batter.js";

const { stiffer, thick, cases, borne } = JSON.parse(readFileSync(new URL("traces.json", import.meta.url), "utf8"));

for (const [seen, used, now] of cases) {
  test(`${seen} batter with ${used} of its time gone is ${now}`, () => {
    assert.equal(traceNow(seen, used, { stiffer, thick }), now);
  });
}

for (const [thickest, now, is] of borne) {
  test(`${now} batter ${is ? "takes" : "does not take"} what needs ${thickest}`, () => assert.equal(isBorne(thickest, now), is));
}

test("the portion that has least left counts, and other timers do not", () => {
  const timers = [
    { portion: "A", started_at: "2026-11-25T08:00:00Z", ends_at: "2026-11-25T08:20:00Z" },
    { portion: "B", started_at: "2026-11-25T08:00:00Z", ends_at: "2026-11-25T08:10:00Z" },
    { portion: "", started_at: "2026-11-25T08:00:00Z", ends_at: "2026-11-25T08:06:00Z" },
  ];

  assert.equal(timeUsed(timers, Date.parse("2026-11-25T08:05:00Z")), 0.5);
  assert.equal(timeUsed([], 0), 0);
});
