import assert from "node:assert/strict";
import { test } from "node:test";

import { sender } from "../../static/js/bench/sender.js";

/** A device and a server in memory; `answers` plays what comes back for each try. */
function bench(ids, answers) {
  const seen = { kept: ids.map((id) => ({ id, refused: "" })), posted: [], pauses: [], troubles: [], answers: [] };
  const parts = {
    kept: async () => [...seen.kept],
    drop: async (event) => (seen.kept = seen.kept.filter((one) => one.id !== event.id)),
    park: async (event, sentence) => (seen.kept.find((one) => one.id === event.id).refused = sentence),
    post: async (event) => {
      seen.posted.push(event.id);
      return answers.length ? answers.shift()(event) : taken(event);
    },
    onAnswer: (answer) => seen.answers.push(answer),
    onTrouble: (trouble) => seen.troubles.push(trouble),
    later: (act, pause) => seen.pauses.push(pause) && (seen.again = act),
  };
  return { ...sender(parts), seen };
}

const json = (status, body) => new Response(JSON.stringify(body), { status });
const taken = (event) => json(200, { accepted: [event.id], position: 1, state: {}, facts: [] });
const lost = () => Promise.reject(new TypeError("Failed to fetch"));

test("events are sent in the order they were made and leave when named", async () => {
  const { send, seen } = bench(["a", "b", "c"], []);
  await send();
  assert.deepEqual(seen.posted, ["a", "b", "c"]);
  assert.deepEqual(seen.kept, []);
  assert.equal(seen.troubles.at(-1), "");
});

test("without a network nothing leaves and nothing overtakes", async () => {
  const { send, seen } = bench(["a", "b"], [lost]);
  await send();
  assert.deepEqual(seen.posted, ["a"]);
  assert.equal(seen.kept.length, 2);
  assert.equal(seen.troubles.at(-1), "offline");
});

test("the pauses double up to a minute and start again after a success", async () => {
  const { send, seen } = bench(["a"], Array.from({ length: 8 }, () => lost));
  for (let tries = 0; tries < 8; tries += 1) await send();
  assert.deepEqual(seen.pauses, [1000, 2000, 4000, 8000, 16_000, 32_000, 60_000, 60_000]);
  await send();
  assert.deepEqual(seen.kept, []);
});

test("an answer that names another event is no receipt", async () => {
  const { send, seen } = bench(["a"], [() => json(200, { accepted: ["z"] })]);
  await send();
  assert.equal(seen.kept.length, 1);
});

test("a page in place of an answer is no receipt", async () => {
  const { send, seen } = bench(["a"], [() => new Response("<html>", { status: 200 })]);
  await send();
  assert.equal(seen.kept.length, 1);
});

test("a refused event is kept with the sentence and the next is sent", async () => {
  const { send, seen } = bench(["a", "b"], [() => json(422, { field: "mass_g", sentence: "More than the scale carries." })]);
  await send();
  assert.deepEqual(seen.posted, ["a", "b"]);
  assert.deepEqual(seen.kept, [{ id: "a", refused: "More than the scale carries." }]);
  await send();
  assert.deepEqual(seen.posted, ["a", "b"]);
});

test("a lapsed sign-in keeps everything and says so", async () => {
  const { send, seen } = bench(["a"], [() => json(403, {})]);
  await send();
  assert.equal(seen.kept.length, 1);
  assert.equal(seen.troubles.at(-1), "sign in");
});

test("a server in trouble is tried again", async () => {
  const { send, seen } = bench(["a"], [() => json(503, {})]);
  await send();
  assert.equal(seen.kept[0].refused, "");
  await seen.again();
  assert.deepEqual(seen.kept, []);
});

test("an event made during a sending goes out with it", async () => {
  const { send, seen } = bench(["a"], [
    (event) => {
      seen.kept.push({ id: "b", refused: "" });
      void send();
      return taken(event);
    },
  ]);
  await send();
  assert.deepEqual(seen.kept, []);
});
