"""What split, adding, pour, drawing and cut prompts show of the batch as it really is."""

from dataclasses import replace
from datetime import timedelta

import pytest

from soapbench.bars.formula import Additive, Cut, Drawing, PourStage
from soapbench.bench.cut_words import cut_screen, prompt_title
from soapbench.bench.draw_screen import batter_now, draw_screen
from soapbench.bench.screen import run_screen
from soapbench.science.mould import Mould
from tests.bench.pours import STAGED, WORKSHOP, loaf_of, staged

LAYERED = replace(STAGED, pour=tuple(PourStage("layer", (letter,), 1.0, 40) for letter in "ABC"))


def at(key, hand=None, **split):
    """Return a hand at a prompt, portions split off as given or as asked."""
    hand = hand or staged()
    while (current := hand.state.current) != key:
        letter = current.removeprefix("split:")
        if letter in split:
            hand.tap("split", current, portion=letter, mass_g=split[letter])
        else:
            hand.answer(hand.plan.prompt(current), hand.state)
    return hand


def shown(hand, key=""):
    return run_screen(hand.plan, hand.state, key).shown


def change(hand, what, prompt="", **fields):
    hand.tap("changed", prompt or hand.state.current, what=what, why="because", decision="so", **fields)


def test_a_split_names_its_cup_with_and_without_the_tare():
    split = shown(at("split:B")).split

    target = float(shown(at("split:B")).portion_g)
    assert (split.vessel, split.tare) == ("Cup one", "61.3")
    assert float(split.with_tare) == pytest.approx(target + 61.3)
    assert split.rest_letter == "A"


def test_the_portions_left_share_what_is_left_in_the_pot():
    hand = at("split:C", B=700)
    whole = hand.state.batter_g

    assert hand.state.targets["portion:C"] == pytest.approx((whole - 700) / 5, abs=0.1)
    assert hand.state.targets["portion:A"] == pytest.approx((whole - 700) * 4 / 5, abs=0.1)
    assert float(shown(hand).split.rest) == pytest.approx(hand.state.targets["portion:A"])


def test_batter_lost_from_the_pot_is_not_shared_out():
    hand = at("split:B")
    before = hand.state.targets["portion:B"]
    change(hand, "lost or spilt", mass_g=80)

    assert hand.state.targets["portion:B"] == pytest.approx(before - 80 * 3 / 8, abs=0.1)


def test_batter_lost_from_a_cup_is_taken_off_its_portion():
    hand = at("split:C", B=500)
    change(hand, "lost or spilt", mass_g=60, portion="B")

    assert hand.state.portions_g["B"] == 440


def test_a_portion_left_out_leaves_its_batter_to_the_others():
    hand = at("split:B")
    whole = hand.state.batter_g
    change(hand, "left out", portion="C")

    assert hand.state.targets["portion:B"] == pytest.approx(whole * 3 / 7, abs=0.1)


def test_of_a_scent_weighed_for_a_larger_portion_a_part_is_taken():
    hand = at("add:scent:B:clove", B=400)
    take = shown(hand).take

    weighed = hand.state.weights["scent:B:clove"].mass_g
    assert (take.is_all, take.is_short, float(take.of)) == (False, False, weighed)
    assert float(take.take) == pytest.approx(weighed * hand.state.targets["scent:B:clove"] / weighed, abs=0.06)
    assert float(take.take) < weighed


def test_a_scent_weighed_for_a_smaller_portion_goes_in_whole_and_its_rate_is_told():
    take = shown(at("add:scent:B:clove", B=700)).take

    assert (take.is_all, take.is_short) == (True, True)
    assert 70 < float(take.share) < 85


def test_a_dispersion_is_taken_together_with_its_carrier():
    hand = at("add:colourant:B:indigo", B=400)
    take = shown(hand).take
    parts = [hand.state.weights[key].mass_g for key in ("colourant:B:indigo", "carrier:B:indigo:olive")]

    assert float(take.of) == pytest.approx(sum(parts))
    assert take.name == "Indigo in Olive"


def test_plain_grams_follow_their_portion_too():
    grains = replace(STAGED, additives=(*STAGED.additives, Additive("citric", 10, "grams", "C")))
    hand = at("add:addition:C:citric", staged(grains), B=500, C=100)

    assert hand.state.targets["addition:C:citric"] < 10
    assert not shown(hand).take.is_all


def test_as_split_as_planned_all_goes_in():
    assert shown(at("add:scent:B:clove")).take.is_all


def test_a_portion_has_one_working_time_by_its_quickest_scent():
    both = replace(STAGED, additives=(*STAGED.additives, Additive("rosemary", 1, "percent of fats", "B")))
    hand = at("pour:1", staged(both))

    timers = [timer for timer in hand.state.timers if timer.portion == "B"]
    assert [(one.label, (one.ends_at - one.started_at).seconds / 60) for one in timers] == [("B · Dark", 3)]


def test_a_pour_names_vessel_height_place_and_real_amounts():
    pour = shown(at("pour:2", B=600)).pour

    assert (pour.height_mm, str(pour.place), pour.number, pour.count) == (60, "each on its own side", 2, 4)
    assert {one.portion.letter: one.vessel for one in pour.pourings} == {"A": "Pot", "B": "Cup one"}
    assert {one.portion.letter: one.grams for one in pour.pourings}["B"] == "300"
    assert {one.portion.letter: one.is_rest for one in pour.pourings} == {"A": True, "B": False}


