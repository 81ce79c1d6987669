import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { entryDoubts, tolerance } from "../../static/js/bench/weighing.js";

const CASES = JSON.parse(readFileSync(new URL("doubts.json", import.meta.url), "utf8"));

for (const { name, entry, expect } of CASES) {
  test(`the phone asks about "${name}" as the server does`, () => {
    assert.deepEqual(entryDoubts(entry), expect);
  });
}

test("a tolerance is never finer than a step of the scale", () => {
  assert.equal(tolerance("alkali", 10, 0.1), 0.1);
  assert.equal(tolerance("fat", 400, 0.1), 4);
  assert.equal(tolerance("unheard of", 400, 0.5), 0.5);
});
