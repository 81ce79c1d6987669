"""What the run page shows of a plan and a state: one prompt, its figures as the scale shows them, what was refused."""

from dataclasses import replace

import pytest

from soapbench.bench.plan import PlanScale
from soapbench.bench.rules.order import ANSWERS
from soapbench.bench.screen import AT_THE_PROMPT, Refusal, run_screen, stand_of
from tests.bench.sample import BENCH, SWIRLED, Hand, hand, plan_of


@pytest.fixture
def played():
    return Hand(plan_of(SWIRLED)).start()


def screen_at(hand, key="", refusal=None):
    return run_screen(hand.plan, hand.state, key, refusal)


def refused(prompt, kind, **typed):
    return Refusal(prompt, kind, "This is wrong.", "mass_g", typed)


def test_the_prompt_of_now_is_shown_unless_another_is_asked_for(played):
    assert screen_at(played).shown.prompt.key == "weigh:fat:palm"
    assert screen_at(played, "cut").shown.prompt.key == "cut"
    assert screen_at(played, "nowhere").shown.prompt.key == "weigh:fat:palm"


def test_a_run_that_ended_shows_its_last_prompt(played):
    assert screen_at(played.until("")).shown.prompt.key == "release"


def test_every_prompt_stands_somewhere(played):
    played.until("read-lye")
    state = played.state
    stands = {prompt.key: stand_of(state, prompt) for prompt in played.plan.prompts}

    assert (stands["melt"], stands["settle"], stands["read-lye"], stands["cut"]) == ("done", "skipped", "now", "ahead")


def test_the_next_title_passes_over_what_is_not_needed(played):
    played.until("melt")
    melt = next(each for each in screen_at(played).prompts if each.prompt.key == "melt")

    assert (
        melt.next_title == played.plan.prompt("settle" if "settle" not in played.state.skipped else "weigh:water").title
    )


@pytest.mark.parametrize(
    ("step", "target", "ten"), [(0.1, "300.0", "1.0"), (1.0, "300", "10"), (0.01, "300.00", "0.10")]
)
def test_a_weight_is_shown_with_the_scale_s_decimals(step, target, ten):
    scaled = hand(bench=replace(BENCH, scale=PlanScale("other-scale", "Other scale", step, 5000)))
    page = screen_at(scaled.start(), "weigh:fat:palm")

    assert page.shown.line.target == target
    assert page.ten_steps == page.shown.line.ten_steps == ten


def test_a_weighed_line_shows_what_was_weighed_and_the_pot(played):
    played.weigh("fat:palm", 301.5)
    page = screen_at(played, "weigh:fat:coconut")

    assert page.pot == page.shown.line.pot == "301.5"
    assert next(each.line.weighed for each in page.prompts if each.prompt.key == "weigh:fat:palm") == "301.5"


def test_only_what_cannot_burn_or_spoil_may_be_taken_as_shown(played):
    groups = {each.line.group for each in screen_at(played).prompts if each.line and each.line.may_be_as_shown}

    assert groups == {"colourant", "scent", "carrier"}


def test_a_stand_in_gives_its_name_to_the_prompt(played):
    played.tap(
        "changed", "weigh:fat:palm", what="substituted", why="none left", decision="use it", line="fat:palm",
        material="lard",
    )  # fmt: skip

    assert screen_at(played, "weigh:fat:palm").shown.line.name == "Lard"


def test_ticks_stand_in_their_groups_and_are_remembered(played):
    rows = screen_at(played, "protection").shown.gathered.rows

    assert rows and not any(row.is_here for row in rows)
    played.tap("ticked", "protection", item="gloves")
    again = screen_at(played, "protection").shown.gathered
    assert [row.tick.key for row in again.rows if row.is_here] == ["gloves"]
    assert [row.tick.key for row in rows] == [tick.key for tick in played.plan.prompt("protection").ticks]


def test_the_ways_of_the_alkali_carry_their_grams():
    heavier = hand().start().until("settle", **{"fat:coconut": 340})
    recomputed, *_, planned = screen_at(heavier).ways

    assert planned.sentence == "Water 287.2 g and Sodium hydroxide 143.6 g."
    assert recomputed.sentence == "Water 301 g and Sodium hydroxide 150.5 g."
    assert (recomputed.figures[:5], recomputed.word) == ("5.0 %", "fine")


def test_no_prompt_s_own_answer_is_refused_out_of_sight(played):
    hidden = {(kind, event) for kind, events in ANSWERS.items() for event in events if event not in AT_THE_PROMPT[kind]}

    assert hidden == {("tick", "ticked"), ("read", "done")}


def test_a_refusal_at_its_prompt_is_told_there_alone(played):
    page = screen_at(played, refusal=refused("weigh:fat:palm", "weighed", mass_g="x"))

    assert (page.trouble, page.shown.refusal.typed) == ("", {"mass_g": "x"})
    assert [each.prompt.key for each in page.prompts if each.refusal] == ["weigh:fat:palm"]


@pytest.mark.parametrize(
    ("prompt", "kind"), [("materials", "ticked"), ("cut", "took-back"), ("nowhere", "weighed"), ("read-lye", "read")]
)
def test_a_refusal_without_a_place_is_told_at_the_top(played, prompt, kind):
    assert screen_at(played, refusal=refused(prompt, kind)).trouble == "This is wrong."


@pytest.mark.parametrize(
    ("kind", "panel"), [("changed", "different"), ("noted", "note"), ("attached", "note"), ("stopped", "stop-safe")]
)
def test_a_refusal_in_a_panel_opens_it(played, kind, panel):
    page = screen_at(played, refusal=refused("cut", kind))

    assert (page.shown.opens, page.trouble) == (panel, "")


def test_no_panel_opens_by_itself(played):
    assert {each.opens for each in screen_at(played).prompts} == {""}


def test_first_aid_is_near_wherever_there_is_caustic(played):
    caustic = {each.prompt.key for each in screen_at(played).prompts if each.is_caustic}

    assert {"weigh:alkali:naoh", "alkali-into-water", "combine", "split:B", "pour:1"} <= caustic
    assert not {"materials", "weigh:fat:palm", "cut", "release"} & caustic
