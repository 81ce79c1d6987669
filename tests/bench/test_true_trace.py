"""Before the lye, at the mix, and after the trace: cold enough, warm enough, and true."""

from dataclasses import replace
from datetime import timedelta

import pytest

from soapbench.bars.formula import Drawing, PourStage, Process
from soapbench.bench import rules
from soapbench.bench.fact_words import fact_words
from soapbench.bench.kinds import Read, RestTested
from soapbench.bench.planning.trace_words import why_trace
from soapbench.bench.refusal import Refused
from soapbench.bench.rest_screen import rest_advice
from soapbench.bench.screen import run_screen
from soapbench.bench.start_screen import start_words
from tests.bench.sample import BENCH, FACTS, PLAIN, SWIRLED, hand

HARD = {**FACTS, "palm": replace(FACTS["palm"], melts_at_c=54.0), "coconut": replace(FACTS["coconut"], melts_at_c=26.0)}
JUG = BENCH.vessels[0]
SOFT_JUG = replace(BENCH, vessels=(replace(JUG, material="HDPE"),))


def mixed(lye_c, fats_c, **changes):
    played = hand(PLAIN, **changes).start().until("cool")
    played.tap("read", "cool", pot="lye", temp_c=lye_c)
    played.tap("read", "cool", pot="fats", temp_c=fats_c)
    return played


@pytest.fixture
def blended():
    return hand(SWIRLED).start().until("rest-test")


def test_water_and_alkali_say_how_cold_to_start():
    played = hand().start().until("weigh:water")

    assert start_words(played.plan, played.state).short == "25 °C or colder"
    told = {screen.prompt.key for screen in run_screen(played.plan, played.state).prompts if screen.tells_start}
    assert told == {"weigh:water", "weigh:alkali:naoh", "alkali-into-water"}


def test_a_jug_that_softens_asks_for_ice_out_of_the_water_as_it_is_weighed_now():
    played = hand(bench=SOFT_JUG).start().until("weigh:water")
    as_planned = start_words(played.plan, played.state)
    heavier = hand(bench=SOFT_JUG).start().until("settle", **{"fat:coconut": 340}).until("weigh:water")

    assert as_planned.is_cold and "of the water as ice" in as_planned.advice and "80 °C" in as_planned.advice
    assert start_words(heavier.plan, heavier.state).advice != as_planned.advice


@pytest.mark.parametrize(("water_c", "stops"), [(27, False), (34, True)])
def test_water_that_is_too_warm_is_told(water_c, stops):
    played = hand().start().until("alkali-into-water")
    played.tap("read", "alkali-into-water", pot="lye", temp_c=water_c)
    words = start_words(played.plan, played.state)

    assert f"The water is at {water_c} °C" in words.warning and words.stops == stops


def test_once_the_alkali_is_in_nothing_is_said_of_the_start():
    played = hand().start().until("read-lye")

    assert start_words(played.plan, played.state).advice == ""


def test_hot_lye_after_cool_water_is_no_doubtful_reading():
    played = hand().start().until("alkali-into-water")
    played.tap("read", "alkali-into-water", pot="lye", temp_c=20)
    played.until("read-lye")

    answer = rules.check(played.plan, played.state, tuple(played.facts), "read", "read-lye", Read("lye", 84))
    assert answer == ""


def test_a_doubt_that_was_answered_is_not_raised_again():
    played = mixed(60, 45)
    read = Read("lye", 75, ("reading",))

    assert rules.check(played.plan, played.state, tuple(played.facts), "read", "cool", read) == ""


def test_the_mix_of_both_pots_is_told_with_its_rise():
    found = mixed(38, 41).state.mixing

    # (1000 × 2.0 × 41 + 430.8 × 3.4 × 38) / (1000 × 2.0 + 430.8 × 3.4) = 39.7; 3.59 mol × 45 kJ / 3.5 kJ/K = 46 K.
    assert found.sentence == "Lye 38, fats 41: together about 40 °C. Turning into soap adds up to 46 K."
    assert (found.warning, found.advice) == ("", "")


def test_a_mix_under_the_fat_that_melts_last_is_warned_of_with_the_way_out():
    found = mixed(38, 41, facts=HARD).state.mixing

    assert found.melts_c == 54
    assert found.warning.startswith("Mixed at 40 °C, a fat that melts at 54 °C can set again")
    assert found.advice.startswith("With the fats at 6") and found.advice.endswith("the mix comes to 54 °C.")


