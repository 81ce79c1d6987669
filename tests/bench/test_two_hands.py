"""Two people at one batch: who has what in hand, who did what, and answers that knew nothing of each other."""

from dataclasses import replace

import pytest

from soapbench.bench.run import fold
from tests.bench.sample import PLAIN, at, hand

OLIVE, COCONUT, PALM = "weigh:fat:olive", "weigh:fat:coconut", "weigh:fat:palm"
SIZES = {"fat:coconut": (300.0, 340.0), "alkali:naoh": (140.0, 150.0)}


def both(line, mine, theirs, key=""):
    """Return a hand at a weighing that two phones have answered, each before it had heard of the other."""
    played = at(key or f"weigh:{line}")
    seen = len(played.facts)
    played.at("Ada", "phone a", seen).weigh(line, mine)
    played.at("Tobit", "phone b", seen).weigh(line, theirs)
    return played


def decide(played, *counts, by="Ada"):
    conflict = played.state.conflicts[0]
    ids = [fact.id for fact in conflict.facts]
    played.at(by, f"phone of {by}")
    played.tap("decided", conflict.prompt, events=ids, counts=[ids[index] for index in counts])
    return played.state


def turned(played):
    """Return the same facts as if the last two had come in the other order."""
    *before, one, other = played.facts
    return [*before, replace(other, position=one.position), replace(one, position=other.position)]


def test_a_prompt_taken_in_hand_says_who_has_it():
    played = at(COCONUT).at("Tobit", "phone b")
    played.tap("taken-in-hand", OLIVE)

    held = played.state.in_hand[OLIVE]
    assert (held.person, held.device) == ("Tobit", "phone b")


def test_a_prompt_handed_over_is_in_the_hand_of_the_one_who_was_named():
    played = at(COCONUT)
    played.tap("taken-in-hand", OLIVE, to="Tobit")

    assert (played.state.in_hand[OLIVE].person, played.state.in_hand[OLIVE].device) == ("Tobit", "")


@pytest.mark.parametrize("last", ["given-back", "weighed"])
def test_a_prompt_leaves_the_hand_when_it_is_given_back_or_done(last):
    played = at(COCONUT).at("Tobit", "phone b")
    played.tap("taken-in-hand", COCONUT)
    played.weigh("fat:coconut") if last == "weighed" else played.tap("given-back", COCONUT)

    assert played.state.in_hand == {}


def test_of_two_who_take_a_prompt_at_once_the_first_has_it():
    played = at(COCONUT)
    seen = len(played.facts)
    played.at("Ada", "phone a", seen).tap("taken-in-hand", OLIVE)
    played.at("Tobit", "phone b", seen).tap("taken-in-hand", OLIVE)

    assert played.state.in_hand[OLIVE].person == "Ada"


def test_who_sees_that_another_has_it_takes_it_over():
    played = at(COCONUT).at("Ada", "phone a")
    played.tap("taken-in-hand", OLIVE)
    played.at("Tobit", "phone b").tap("taken-in-hand", OLIVE)

    assert played.state.in_hand[OLIVE].person == "Tobit"


def test_a_prompt_in_the_hand_of_one_is_answered_by_another_all_the_same():
    played = at(COCONUT).at("Tobit", "phone b")
    played.tap("taken-in-hand", COCONUT)
    played.at("Ada", "phone a").weigh("fat:coconut")

    assert COCONUT in played.state.done


def test_taking_in_hand_is_not_what_take_back_means():
    played = at(COCONUT)
    before = played.state.last_event
    played.tap("taken-in-hand", OLIVE)

    assert played.state.last_event == before


@pytest.mark.parametrize(("line", "careful"), [("fat:coconut", 300.0), ("alkali:naoh", 150.0)])
def test_until_it_is_decided_the_careful_weight_counts(line, careful):
    one, other = SIZES[line]
    for order in ((one, other), (other, one)):
        state = both(line, *order).state
        assert state.weights[line].mass_g == careful
        assert [fact.payload["mass_g"] for fact in state.open_conflicts[0].facts] == list(order)


@pytest.mark.parametrize("line", SIZES)
def test_the_order_of_arrival_loses_no_answer_and_moves_no_figure(line):
    played = both(line, *SIZES[line])
    one, other = played.state, fold(played.plan, turned(played))

    assert {fact.id for fact in one.conflicts[0].facts} == {fact.id for fact in other.conflicts[0].facts}
    assert one.weights[line].mass_g == other.weights[line].mass_g
    assert (one.current, one.targets, one.superfat) == (other.current, other.targets, other.superfat)


