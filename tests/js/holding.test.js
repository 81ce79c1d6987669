import assert from "node:assert/strict";
import { test } from "node:test";

import { IDLE, isArmed, moved, pressed, progress } from "../../static/js/bench/holding.js";

test("one second of holding is enough and less is not", () => {
  const hold = pressed(IDLE, 1, 0, 0, 1000);
  assert.equal(progress(hold, 1999) < 1, true);
  assert.equal(progress(hold, 2000), 1);
});

test("nothing held makes no progress", () => {
  assert.equal(progress(IDLE, 99_999), 0);
});

test("a finger that drifts more than five millimetres lets go", () => {
  const hold = pressed(IDLE, 1, 100, 100, 0);
  assert.notEqual(moved(hold, 1, 120, 120).grip, null);
  const drifted = moved(hold, 1, 140, 100);
  assert.equal(drifted.grip, null);
  assert.match(drifted.why, /moved/);
});

test("a second pointer lets go", () => {
  const hold = pressed(pressed(IDLE, 1, 0, 0, 0), 2, 50, 50, 100);
  assert.equal(hold.grip, null);
  assert.match(hold.why, /Dry the glass/);
});

test("another pointer's move changes nothing", () => {
  const hold = pressed(IDLE, 1, 0, 0, 0);
  assert.equal(moved(hold, 2, 500, 500), hold);
});

test("the second button answers for five seconds", () => {
  assert.equal(isArmed(null, 0), false);
  assert.equal(isArmed(1000, 6000), true);
  assert.equal(isArmed(1000, 6001), false);
});
