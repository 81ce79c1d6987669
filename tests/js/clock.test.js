import assert from "node:assert/strict";
import { test } from "node:test";

import { benchClock } from "../../static/js/bench/clock.js";

/** A device whose clock is wrong by so much, at a steady time of its own. */
function device(wrongBy) {
  const state = { steady: 5000, wrongBy };
  const clock = benchClock(
    () => 1_000_000 + state.steady + state.wrongBy,
    () => state.steady,
  );
  return { state, clock, truth: () => 1_000_000 + state.steady };
}

test("before the server was heard the device's own clock counts", () => {
  const { clock, truth } = device(7000);
  assert.equal(clock.now(), truth() + 7000);
});

test("after an answer the time is the server's, however wrong the device is", () => {
  const { state, clock, truth } = device(7_200_000);
  assert.ok(clock.heard(truth() - 100, state.steady - 200, state.steady));
  assert.equal(clock.now(), truth());
  assert.equal(clock.offset(), -7_200_000);
});

test("a clock set anew while the page lives moves nothing", () => {
  const { state, clock, truth } = device(0);
  clock.heard(truth(), state.steady, state.steady);
  state.wrongBy = -7_200_000;
  state.steady += 60_000;
  assert.equal(clock.now(), truth());
});

test("the time that a phone slept counts once it is looked at again", () => {
  const { state, clock, truth } = device(-30_000);
  clock.heard(truth(), state.steady, state.steady);
  state.wrongBy += 420_000; // seven minutes pass by the device's clock, none by the steady time
  const awake = truth();
  clock.woke();
  assert.equal(clock.now(), awake + 420_000);
});

test("a clock that was set back, or runs a little fast, moves nothing on waking", () => {
  const { state, clock, truth } = device(0);
  clock.heard(truth(), state.steady, state.steady);
  for (const wrong of [-7_200_000, 1500]) {
    state.wrongBy = wrong;
    clock.woke();
    assert.equal(clock.now(), truth());
  }
});

test("an answer that took too long is not believed", () => {
  const { state, clock } = device(0);
  assert.equal(clock.heard(5, state.steady - 6000, state.steady), false);
  assert.equal(clock.offset(), 0);
});

test("an answer without a time is not believed", () => {
  const { state, clock } = device(0);
  assert.equal(clock.heard(NaN, state.steady, state.steady), false);
});
