import assert from "node:assert/strict";
import { test } from "node:test";

import { announcement, lateAct, left, soonest, soundsDue, words } from "../../static/js/bench/timers.js";

const at = (text) => Date.parse(`2026-03-01T${text}Z`);
const timer = (label, text) => ({ key: label, label, ends_at: `2026-03-01T${text}Z` });

test("what is left follows from the deadline and the clock alone", () => {
  const lye = timer("lye", "10:30:00");
  assert.equal(left(lye, at("10:00:00")), 30 * 60_000);
  assert.equal(left(lye, at("10:31:00")), -60_000);
});

test("an overdue timer counts up with a sign", () => {
  assert.equal(words(-250_000), "+04:10");
  assert.equal(words(-3_900_000), "+1\u00a0h 05\u00a0min");
});

test("a running timer shows minutes and seconds, a long one hours", () => {
  assert.equal(words(725_000), "12:05");
  assert.equal(words(0), "00:00");
  assert.equal(words(23.5 * 3_600_000), "23\u00a0h 30\u00a0min");
  assert.equal(words(42 * 86_400_000), "42\u00a0days");
});

test("the last part of a second still counts as a second", () => {
  assert.equal(words(400), "00:01");
});

test("at most four timers show, the soonest first", () => {
  const all = ["10:50:00", "10:10:00", "10:40:00", "10:20:00", "10:30:00"].map((text) => timer(text, text));
  assert.deepEqual(soonest(all).map((one) => one.key), ["10:10:00", "10:20:00", "10:30:00", "10:40:00"]);
});

test("it sounds at 0, 15, 30 and 60 s, each minute to ten, then every five", () => {
  const due = [1, 0, -14_999, -15_000, -30_000, -59_999, -60_000, -120_000, -600_000, -660_000, -900_000, -1_200_000];
  assert.deepEqual(due.map(soundsDue), [0, 1, 1, 2, 3, 3, 4, 5, 13, 13, 14, 15]);
});

test("a screen reader hears five minutes, one minute and due, once each", () => {
  const lye = timer("Lye", "10:30:00");
  assert.equal(announcement(lye, at("10:24:59"), at("10:25:00")), "Lye: five minutes left.");
  assert.equal(announcement(lye, at("10:25:00"), at("10:25:01")), "");
  assert.equal(announcement(lye, at("10:28:59"), at("10:29:00")), "Lye: one minute left.");
  assert.equal(announcement(lye, at("10:29:59"), at("10:30:00")), "Lye: now due.");
});

test("a phone that slept through hears only the last", () => {
  assert.equal(announcement(timer("Lye", "10:30:00"), at("10:00:00"), at("11:00:00")), "Lye: now due.");
});

test("an overdue portion is poured next, and spooned when it is long overdue", () => {
  const timer = { ends_at: "2026-11-25T08:10:00Z", spoon_after: 2 };
  const at = (clock) => lateAct(timer, Date.parse(`2026-11-25T08:${clock}Z`));

  assert.deepEqual([at("09:59"), at("10:00"), at("11:59"), at("12:00")], ["", "pour", "pour", "spoon"]);
  assert.equal(lateAct({ ...timer, spoon_after: null }, Date.parse("2026-11-25T09:00:00Z")), "");
});
