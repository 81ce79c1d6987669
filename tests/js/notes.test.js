import assert from "node:assert/strict";
import { test } from "node:test";

import { fitted } from "../../static/js/bench/photo.js";

test("a photo is drawn with sixteen hundred pixels on its longer side", () => {
  assert.deepEqual(fitted(3200, 2400), [1600, 1200]);
  assert.deepEqual(fitted(2400, 3200), [1200, 1600]);
});

test("a small photo is not made larger", () => {
  assert.deepEqual(fitted(40, 30), [40, 30]);
});

test("a long strip keeps at least one pixel", () => {
  assert.deepEqual(fitted(100_000, 3), [1600, 1]);
});
