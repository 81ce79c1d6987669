import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { batterSince } from "../../static/js/bench/batterClock.js";
import { tilesAround, xOf, yOf } from "../../static/js/bench/curve.js";
import { lastLeftAlone, readingDoubt } from "../../static/js/bench/readingDoubt.js";

const CASES = JSON.parse(readFileSync(new URL("readings.json", import.meta.url), "utf8"));

for (const { name, last, temp, room, expect } of CASES) {
  test(`the phone asks about a reading that is ${name} as the server does`, () => {
    assert.equal(readingDoubt(last, temp, room), expect);
  });
}

const at = (minute) => new Date(Date.UTC(2026, 10, 25, 8, minute)).toISOString();
const view = (log = []) => ({
  current: "cool",
  done: { "alkali-into-water": at(10) },
  skipped: {},
  log,
  readings: [
    { pot: "lye", temp_c: 20, at: at(5) },
    { pot: "lye", temp_c: 80, at: at(15) },
    { pot: "fats", temp_c: 30, at: at(16) },
  ],
});
const warmed = { id: "1", kind: "changed", prompt: "cool", payload: { what: "temperature off" }, happened_at: at(20) };

test("what was read in the jug before the alkali is its water", () => {
  const before = view();
  before.readings = before.readings.slice(0, 1);
  assert.equal(lastLeftAlone(before, "lye"), null);
  assert.equal(lastLeftAlone(view(), "lye"), 80);
});

test("a pot that somebody warmed is not held against its readings from before", () => {
  assert.equal(lastLeftAlone(view(), "fats"), 30);
  assert.equal(lastLeftAlone(view([warmed]), "fats"), null);
  assert.equal(lastLeftAlone(view([warmed, { id: "2", kind: "took-back", prompt: "", payload: { event: "1" } }]), "fats"), 30);
});

test("the expected degree stands in the middle of the tiles", () => {
  assert.deepEqual(tilesAround(52.6, 3), [52, 53, 54]);
  assert.deepEqual(tilesAround(60, 5), [58, 59, 60, 61, 62]);
});

test("a reading outside the picture stands at its edge", () => {
  const frame = { first: 0, last: 100, cold: 20, hot: 100, left: 50, right: 310, top: 10, bottom: 120 };
  assert.deepEqual([xOf(frame, 0), xOf(frame, 50), xOf(frame, 400)], [50, 180, 310]);
  assert.deepEqual([yOf(frame, 100), yOf(frame, 60), yOf(frame, -5)], [10, 65, 120]);
});

test("the batter's clock runs from the lye in the fats until all is poured or left out", () => {
  const plan = { prompts: [{ key: "pour:1", phase: "pour" }, { key: "pour:2", phase: "pour" }] };
  const met = { ...view(), done: { combine: at(30) } };
  assert.equal(batterSince(plan, view()), "");
  assert.equal(batterSince(plan, met), at(30));
  assert.equal(batterSince(plan, { ...met, done: { ...met.done, "pour:1": at(40) }, skipped: { "pour:2": true } }), "");
});
