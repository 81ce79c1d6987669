import assert from "node:assert/strict";
import { test } from "node:test";

import { eventWords } from "../../static/js/bench/eventWords.js";

const plan = { lines: [{ key: "fat:olive", name: "Olive oil" }], prompts: [{ key: "melt", title: "Melt the fats" }], items: { "tool:scale": "Bench scale" } };
const words = (kind, payload, prompt = "") => eventWords(plan, { kind, payload, prompt });

test("an event is said with its figures", () => {
  assert.equal(words("weighed", { line: "fat:olive", mass_g: 402.1 }), "Olive oil 402.1 g");
  assert.equal(words("weighed", { line: "fat:gone", mass_g: 1 }), "fat:gone 1 g");
  assert.equal(words("read", { pot: "lye", temp_c: 38.5 }), "lye 38.5 °C");
  assert.equal(words("split", { portion: "B", mass_g: 400 }), "B 400 g");
});

test("a tick is said by its item", () => {
  assert.equal(words("ticked", { item: "tool:scale" }), "Bench scale");
  assert.equal(words("ticked", { item: "gone" }), "gone");
});

test("a change is said with its line where it has one", () => {
  assert.equal(words("changed", { what: "left out", line: "fat:olive" }), "left out: Olive oil");
  assert.equal(words("changed", { what: "interrupted" }), "interrupted");
});

test("a remark is cut short", () => {
  assert.equal(words("attached", { what: "photo", words: "the jug" }), "photo: the jug");
  assert.equal(words("attached", { what: "voice", words: "" }), "voice note");
  assert.equal(words("noted", { text: "x".repeat(90) }), "x".repeat(60));
});

test("what was done is said by its prompt, and by its kind without one", () => {
  assert.equal(words("done", {}, "melt"), "Melt the fats");
  assert.equal(words("drawn", {}, "gone"), "drawn");
});

test("nothing is said of nothing", () => {
  assert.equal(eventWords(plan, undefined), "");
});
