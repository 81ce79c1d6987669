import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { deviation, points } from "../../static/js/bench/deviation.js";
import { fold } from "../../static/js/bench/fold.js";
import { forThePhone } from "./phonePlan.js";

const { plan: planned, phone, events } = JSON.parse(readFileSync(new URL("../vectors/fats_as_planned.json", import.meta.url), "utf8"));
const plan = { ...forThePhone(planned, phone), decimals: 1 };
const view = { ...fold(plan, events), tolerances: {} };
const line = (key) => plan.lines.find((each) => each.key === key);
const said = (key, grams) => deviation(plan, view, line(key), grams);

test("three grams of alkali more are two points less", () => {
  assert.deepEqual(said("alkali:naoh", 146.6), { words: "+3.0 g → superfat 5.0 → 3.0 %", is: "off" });
});

test("so much alkali that no fat is left is a matter to stop at", () => {
  assert.deepEqual(said("alkali:naoh", 153.6), { words: "+10.0 g → superfat 5.0 → −1.6 %, lye-heavy", is: "stop" });
});

test("water is told by the strength of the lye", () => {
  assert.deepEqual(said("water", 240), { words: "−47.2 g → lye 33.3 → 37.4 %", is: "off" });
});

test("half a number says nothing about the batch yet", () => {
  assert.deepEqual(said("alkali:naoh", 14), { words: "−129.6 g", is: "" });
});

test("as asked there is nothing to say", () => {
  assert.deepEqual(said("alkali:naoh", 143.6), { words: "", is: "" });
});

test("what rounds to nothing has no sign", () => {
  assert.equal(points(-0.0001), "0.0");
  assert.equal(points(-0.016), "−1.6");
});
