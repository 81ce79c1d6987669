"""A change made early is told at the later prompts that it matters to, and nowhere else."""

from dataclasses import replace

import pytest

from tests.bench.sample import SWIRLED, Hand, plan_of

OCHRE = {"line": "colourant:B:indigo", "material": "ochre"}


@pytest.fixture
def hand():
    return Hand(plan_of(SWIRLED)).start()


def told(hand, prompt):
    return [notice.sentence for notice in hand.state.notices.get(prompt, ())]


def test_a_stand_in_is_told_where_it_is_weighed_and_where_it_goes_in(hand):
    hand.change("substituted", "materials", **OCHRE)
    grams = hand.state.targets["colourant:B:indigo"]

    assert told(hand, "weigh:colourant:B:indigo") == [f"Ochre goes in for Indigo: weigh {grams:g} g."]
    assert told(hand, "add:colourant:B:indigo") == ["Ochre goes in for Indigo."]
    assert set(hand.state.notices) == {
        "weigh:colourant:B:indigo",
        "disperse:colourant:B:indigo",
        "add:colourant:B:indigo",
    }


def test_a_notice_carries_the_moment_and_the_event_of_its_change(hand):
    event = hand.change("substituted", "materials", **OCHRE)
    (notice,) = hand.state.notices["add:colourant:B:indigo"]

    assert (notice.event, notice.at) == (event, hand.now)


def test_the_prompt_of_the_change_says_it_in_its_own_way(hand):
    hand.until("weigh:colourant:B:indigo")
    hand.change("substituted", "weigh:colourant:B:indigo", **OCHRE)

    assert told(hand, "weigh:colourant:B:indigo") == []
    assert told(hand, "disperse:colourant:B:indigo") == ["Ochre goes in for Indigo."]


def test_a_change_that_was_taken_back_is_told_no_more(hand):
    event = hand.change("substituted", "materials", **OCHRE)
    hand.tap("took-back", event=event)

    assert hand.state.notices == {}


def test_a_prompt_that_is_done_has_no_notice(hand):
    hand.change("substituted", "materials", **OCHRE)
    hand.until("disperse:colourant:B:indigo")

    assert told(hand, "weigh:colourant:B:indigo") == []
    assert told(hand, "add:colourant:B:indigo") == ["Ochre goes in for Indigo."]


def test_a_fat_that_carries_a_colour_still_belongs_to_the_fats(hand):
    hand.change("left out", "materials", line="colourant:B:indigo")

    assert told(hand, "weigh:carrier:B:indigo:olive") == ["Indigo is left out: Olive still belongs to the fats."]
    assert told(hand, "pour:1") == ["No Indigo in portion B."]


def test_another_drawing_is_told_at_the_drawing_and_at_the_cut(hand):
    hand.change("drawn differently", "tools", path="spiral", tool="skewer")
    words = ["Drawn: spiral with Skewer. Planned: zigzag."]

    assert (told(hand, "draw"), told(hand, "cut")) == (words, words)


def test_a_portion_that_thickened_is_told_where_it_is_scented_and_poured(hand):
    hand.until("split:B")
    hand.change("thickened early", "split:B", portion="B", decision="Spoon it in.")

    assert told(hand, "add:scent:B:clove") == ["Portion B thickened early: stir by hand only."]
    assert told(hand, "add:scent:A:rosemary") == []
    assert told(hand, "pour:1") == ["Portion B thickened early. Decided: Spoon it in."]


def test_a_pour_of_one_portion_says_nothing_of_another():
    from soapbench.bars.formula import PourStage

    layers = replace(SWIRLED, pour=(PourStage("layer", ("A",)), PourStage("layer", ("B",))))
    hand = Hand(plan_of(layers)).start()
    hand.change("left out", "materials", portion="B")

    assert told(hand, "pour:1") == []
    assert told(hand, "pour:2") == ["Portion B is left out."]


def test_batter_that_was_lost_means_fewer_or_thinner_bars(hand):
    hand.until("split:B")
    hand.change("lost or spilt", "split:B", mass_g=40)

    assert told(hand, "cut") == ["40 g of batter was lost: fewer or thinner bars."]


def test_an_amount_that_nobody_knows_is_told_as_some(hand):
    hand.change("lost or spilt", "materials", line="scent:B:clove")

    assert told(hand, "weigh:scent:B:clove") == ["Some Clove was lost."]


def test_a_temperature_off_is_told_at_the_trace_and_at_the_cover(hand):
    hand.until("cool")
    hand.change("temperature off", "cool", temp_c=52.5, decision="Go on")
    (words,) = told(hand, "trace")

    assert words == "52.5 °C at “Cool both pots”. Decided: Go on."
    assert told(hand, "cover") == [words]


@pytest.mark.parametrize("what", ["interrupted", "other"])
def test_what_means_nothing_later_is_told_nowhere(hand, what):
    hand.change(what, "materials")

    assert hand.state.notices == {}
