"""The state of a run: a pure function of its plan and its events."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from soapbench.bars.formula import Additive, AlkaliChoice
from soapbench.bench.run import fold
from tests.bench.sample import FACTS, PLAIN, SWIRLED, Hand, at, change, fat, hand

# The whole run of one formula, played once; each property looks at a part of it.
WHOLE = hand(SWIRLED).start().until("")


some_of_it = st.integers(1, len(WHOLE.facts))
quick = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@quick
@given(some_of_it, st.data())
def test_an_event_sent_twice_changes_nothing(length, data):
    facts = WHOLE.facts[:length]
    again = data.draw(st.sampled_from(facts))

    assert fold(WHOLE.plan, [*facts, again]) == fold(WHOLE.plan, facts)


@quick
@given(st.integers(2, len(WHOLE.facts) - 1))
def test_taking_back_the_last_event_gives_the_earlier_state(length):
    played = Hand(WHOLE.plan)
    played.facts = WHOLE.facts[:length]
    before = fold(WHOLE.plan, WHOLE.facts[: length - 1])
    played.facts = [*played.facts]
    played.tap("took-back", event=WHOLE.facts[length - 1].id)

    after = played.state
    assert after.withdrawn == {WHOLE.facts[length - 1].id}
    assert replace(after, withdrawn=frozenset()) == before


@quick
@given(some_of_it, st.randoms())
def test_the_log_s_order_counts_not_the_sequence_s(length, random):
    facts = WHOLE.facts[:length]
    shuffled = facts.copy()
    random.shuffle(shuffled)

    assert fold(WHOLE.plan, shuffled) == fold(WHOLE.plan, facts)


@quick
@given(some_of_it)
def test_prompts_are_done_in_the_order_of_their_events(length):
    state = fold(WHOLE.plan, WHOLE.facts[:length])

    assert list(state.done.values()) == sorted(state.done.values())
    assert state.current not in state.done
    assert state.current not in state.skipped


@quick
@given(some_of_it)
def test_nothing_is_before_the_current_prompt_but_what_is_done_or_not_needed(length):
    state = fold(WHOLE.plan, WHOLE.facts[:length])
    keys = [prompt.key for prompt in WHOLE.plan.prompts]
    before = keys[: keys.index(state.current)] if state.current else keys

    if state.ended is None:
        assert all(key in state.done or key in state.skipped for key in before)


@quick
@given(st.floats(250, 400), st.floats(250, 350), st.floats(300, 500))
def test_the_recomputed_alkali_gives_the_superfat_whatever_the_fats_weigh(palm, coconut, olive):
    played = hand().start()
    for line, mass in (("fat:palm", palm), ("fat:coconut", coconut), ("fat:olive", olive)):
        played.weigh(line, round(mass, 1))

    settlement = played.state.settlement
    assert settlement.superfat_if_recomputed == pytest.approx(0.05, abs=0.0008)  # one step of the scale


def test_a_run_ends_released_with_nothing_left_to_do():
    state = WHOLE.state

    assert (state.status, state.current, state.timers, state.last_event) == ("released", "", (), "")
    assert state.ended.kind == "released"


def test_a_batch_is_at_the_bench_then_rests_then_cures():
    played = hand()
    seen = []
    for key in ("trace", "rest", "unmould", "cut", "cure", "release"):
        if not played.facts:
            played.start()
        seen.append(played.until(key).state.status)

    assert seen == ["bench", "resting", "resting", "resting", "curing", "curing"]


# The worked case: olive 400, coconut 300, palm 300 g, 5 % superfat, a third of alkali in the lye.
def test_the_worked_case_asks_for_its_alkali_and_water():
    targets = hand().state.targets

    assert (targets["alkali:naoh"], targets["water"]) == (143.6, 287.2)


def test_a_fat_that_went_over_asks_for_more_alkali_in_more_water():
    settlement = at("settle", **{"fat:coconut": 340}).state.settlement

    assert settlement.recomputed == {"alkali:naoh": 150.5, "water": 301.0}
    assert settlement.sentence == (
        "Coconut is 40 g over. Weigh 150.5 g of alkali in 301 g of water for 5.0 % superfat; "
        "the planned 143.6 g would leave 9.4 %."
    )


def test_a_fat_that_came_short_says_what_the_planned_alkali_would_leave():
    settlement = at("settle", **{"fat:coconut": 270}).state.settlement

    assert settlement.superfat_if_planned == pytest.approx(0.014, abs=0.0005)
    assert settlement.sentence.startswith("Coconut is 30 g short.")


def test_a_fat_forgotten_makes_the_planned_alkali_lye_heavy():
    played = at("weigh:fat:coconut")
    change(played, "left out", line="fat:coconut")
    played.weigh("fat:olive", 400)

    settlement = played.state.settlement
    assert settlement.superfat_if_planned == pytest.approx(-0.49, abs=0.005)
    assert "would be lye-heavy" in settlement.sentence


def test_nothing_is_settled_while_a_fat_is_missing():
    assert at("weigh:fat:olive", **{"fat:coconut": 340}).state.settlement is None


def test_the_choice_is_skipped_when_the_fats_are_as_planned():
    state = at("weigh:water").state

    assert state.skipped["settle"] == "Every fat is as planned."
    assert state.settlement.is_needed is False


def test_the_planned_alkali_may_be_kept():
    played = at("settle", **{"fat:coconut": 340})
    played.tap("settled", "settle", choice="planned")

    state = played.until("cool").state
    assert state.targets["alkali:naoh"] == 143.6
    assert state.superfat.central == pytest.approx(0.094, abs=0.0005)


def test_alkali_ten_grams_over_is_lye_heavy_and_78_g_of_olive_put_it_right():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 153.6)
    state = played.until("trace").state

    assert state.superfat.central == pytest.approx(-0.016, abs=0.0005)
    assert state.superfat_sentence.startswith("Lye-heavy: superfat −1.6 %")
    olive = next(remedy for remedy in state.remedies if "Olive" in remedy.title)
    assert olive.grams == pytest.approx(78, abs=0.5)


def test_alkali_ten_grams_under_leaves_more_superfat():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 133.6)

    assert played.until("trace").state.superfat.central == pytest.approx(0.116, abs=0.0005)


def test_alkali_off_before_it_is_in_the_water_is_weighed_again():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 153.6)

    assert [remedy.title for remedy in played.state.remedies] == ["Weigh the alkali again", "Keep it as weighed"]
    assert played.state.remedies[0].grams == 143.6


def test_a_lye_made_for_fats_that_are_short_is_poured_in_part():
    played = at("cool")
    change(played, "amount off", line="fat:coconut", mass_g=270)

    assert played.state.remedies[0].grams == pytest.approx(415.2, abs=0.1)


def test_a_batch_as_planned_has_no_remedies_and_a_superfat_with_its_doubt():
    state = at("combine").state

    assert state.remedies == ()
    assert state.superfat.low < 0.05 < state.superfat.high
    assert state.superfat.central == pytest.approx(0.05, abs=0.0004)


def test_a_second_weighing_replaces_the_first_and_keeps_its_place():
    played = at("weigh:water", **{"fat:palm": 280})
    done = played.state.done
    played.weigh("fat:palm", 300)

    state = played.state
    assert state.weights["fat:palm"].mass_g == 300
    assert state.pot_g == 1000
    assert state.done == done


def test_a_weight_knows_what_was_asked_for_and_whether_it_is_near_enough():
    played = at("weigh:fat:olive")
    allowed = played.state.tolerances["fat:olive"]
    played.weigh("fat:olive", 400 + allowed)
    near = played.state.weights["fat:olive"]
    played.weigh("fat:olive", 400 + allowed + 0.1)
    far = played.state.weights["fat:olive"]

    assert (near.target_g, near.is_within, far.is_within) == (400, True, False)


def test_a_weight_taken_back_opens_its_prompt_again():
    played = at("weigh:water")
    id = next(fact.id for fact in played.facts if fact.payload.get("line") == "fat:coconut")
    played.tap("took-back", event=id)

    assert played.state.current == "weigh:fat:coconut"
    assert played.state.pot_g == 700


def test_a_stand_in_s_own_figures_count():
    played = at("weigh:fat:coconut")
    change(played, "substituted", line="fat:coconut", material="lard", lot=21)
    played.until("settle")
    state = played.state

    weight = state.weights["fat:coconut"]
    assert (weight.material, weight.name, weight.lot) == ("lard", "Lard", 21)
    assert "Lard is in place of Coconut" in state.settlement.sentence
    lard_for_coconut = 143.6 - 0.95 * 300 * (256.70 - 195.0) / 1402.7
    assert state.targets["alkali:naoh"] == pytest.approx(lard_for_coconut, abs=0.1)
    assert state.superfat is None


def test_a_substitution_after_the_lye_says_what_superfat_it_leaves():
    played = at("combine")
    change(played, "substituted", line="fat:coconut", material="lard", lot=21, mass_g=300)

    effect = played.state.changes[-1].effect
    assert effect.startswith("Lard goes in for Coconut. Superfat")
    assert effect.endswith("The batch is lye-heavy.")


def test_a_scent_without_a_limit_says_so_when_it_stands_in():
    played = at("weigh:scent:A:rosemary", SWIRLED)
    change(played, "substituted", line="scent:A:rosemary", material="cedar")

    assert "No limit on skin is known" in played.state.changes[-1].effect


def test_another_lot_with_its_own_value_narrows_the_superfat():
    planned = at("combine").state.superfat
    played = at("weigh:fat:olive")
    played.weigh("fat:olive", 400, lot=14)

    found = played.until("combine").state.superfat
    assert found.high - found.low < planned.high - planned.low


def test_another_jar_of_alkali_counts_with_its_own_purity():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 143.6, lot=15)

    assert played.until("combine").state.superfat.central == pytest.approx(1 - 0.95 * 0.97, abs=0.0005)


def test_doses_follow_the_mass_that_was_really_split_off():
    before = at("split:B", SWIRLED).state.targets
    played = at("split:B", SWIRLED)
    played.tap("split", "split:B", portion="B", mass_g=2 * before["portion:B"])

    after = played.state.targets
    assert after["scent:B:clove"] == pytest.approx(2 * before["scent:B:clove"], abs=0.11)
    assert after["scent:A:rosemary"] == pytest.approx(before["scent:A:rosemary"] / 2, abs=0.11)


def test_the_last_portion_is_what_is_left_in_the_pot():
    played = at("split:B", SWIRLED)
    played.tap("split", "split:B", portion="B", mass_g=500)

    state = played.state
    assert state.portions_g == {"B": 500, "A": pytest.approx(state.batter_g - 500)}


def test_doses_follow_the_fats():
    played = at("settle", SWIRLED, **{"fat:coconut": 400})

    assert played.state.targets["scent:A:rosemary"] == 14.7  # 2 % of two thirds of 1100 g


def test_an_acid_takes_its_alkali_first():
    formula = replace(PLAIN, additives=(Additive("citric", 10, "grams"),))
    without, with_acid = hand().state.targets, hand(formula).state.targets

    assert with_acid["alkali:naoh"] - without["alkali:naoh"] == pytest.approx(10 * 0.876 * 0.7129, abs=0.1)
    assert at("combine", formula).state.superfat.central == pytest.approx(0.05, abs=0.0005)


def test_an_acid_left_out_leaves_its_alkali_to_the_fats():
    formula = replace(PLAIN, additives=(Additive("citric", 10, "grams"),))
    played = at("weigh:addition:all:citric", formula)
    change(played, "left out", line="addition:all:citric")

    state = played.until("combine").state
    assert state.superfat.central == pytest.approx(0.05 - 10 * 0.876 * 0.7129 / 151.15, abs=0.001)
    assert "Superfat 0.9 % instead of 5.0 %" in state.changes[-1].effect


def test_both_alkalis_are_recomputed_in_their_proportion():
    state = at("settle", replace(PLAIN, alkali=AlkaliChoice(0.7, 1.0, 0.9)), **{"fat:olive": 500}).state

    planned, found = state.settlement.planned, state.settlement.recomputed
    for key in ("alkali:naoh", "alkali:koh"):
        assert found[key] / planned[key] == pytest.approx(found["water"] / planned["water"], abs=0.002)
    assert "sodium hydroxide and" in state.settlement.sentence


def test_a_share_counted_by_mass_stays_by_mass_when_the_alkali_is_recomputed():
    formula = replace(PLAIN, alkali=AlkaliChoice(0.5, 1.0, 1.0, shares_by="mass"))

    found = at("settle", formula, **{"fat:olive": 500}).state.settlement.recomputed
    assert found["alkali:naoh"] == pytest.approx(found["alkali:koh"], abs=0.2)


def test_a_wide_fat_does_not_count_as_off_when_all_went_as_planned():
    wide = replace(fat("palm", 198.49), sv_low=170, sv_high=227)
    played = hand(facts={**FACTS, "palm": wide}).start().until("combine")

    assert played.state.superfat.central > 0.06
    assert played.state.remedies == ()
