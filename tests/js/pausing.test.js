import assert from "node:assert/strict";
import { test } from "node:test";

import { AWAY_MS, BETWEEN_CARDS_MS, mayOpen, tempNow } from "../../static/js/bench/pausing.js";

const weigh = { kind: "weigh", phase: "fats" };
const pot = { began: "2026-11-25T08:00:00Z", curve: [[2, 80], [4, 70], [10, 40]] };
const at = (minutes) => tempNow(pot, Date.parse(pot.began) + minutes * 60_000);

test("the temperature lies straight between two rows of the curve, and level outside them", () => {
  assert.deepEqual([at(0), at(2), at(3), at(7), at(10), at(500)], [80, 80, 75, 55, 40, 40]);
});

test("a card opens by itself only with something in hand", () => {
  assert.equal(mayOpen(weigh, AWAY_MS + 1, Infinity), true);
  assert.equal(mayOpen({ kind: "tick", phase: "gather" }, AWAY_MS + 1, Infinity), false);
  assert.equal(mayOpen({ kind: "wait", phase: "rest" }, AWAY_MS + 1, Infinity), false);
  assert.equal(mayOpen({ kind: "cool", phase: "combine" }, AWAY_MS + 1, Infinity), false);
  assert.equal(mayOpen({ kind: "act", phase: "rest" }, AWAY_MS + 1, Infinity), false);
  assert.equal(mayOpen(undefined, AWAY_MS + 1, Infinity), false);
});

test("a card does not open by itself after half a minute or less, nor twice in ten minutes", () => {
  assert.equal(mayOpen(weigh, AWAY_MS, Infinity), false);
  assert.equal(mayOpen(weigh, 5 * AWAY_MS, BETWEEN_CARDS_MS - 1), false);
  assert.equal(mayOpen(weigh, 5 * AWAY_MS, BETWEEN_CARDS_MS), true);
});
