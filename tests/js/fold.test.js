import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import test from "node:test";

import { fold } from "../../static/js/bench/fold.js";
import { checks, inVessel } from "../../static/js/bench/pausing.js";
import { stagesNow } from "../../static/js/bench/stages.js";
import { noticesOf } from "../../static/js/bench/notices.js";
import { outlook } from "../../static/js/bench/superfat.js";
import { forThePhone } from "./phonePlan.js";

const FOLDER = new URL("../vectors/", import.meta.url);
const NAMES = readdirSync(FOLDER).filter((name) => name.endsWith(".json"));

const isoOf = (moment) => new Date(moment).toISOString();
const told = (/** @type {Record<string, {sentence: string}[]>} */ notices) =>
  Object.fromEntries(Object.entries(notices).map(([key, found]) => [key, found.map(({ sentence }) => sentence)]));

for (const name of NAMES) {
  test(`the phone folds ${name} as the server does`, () => {
    const { plan: planned, phone, events, expect } = JSON.parse(readFileSync(new URL(name, FOLDER), "utf8"));
    const plan = forThePhone(planned, phone);
    const state = fold(plan, events);

    assert.equal(state.current, expect.current);
    assert.deepEqual(Object.keys(state.done).sort(), [...expect.done].sort());
    assert.deepEqual(Object.keys(state.skipped).sort(), expect.skipped);
    const { superfat, strength } = outlook(plan, { ...state, targets: { ...state.targets, ...expect.targets } });
    assert.ok(Math.abs((superfat ?? 0) - (expect.superfat ?? 0)) < 1e-9, `superfat ${superfat} ${expect.superfat}`);
    assert.ok(Math.abs((strength ?? 0) - (expect.strength ?? 0)) < 1e-9, `strength ${strength} ${expect.strength}`);
    const hands = Object.entries(state.in_hand).map(([key, { person, device }]) => [key, [person, device]]);
    assert.deepEqual(Object.fromEntries(hands), expect.in_hand ?? {});
    const apart = state.conflicts.map((one) => [one.subject, one.facts.map(({ id }) => id), one.counts, one.is_open]);
    assert.deepEqual(apart, expect.conflicts ?? []);
    assert.deepEqual(state.ticked, expect.ticked);
    assert.deepEqual(state.dealt, expect.dealt);
    assert.ok(Math.abs(state.pot_g - expect.pot_g) < 1e-6);
    assert.deepEqual(checks(plan, state, 6 * 60_000), expect.checks);
    const held = inVessel(plan, state);
    assert.equal(held?.without, expect.in_vessel?.[0]);
    const line = plan.prompts.find(({ key }) => key === state.current)?.line;
    assert.deepEqual(stagesNow(plan, state), expect.stages);
    if (held && line) assert.equal(held.with, expect.in_vessel[1]);
    assert.deepEqual(state.rest && [state.rest.gel, ...[state.rest.earliest, state.rest.latest].map(isoOf)],
      expect.rest && [expect.rest[0], ...expect.rest.slice(1).map(isoOf)]);
    assert.equal(state.paused_since && isoOf(state.paused_since), expect.paused_since && isoOf(expect.paused_since));
    assert.equal(state.rinsing_since && isoOf(state.rinsing_since), expect.rinsing_since && isoOf(expect.rinsing_since));
    assert.deepEqual(
      state.timers.map(({ key, ends_at }) => [key, isoOf(ends_at)]),
      expect.timers.map(({ key, ends_at }) => [key, isoOf(ends_at)]),
    );
    assert.deepEqual(told(noticesOf(plan, { ...state, targets: expect.targets })), expect.notices ?? {});
    for (const [key, grams] of Object.entries(expect.targets)) {
      assert.ok(Math.abs(state.targets[key] - grams) < 1e-6, `${key} ${state.targets[key]} ${grams}`);
    }
    assert.deepEqual(Object.keys(state.takings).sort(), Object.keys(expect.takings).sort());
    for (const [key, taking] of Object.entries(expect.takings)) {
      const { take_g, of_g, share } = state.takings[key];
      [take_g, of_g, share].forEach((one, at) => assert.ok(Math.abs(one - taking[at]) < 1e-6, `${key} ${one} ${taking[at]}`));
    }
  });
}
