import assert from "node:assert/strict";
import { test } from "node:test";

import { newId } from "../../static/js/bench/ids.js";

const VERSION_7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

test("an id is a version 7 UUID", () => {
  for (let count = 0; count < 200; count += 1) assert.match(newId(), VERSION_7);
});

test("the example of RFC 9562 comes out again", () => {
  const random = Uint8Array.from("000000000000ccc398c4dc0c0c07398f".match(/../g), (pair) => parseInt(pair, 16));
  assert.equal(newId(1645557742000, random), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("a later id sorts after an earlier one", () => {
  assert.ok(newId(1_700_000_000_000) < newId(1_700_000_000_001));
});

test("two ids of the same millisecond differ", () => {
  const ids = new Set(Array.from({ length: 1000 }, () => newId(5)));
  assert.equal(ids.size, 1000);
});
