import assert from "node:assert/strict";
import { test } from "node:test";

import { nudged, parse, press, shown } from "../../static/js/bench/entry.js";

const ONE = { decimals: 1, mark: "." };
const COMMA = { decimals: 2, mark: "," };
const WHOLE = { decimals: 0, mark: "." };

const typed = (keys, scale) => [...keys].reduce((text, key) => press(text, key, scale).text, "");

test("digits and one mark make the number that was typed", () => {
  assert.equal(typed("402.1", ONE), "402.1");
  assert.equal(parse(typed("402.1", ONE)), 402.1);
});

test("a comma and a point are the same mark", () => {
  assert.equal(typed("12.5", COMMA), "12,5");
  assert.equal(parse("12,5"), 12.5);
});

test("a second mark is blocked and says why", () => {
  assert.deepEqual(press("4.", ".", ONE), { text: "4.", blocked: "There is a decimal mark already." });
});

test("no more decimals than the scale has", () => {
  assert.equal(press("4.1", "2", ONE).text, "4.1");
  assert.match(press("4.1", "2", ONE).blocked, /1 decimal\./);
  assert.match(press("4", ".", WHOLE).blocked, /whole grams/);
});

test("a sixth digit is blocked and nothing is cut off", () => {
  const pressed = press("12345", "6", ONE);
  assert.equal(pressed.text, "12345");
  assert.match(pressed.blocked, /5 digits/);
});

test("a mark typed first gets its leading nought", () => {
  assert.equal(typed(".5", ONE), "0.5");
});

test("a leading nought gives way to the next digit", () => {
  assert.equal(typed("07", ONE), "7");
});

test("delete takes one digit and clear takes all", () => {
  assert.equal(press("402", "delete", ONE).text, "40");
  assert.equal(press("402", "clear", ONE).text, "");
});

test("what is no number is no number", () => {
  for (const text of ["", ".", "abc", "1.2.3", "-4", "1e5", "NaN", "Infinity", "0x10"]) {
    assert.equal(parse(text), null, text);
  }
});

test("a nudge starts from the target and never goes below zero", () => {
  assert.equal(nudged("", 0.1, 400, ONE), "400.1");
  assert.equal(nudged("400.1", -1, 400, ONE), "399.1");
  assert.equal(nudged("0.5", -1, 400, ONE), "0.0");
  assert.equal(nudged("1,00", 0.01, 400, COMMA), "1,01");
});

test("a weight shows exactly the decimals of the scale", () => {
  assert.equal(shown(400, 1), "400.0");
  assert.equal(shown(1250.5, 1, ","), "1\u202f250,5");
  assert.equal(shown(1250, 0), "1\u202f250");
  assert.equal(shown(-3, 1), "\u22123.0");
});