def test_the_portion_that_thickened_is_poured_first():
    hand = at("pour:2")
    assert [one.portion.letter for one in shown(hand).pour.pourings] == ["B", "A"]
    change(hand, "thickened early", portion="A")

    first = shown(hand).pour.pourings[0]
    assert (first.portion.letter, first.is_thick) == ("A", True)


def test_the_order_that_is_left_is_said():
    hand = at("pour:1", staged(LAYERED))
    change(hand, "thickened early", portion="C")

    assert "C changes its place" in hand.state.changes[-1].effect


def test_a_poured_portion_that_thickens_changes_no_order():
    hand = at("pour:2", staged(LAYERED))
    change(hand, "thickened early", portion="A")

    assert hand.state.changes[-1].effect.startswith("Stir A by hand only")


def test_the_drawings_are_those_of_the_tools():
    screen = draw_screen(loaf_of(at("draw")))

    offered = {(way.choice.tool, way.choice.path) for way in screen.others}
    assert {("hanger", "lifted loops"), ("comb", "zigzag"), ("skewer", "spiral"), ("", "none")} <= offered
    assert ("skewer", "zigzag") not in offered  # that is the plan
    assert screen.others[0].choice.path == "zigzag"  # the nearest first


def test_thick_batter_rules_fine_paths_out():
    hand = at("draw")
    change(hand, "thickened early", portion="B")
    by_path = {(way.choice.tool, way.choice.path): way for way in draw_screen(loaf_of(hand)).others}

    assert not by_path["skewer", "spiral"].is_borne
    assert by_path["skewer", "s curve"].is_borne


def test_time_that_is_used_up_thickens_the_batter():
    hand = at("pour:1")
    timer = min(hand.state.timers, key=lambda one: one.ends_at)

    half, over = timer.started_at + timedelta(minutes=1.6), timer.ends_at + timedelta(minutes=1)
    assert [batter_now(loaf_of(hand), now) for now in (None, timer.started_at, half, over)] == [
        "thin", "thin", "medium", "thick",
    ]  # fmt: skip


def test_a_tool_that_is_not_here_is_not_offered():
    hand = at("draw")
    hand.tap("ticked", "tools", item="tool:hanger", is_here=False)
    ways = [way for way in draw_screen(loaf_of(hand)).others if way.choice.tool == "hanger"]

    assert {way.why_not for way in ways} == {"Hanger is not at hand."}


def test_an_upright_tool_in_level_layers_is_not_offered():
    ways = draw_screen(loaf_of(at("draw", staged(LAYERED)))).others

    assert all(way.why_not for way in ways if way.choice.tool == "comb")
    assert not any(way.why_not for way in ways if way.choice.tool == "hanger")


def test_each_drawing_tells_its_cut():
    by_path = {(way.choice.tool, way.choice.path): way.cut for way in draw_screen(loaf_of(at("draw"))).others}

    assert by_path["hanger", "lifted loops"].startswith("Slices across the loaf.")
    assert by_path["skewer", "spiral"].startswith("Blocks, cut level on their sides.")


def test_what_was_really_drawn_is_shown():
    hand = at("draw")
    change(hand, "drawn differently", path="down and up", tool="hanger")
    screen = draw_screen(loaf_of(hand))

    assert (screen.shown.choice.path, screen.planned.choice.path) == ("down and up", "zigzag")
    assert "To cut: slices." in hand.state.changes[-1].effect


def test_the_cut_follows_what_was_drawn():
    hand = at("draw")
    assert cut_screen(loaf_of(hand)).best.way == "blocks on their sides"
    change(hand, "drawn differently", path="lifted loops", tool="hanger")
    cut = cut_screen(loaf_of(hand))

    assert (cut.best.way, cut.is_changed, cut.drawn) == ("slices", False, "lifted loops")
    assert prompt_title(hand.plan, hand.state, hand.plan.prompt("cut")) == "Cut the loaf: slices"


def test_another_cut_than_planned_gives_bars_of_about_the_same_mass():
    cut = cut_screen(loaf_of(at("cut")))
    best, planned = cut.choices

    assert (best.way, planned.way, planned.is_planned) == ("blocks on their sides", "slices", True)
    masses = [float(one.yields.split(" mm, ")[1].split(" g")[0]) for one in cut.choices]
    assert masses[0] == pytest.approx(masses[1], rel=0.2)
    assert best.places[0].endswith("from the left end") and best.places[1].endswith("from the floor")


def test_cast_bars_are_not_cut():
    formula = replace(STAGED, cut=Cut("cavities", 25, 0))
    hand = staged(formula, replace(WORKSHOP, mould=Mould("cavities", cavities=12, cavity_ml=130)))
    cut = cut_screen(loaf_of(hand))

    assert (cut.best.way, cut.best.pictures, cut.title) == ("cavities", (), "Count and weigh the bars")


def test_nothing_drawn_is_cut_as_planned():
    cut = cut_screen(loaf_of(staged(replace(STAGED, drawing=Drawing()))))

    assert (cut.is_changed, len(cut.choices)) == (False, 1)


def test_the_way_of_the_cut_is_kept():
    hand = at("cut")
    hand.tap("cut", "cut", bars=8, mass_g=1200, way="blocks on their sides")
    assert hand.state.cut["way"] == "blocks on their sides"

    other = at("cut")
    other.tap("cut", "cut", bars=8, mass_g=1200)
    assert other.state.cut["way"] == "slices"