def test_the_answer_that_was_decided_for_counts_and_both_stay():
    state = decide(both("fat:coconut", 300, 340), 1)

    assert state.weights["fat:coconut"].mass_g == 340
    assert state.open_conflicts == () and len(state.conflicts[0].facts) == 2
    assert state.conflicts[0].decision.person == "Ada"


def test_a_fat_that_really_went_in_twice_is_both_together_and_offers_ways_out():
    played = both("fat:coconut", 300, 340)
    decide(played, 0, 1)
    played.until("settle")

    assert played.state.weights["fat:coconut"].mass_g == 640
    assert played.state.ways


def test_a_third_answer_opens_a_decided_conflict_again():
    played = both("fat:coconut", 300, 340)
    seen = len(played.facts) - 2
    decide(played, 1)
    played.at("Nell", "phone c", seen).weigh("fat:coconut", 320)

    assert len(played.state.open_conflicts[0].facts) == 3
    assert played.state.weights["fat:coconut"].mass_g == 300


def test_two_decisions_that_knew_nothing_of_each_other_leave_it_open():
    played = both("fat:coconut", 300, 340)
    ids, seen = [fact.id for fact in played.state.conflicts[0].facts], len(played.facts)
    played.at("Ada", "phone a", seen).tap("decided", events=ids, counts=ids[:1])
    played.at("Tobit", "phone b", seen).tap("decided", events=ids, counts=ids[1:])

    assert len(played.state.open_conflicts) == 1


def test_a_decision_that_is_taken_back_decides_nothing():
    played = both("fat:coconut", 300, 340)
    state = decide(played, 1)
    played.tap("took-back", event=state.last_event)

    assert len(played.state.open_conflicts) == 1


def test_an_answer_taken_back_leaves_no_conflict():
    played = both("fat:coconut", 300, 340)
    played.tap("took-back", event=played.facts[-1].id)

    assert played.state.conflicts == () and played.state.weights["fat:coconut"].mass_g == 300


def test_the_same_weight_within_its_tolerance_needs_no_decision():
    state = both("fat:coconut", 300, 300.1).state

    assert [conflict.is_same for conflict in state.conflicts] == [True]
    assert state.open_conflicts == () and state.weights["fat:coconut"].mass_g == 300


def test_who_saw_the_first_weight_corrects_it():
    played = at(COCONUT).at("Ada", "phone a")
    played.weigh("fat:coconut", 300)
    played.at("Tobit", "phone b").weigh("fat:coconut", 340)

    assert played.state.conflicts == () and played.state.weights["fat:coconut"].mass_g == 340


def test_weighing_again_with_both_in_sight_settles_it():
    played = both("fat:coconut", 300, 340)
    played.at("Ada", "phone a").weigh("fat:coconut", 338)

    assert played.state.conflicts == () and played.state.weights["fat:coconut"].mass_g == 338


def test_events_from_before_it_was_kept_what_a_device_knew_never_stand_against_each_other():
    played = at(COCONUT)
    played.weigh("fat:coconut", 300)
    played.device = "another phone"
    played.weigh("fat:coconut", 340)

    assert played.state.conflicts == ()


def test_two_choices_of_the_alkali_ask_once_more():
    played = at("settle", **{"fat:coconut": 340})
    seen = len(played.facts)
    played.at("Ada", "phone a", seen).tap("settled", "settle", choice="recomputed")
    played.at("Tobit", "phone b", seen).tap("settled", "settle", choice="planned")

    assert played.state.current == "settle"
    assert decide(played, 0).settlement.choice == "recomputed"


def test_the_thinner_trace_counts_until_it_is_decided():
    played = at("trace")
    seen = len(played.facts)
    played.at("Ada", "phone a", seen).tap("trace-seen", "trace", trace="medium")
    played.at("Tobit", "phone b", seen).tap("trace-seen", "trace", trace="thin")

    assert played.state.trace == "thin" and not played.state.conflicts[0].may_be_both


def test_an_entry_on_a_shared_phone_is_of_the_one_who_did_it():
    played = at(COCONUT)
    weighed = played.weigh("fat:coconut")
    played.tap("credited", COCONUT, event=weighed, by="Tobit")

    assert played.state.weights["fat:coconut"].person == "Tobit"
    assert "Tobit" in played.state.people


def test_one_person_alone_has_nothing_in_hand_and_nothing_to_decide():
    played = hand(PLAIN).start().until("")

    assert (played.state.in_hand, played.state.conflicts, played.state.credits) == ({}, (), {})
