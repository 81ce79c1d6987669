import assert from "node:assert/strict";
import { test } from "node:test";

import { tapGate } from "../../static/js/bench/taps.js";

test("a second tap on the same control within 350 ms does not count", () => {
  const gate = tapGate();
  assert.deepEqual([gate.takes("done", 1000), gate.takes("done", 1349), gate.takes("done", 1351)], [true, false, true]);
});

test("another control counts at once", () => {
  const gate = tapGate();
  assert.deepEqual([gate.takes("item 1", 1000), gate.takes("item 2", 1010)], [true, true]);
});

test("the step that appeared under the finger waits 800 ms", () => {
  const gate = tapGate();
  gate.moved(1000);
  assert.deepEqual([gate.takes("next", 1799), gate.takes("next", 1800)], [false, true]);
});
