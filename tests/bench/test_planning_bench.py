"""What a plan takes from the bench: lists to gather, pauses, sizes, jugs and the scale."""

from dataclasses import replace

import pytest

from soapbench.bars.formula import (
    AlkaliChoice,
    FormulaError,
    LiquidLine,
    Portion,
    PourStage,
    Process,
    Water,
)
from soapbench.bench.planning import make_plan
from soapbench.bench.planning.given import SizeAsked, Tool, Vessel
from soapbench.bench.words import span
from soapbench.science.errors import OutOfRange
from tests.bench.sample import BENCH, FACTS, PLAIN, SWIRLED, order, plan_of

MILKY = replace(SWIRLED, liquids=(LiquidLine("milk", 0.3, "fats"),))
JUGGED = replace(SWIRLED, liquids=(LiquidLine("milk", 0.3, "lye"),))
BOTH = replace(PLAIN, alkali=AlkaliChoice(0.7, 0.99, 0.9))
OVEN = replace(SWIRLED, process=Process(oven=True))
LAYERED = replace(SWIRLED, pour=(PourStage("layer", ("A",)), PourStage("layer", ("B",))))
UNSCENTED = replace(SWIRLED, additives=SWIRLED.additives[:2])
EVERY = (PLAIN, SWIRLED, MILKY, JUGGED, BOTH, OVEN, LAYERED)


def keys(formula, **changes):
    return [prompt.key for prompt in plan_of(formula, **changes).prompts]


def test_the_tools_are_those_of_the_drawing_and_the_cut():
    ticks = {tick.key: tick.text for tick in plan_of(SWIRLED).prompt("tools-shape").ticks}

    assert ticks["tool:drawing"] == "Skewer"
    assert ticks["tool:cutter"] == "Wire cutter"
    assert ticks["tool:cups"] == "1 portion cup"
    assert "tool:divider" in ticks
    assert "tool:oven" not in ticks


def test_before_the_alkali_every_piece_of_gear_is_ticked_by_itself():
    ticks = plan_of(PLAIN).prompt("protection").ticks

    assert {"goggles", "gloves", "clothes", "water", "air", "people"} < {tick.key for tick in ticks}
    assert all(tick.alone for tick in ticks)


def test_the_local_numbers_are_in_sight_before_anything_starts():
    ticks = {tick.key: tick.detail for tick in plan_of(PLAIN).prompt("room").ticks}

    assert ticks["numbers"] == "Emergency 000, poison centre 001"


@pytest.mark.parametrize("formula", [PLAIN, SWIRLED])
def test_no_list_is_longer_than_a_pause_allows(formula):
    lists = [prompt for prompt in plan_of(formula).prompts if prompt.ticks]

    assert {"protection", "before-combine", "before-pour", "clean"} < {prompt.key for prompt in lists}
    assert all(len(prompt.ticks) <= 7 for prompt in lists)


def test_the_pauses_stand_right_before_what_they_are_for():
    found = keys(SWIRLED)
    following = {key: found[found.index(key) + 1] for key in ("protection", "before-combine", "before-pour")}

    assert following == {
        "protection": "weigh:alkali:naoh", "before-combine": "combine", "before-pour": "add:scent:A:rosemary",
    }  # fmt: skip
    assert keys(PLAIN)[keys(PLAIN).index("before-pour") + 1] == "pour:1"


def stock(left, formula=PLAIN):
    facts = {**FACTS, "olive": replace(FACTS["olive"], left_g=left)}
    return next(
        tick for tick in plan_of(formula, facts=facts).prompt("materials").ticks if tick.key == "material:olive"
    )


def test_the_materials_are_gathered_with_their_lots_and_whole_masses():
    plan = plan_of(SWIRLED)
    ticks = {tick.key: tick.detail for prompt in plan.prompts for tick in prompt.ticks}

    assert ticks["material:olive"] == "400 g, lot O-1"
    assert ticks["material:indigo"] == "2 g"
    assert stock(2300.0).detail == "400 g, lot O-1: 2\u202f300 g left"


def test_a_material_that_runs_out_says_so_and_is_answered_by_itself():
    tick = stock(120.0)

    assert tick.detail == "400 g needed, only 120 g left: too little, lot O-1"
    assert tick.is_short and tick.alone
    assert not stock(400.0).alone


