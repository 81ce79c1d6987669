import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { session } from "../../static/js/bench/session.js";
import { forThePhone } from "./phonePlan.js";

const read = (name) => JSON.parse(readFileSync(new URL(`../vectors/${name}.json`, import.meta.url), "utf8"));
const { plan: whole, phone, events } = read("fats_as_planned");
const plan = forThePhone(whole, phone);
const facts = events.map((event, index) => ({ ...event, position: index + 1, device: "phone" }));
const server = { targets: {}, tolerances: { water: 5.7 }, changes: [] };

const kept = (id, kind, prompt, payload, refused = "") => ({
  id, kind, prompt, payload, refused, happened_at: "2026-11-25T10:00:00Z", device: "phone", run: "r",
}); // prettier-ignore
const coconut = (mass, refused) => kept(`c${mass}`, "weighed", "weigh:fat:coconut", { line: "fat:coconut", mass_g: mass }, refused);

const opened = (state = server) => session(plan, state, facts);

test("with nothing on its way the run stands where the server has it", () => {
  const view = opened().view();
  assert.equal(view.current, "weigh:water");
  assert.equal(view.waiting, 0);
  assert.equal(view.pot_g, 1000);
});

test("what is on its way counts at once and is told as waiting", () => {
  const run = opened();
  run.setKept([kept("a", "weighed", "weigh:water", { line: "water", mass_g: 287.2 })]);
  const view = run.view();
  assert.equal(view.current, "protection");
  assert.equal(view.waiting, 1);
  assert.equal(view.log.at(-1).id, "a");
  assert.equal(view.last_event, "a");
});

test("what the server refused neither counts nor waits, and is still kept", () => {
  const run = opened();
  run.setKept([coconut(340, "Not today.")]);
  assert.equal(run.view().waiting, 0);
  assert.equal(run.view().pot_g, 1000);
  assert.equal(run.kept().length, 1);
});

test("an event that the server has already named is on its way no more", () => {
  const run = opened();
  run.setKept([{ ...facts[2], refused: "", run: "r" }]);
  assert.deepEqual(run.kept(), []);
  assert.equal(run.view().waiting, 0);
});

test("the server's targets win over the phone's", () => {
  const view = opened({ ...server, targets: { water: 290.1, "scent:A:x": 13 } }).view();
  assert.equal(view.targets.water, 290.1);
  assert.equal(view.targets["scent:A:x"], 13);
  assert.equal(view.targets["fat:palm"], 300);
});

test("a target that what is on its way has moved is the phone's until the server answers", () => {
  const run = opened({ ...server, targets: { "alkali:naoh": 143.6, water: 290.1 } });
  run.setKept([coconut(340)]);
  assert.equal(run.view().current, "settle");
  const moved = run.view().targets["alkali:naoh"];
  assert.ok(Math.abs(moved - 150.5) < 0.11, String(moved));

  const after = { ...server, targets: { "alkali:naoh": 150.5, water: 301 } };
  run.take({ position: 99, accepted: ["c340"], state: after, facts: [{ ...coconut(340), position: facts.length + 1 }] });
  run.setKept([]);
  assert.equal(run.view().targets["alkali:naoh"], 150.5);
  assert.equal(run.view().targets.water, 301);
});

test("facts that come twice are held once", () => {
  const run = opened();
  const before = run.have();
  run.take({ position: 3, accepted: [], state: server, facts: [facts[2], { ...coconut(301), position: before + 1 }] });
  assert.equal(run.have(), before + 1);
});

test("tolerances are the server's", () => {
  assert.equal(opened().view().tolerances.water, 5.7);
});

test("a taking back on its way undoes the last weight on the screen", () => {
  const run = opened();
  run.setKept([kept("t", "took-back", "", { event: facts.findLast(({ kind }) => kind === "weighed").id })]);
  assert.equal(run.view().pot_g, 600);
});