def test_a_mix_that_is_too_hot_is_to_wait():
    assert "Let both pots cool first" in mixed(60, 55).state.mixing.advice


def test_once_mixed_only_what_can_still_be_done_is_said():
    played = mixed(38, 41, facts=HARD)
    found = played.until("trace").state.mixing

    assert (found.sentence, found.advice) == ("Mixed at about 40 °C.", "")
    assert found.warning
    assert [s.prompt.key for s in run_screen(played.plan, played.state).prompts if s.tells_mixing] == [
        "combine", "trace", "rest-test",
    ]  # fmt: skip


def test_the_batter_s_clock_runs_from_the_lye_in_the_fats_to_the_last_pour(blended):
    assert hand(SWIRLED).start().until("combine").state.batter_since is None
    assert blended.state.batter_since == blended.state.done["combine"]
    assert blended.until("draw").state.batter_since is None


def test_the_rest_rings_after_two_minutes(blended):
    timer = next(timer for timer in blended.state.timers if timer.key == "rest")

    assert timer.ends_at == blended.state.done["trace"] + timedelta(minutes=2)


def test_a_batter_that_looks_right_goes_on(blended):
    blended.tap("rest-tested", "rest-test", oil_film=False, thickens_as_it_cools=False)

    assert "rest-test" in blended.state.done and blended.state.trace == "thin"
    assert rest_advice(blended.state) == ""


@pytest.mark.parametrize(("film", "thick"), [(True, False), (False, True), (True, True)])
def test_false_trace_leads_back_to_blending_and_asks_again(blended, film, thick):
    blended.tap("rest-tested", "rest-test", oil_film=film, thickens_as_it_cools=thick)
    state = blended.state
    assert (state.current, state.trace) == ("trace", "")
    assert "Blend in short bursts" in rest_advice(state)
    assert "rest" not in {timer.key for timer in state.timers}

    blended.tap("trace-seen", "trace", trace="thin")
    assert blended.state.current == "rest-test"
    blended.tap("rest-tested", "rest-test", oil_film=False, thickens_as_it_cools=False)
    assert blended.state.current == "split:B" and rest_advice(blended.state) == ""
    assert len(blended.state.rest_tests) == 2


def test_a_rest_test_that_was_taken_back_leaves_the_trace_as_it_was(blended):
    event = blended.tap("rest-tested", "rest-test", oil_film=True, thickens_as_it_cools=False)
    blended.tap("took-back", event=event)

    assert (blended.state.current, blended.state.trace) == ("rest-test", "thin")


def test_there_is_nothing_to_rest_before_lye_meets_fats():
    played = hand().start().until("combine")

    with pytest.raises(Refused, match="There is no batter yet"):
        rules.check(
            played.plan, played.state, tuple(played.facts), "rest-tested", "rest-test", RestTested(False, False)
        )


def test_a_rest_test_is_told_in_words(blended):
    blended.tap("rest-tested", "rest-test", oil_film=True, thickens_as_it_cools=True)
    assert fact_words(blended.plan, blended.facts[-1]) == "oil on top, thickens as it cools"
    blended.tap("trace-seen", "trace", trace="thin")
    blended.tap("rest-tested", "rest-test", oil_film=False, thickens_as_it_cools=False)
    assert fact_words(blended.plan, blended.facts[-1]) == "rested, looks right"


@pytest.mark.parametrize(
    ("formula", "why"),
    [
        (SWIRLED, "Thin, because fine lines close behind the tool."),
        (replace(SWIRLED, drawing=Drawing()), "Thin, because both sides must run level."),
        (
            replace(SWIRLED, drawing=Drawing(), pour=(PourStage("layer", ("A",)), PourStage("layer", ("B",)))),
            "Planned thin; medium is usual here, because a layer must carry the next one.",
        ),
        (
            replace(PLAIN, process=Process(trace="medium")),
            "Medium, because one colour needs no flow, and it holds together while it sets.",
        ),
    ],
)
def test_a_trace_says_why_it_suits_the_drawing(formula, why):
    assert why_trace(formula) == why
    assert hand(formula).plan.prompt("trace").detail.endswith(why)
