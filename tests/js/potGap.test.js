import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { gapOf } from "../../static/js/bench/potGap.js";

const CASES = JSON.parse(readFileSync(new URL("potGaps.json", import.meta.url), "utf8"));

for (const { name, given, expect } of CASES) {
  test(`the phone says of a pot "${name}" what the server says`, () => {
    assert.deepEqual(gapOf(...given), expect);
  });
}