def test_the_time_to_keep_free_covers_cooling_and_work_to_the_end_of_the_drawing():
    plan = plan_of(SWIRLED)
    cooling = plan.prompt("alkali-into-water").timer.minutes
    time = next(tick for tick in plan.prompt("room").ticks if tick.key == "time")

    assert plan.active_minutes >= 60 and plan.active_minutes >= cooling
    assert plan.active_minutes % 5 == 0
    assert time.text == f"Free for {span(plan.active_minutes)}" and time.alone
    assert plan_of(SWIRLED).active_minutes > plan_of(PLAIN).active_minutes


def test_drawings_are_those_that_tools_of_this_workshop_can_make():
    assert {choice.tool for choice in plan_of(PLAIN).drawings} == {"skewer"}
    bare = replace(BENCH, tools=(Tool("wire", "Wire cutter", "cutter"),))
    assert plan_of(PLAIN, bench=bare).drawings == ()


@pytest.mark.parametrize("bars", [1, 5, 8, 12])
def test_a_number_of_bars_gives_just_so_many_of_that_weight(bars):
    plan = plan_of(PLAIN, size=SizeAsked("bars", bars=bars, bar_g=100))

    assert plan.size.bars == bars
    assert plan.prompt("cut").detail.startswith(f"{bars} bar")
    assert ", 100 g each" in plan.prompt("cut").detail


def test_a_mould_is_filled_to_just_under_its_rim():
    plan = plan_of(PLAIN, size=SizeAsked("mould"))

    assert plan.size.fill_mm == pytest.approx(77, abs=0.2)
    assert plan.size.bars == 11


def test_every_weight_is_one_that_the_scale_can_show():
    coarse = replace(BENCH, scale=replace(BENCH.scale, resolution_g=1.0))

    for line in plan_of(SWIRLED, bench=coarse).lines:
        assert line.planned_g == round(line.planned_g)


@pytest.mark.parametrize(
    "size", [SizeAsked("fats", 0), SizeAsked("fats", -3), SizeAsked("bars", bars=0), SizeAsked("mould", fill=0)]
)
def test_a_size_of_nothing_makes_no_plan(size):
    with pytest.raises(OutOfRange):
        make_plan(order(PLAIN, size=size))


def test_a_material_that_nobody_knows_makes_no_plan():
    with pytest.raises(FormulaError, match="tallow"):
        plan_of(replace(PLAIN, fats=(replace(PLAIN.fats[0], material="tallow"),)))


def test_seven_free_portions_still_make_a_plan():
    letters = "ABCDEFGH"
    formula = replace(
        PLAIN,
        portions=tuple(Portion(letter, letter, 1) for letter in letters),
        pour=(PourStage("side by side", tuple(letters)),),
    )

    assert len([key for key in keys(formula) if key.startswith("split")]) == 7


def test_the_plan_carries_what_the_phone_needs_for_the_alkali():
    plan = plan_of(BOTH)
    moles = sum(plan.takes_mol_per_g[line.material] * line.planned_g for line in plan.in_group("fat"))

    for line in plan.in_group("alkali"):
        assert moles * plan.alkali_g_per_mol[line.key] == pytest.approx(line.planned_g, abs=0.06)


def with_jugs(*jugs):
    return replace(BENCH, vessels=(*jugs, *(vessel for vessel in BENCH.vessels if vessel.use != "lye")))


def test_lye_goes_into_the_jug_that_stands_it():
    bench = with_jugs(
        Vessel("Glass jug", "lye", "glass", 3000, 900), Vessel("Plastic jug", "lye", "polypropylene", 2000, 120)
    )

    assert plan_of(PLAIN, bench=bench).line("water").vessel == "Plastic jug"


@pytest.mark.parametrize(
    ("jug", "sentence"),
    [
        (Vessel("Glass jug", "lye", "glass", 3000, 900), "Not in this jug"),
        (Vessel("Small jug", "lye", "polypropylene", 200, 60), "larger jug"),
    ],
)
def test_without_a_jug_for_the_lye_there_is_no_plan(jug, sentence):
    with pytest.raises(OutOfRange, match=sentence):
        plan_of(PLAIN, bench=with_jugs(jug))


def test_a_jug_that_gets_too_full_is_told_of_where_the_lye_is_made():
    plan = plan_of(PLAIN, bench=with_jugs(Vessel("Tight jug", "lye", "polypropylene", 400, 60)))

    assert "% full" in plan.prompt("alkali-into-water").detail


def test_the_loaf_is_covered_with_word_of_whether_it_gels():
    assert " gel" in plan_of(PLAIN).prompt("cover").detail
    milky = replace(MILKY, process=Process(oven=False, insulated=True))
    strong = replace(milky, water=Water("lye concentration", 0.4))

    assert "may overheat (milk, strong lye)" in plan_of(strong).prompt("cover").detail
