"""The plan of a run: amounts on the scale, prompts in working order, cautions where they matter."""

import re
from dataclasses import replace

import pytest

from soapbench.bars.formula import (
    Additive,
    AlkaliChoice,
    Cut,
    Drawing,
    LiquidLine,
    PourStage,
    Process,
)
from soapbench.bench.plan import from_document, to_document
from soapbench.bench.planning import cautions
from soapbench.bench.planning.given import SizeAsked
from soapbench.science.mould import Mould
from tests.bench.sample import BENCH, PLAIN, SWIRLED, plan_of

MILKY = replace(SWIRLED, liquids=(LiquidLine("milk", 0.3, "fats"),))
JUGGED = replace(SWIRLED, liquids=(LiquidLine("milk", 0.3, "lye"),))
BOTH = replace(PLAIN, alkali=AlkaliChoice(0.7, 0.99, 0.9))
OVEN = replace(SWIRLED, process=Process(oven=True))
LAYERED = replace(SWIRLED, pour=(PourStage("layer", ("A",)), PourStage("layer", ("B",))))
UNSCENTED = replace(SWIRLED, additives=SWIRLED.additives[:2])
EVERY = (PLAIN, SWIRLED, MILKY, JUGGED, BOTH, OVEN, LAYERED)


def keys(formula, **changes):
    return [prompt.key for prompt in plan_of(formula, **changes).prompts]


def test_the_same_order_gives_the_same_plan():
    assert plan_of(SWIRLED) == plan_of(SWIRLED)


@pytest.mark.parametrize("formula", EVERY)
def test_a_plan_leaves_the_database_and_comes_back(formula):
    plan = plan_of(formula)

    assert from_document(to_document(plan)) == plan


@pytest.mark.parametrize("formula", EVERY)
def test_every_prompt_has_a_key_of_its_own_and_a_short_title(formula):
    prompts = plan_of(formula).prompts

    assert len({prompt.key for prompt in prompts}) == len(prompts)
    assert all(1 < len(prompt.title.split()) <= 12 for prompt in prompts)


@pytest.mark.parametrize("formula", EVERY)
def test_every_line_is_weighed_once_and_only_once(formula):
    plan = plan_of(formula)
    weighed = [prompt.line for prompt in plan.prompts if prompt.kind == "weigh"]

    assert sorted(weighed) == sorted(line.key for line in plan.lines)


@pytest.mark.parametrize("formula", (*EVERY, UNSCENTED))
def test_every_colour_scent_and_addition_that_is_weighed_goes_in(formula):
    plan = plan_of(formula)
    weighed = {line.key for line in plan.in_group("colourant", "scent", "addition")}

    assert weighed <= {prompt.line for prompt in plan.prompts if prompt.key.startswith("add:")}


@pytest.mark.parametrize("formula", EVERY)
def test_no_prompt_with_a_figure_of_its_own_names_other_grams(formula):
    """The figure follows what happened at the bench; the words were written before."""
    figured = [prompt for prompt in plan_of(formula).prompts if prompt.line or prompt.kind == "split"]

    assert figured
    assert not [prompt.key for prompt in figured if re.search(r"\d g\b", prompt.title + prompt.detail)]


@pytest.mark.parametrize("formula", EVERY)
def test_every_timer_ends_with_a_later_prompt(formula):
    prompts = plan_of(formula).prompts
    places = {prompt.key: place for place, prompt in enumerate(prompts)}

    for place, prompt in enumerate(prompts):
        if prompt.timer is not None:
            assert places[prompt.timer.until] > place


def test_every_caution_is_short_and_danger_is_kept_for_lye():
    every = [value for value in vars(cautions).values() if isinstance(value, cautions.Caution)]

    assert all(len(caution.text.split()) <= 20 for caution in every)
    assert {caution.code for caution in every if caution.word == "DANGER"} == {
        "dry-alkali",
        "one-way",
        "hot-lye",
        "lye-pour",
    }


@pytest.mark.parametrize("formula", EVERY)
def test_every_prompt_with_alkali_or_lye_carries_danger(formula):
    dangerous = {p.key for p in plan_of(formula).prompts if any(c.word == "DANGER" for c in p.cautions)}

    weighings = {key for key in dangerous if key.startswith("weigh:")}
    assert weighings and all(key.startswith("weigh:alkali:") for key in weighings)
    assert dangerous - weighings == {"alkali-into-water", "read-lye", "cool", "combine"}


def test_solid_fats_are_weighed_first_and_liquid_ones_last():
    weighed = [key for key in keys(PLAIN) if key.startswith("weigh:fat")]

    assert weighed == ["weigh:fat:palm", "weigh:fat:coconut", "weigh:fat:olive"]


def test_the_cooling_time_is_used_for_colours_and_scents():
    found = keys(SWIRLED)
    meanwhile = found[found.index("read-lye") + 1 : found.index("cool")]

    assert meanwhile == [
        "weigh:colourant:B:indigo",
        "weigh:carrier:B:indigo:olive",
        "disperse:colourant:B:indigo",
        "weigh:scent:A:rosemary",
        "weigh:scent:B:clove",
    ]
    assert all(prompt.meanwhile for prompt in plan_of(SWIRLED).prompts if prompt.key in meanwhile)


def test_what_disperses_a_colour_comes_out_of_the_recipe():
    plan = plan_of(SWIRLED)

    assert plan.line("fat:olive").planned_g == 394.0
    assert plan.line("carrier:B:indigo:olive").planned_g == 6.0
    assert plan.line("alkali:naoh").planned_g == plan_of(PLAIN).line("alkali:naoh").planned_g


def test_the_pot_is_weighed_before_lye_meets_fats():
    found = keys(SWIRLED)

    assert found.index("weigh:fat:olive") < found.index("alkali-into-water")
    assert found.index("cool") < found.index("pot-check") < found.index("combine") < found.index("trace")


def test_the_type_of_the_alkali_stands_on_its_prompt():
    titles = {p.key: p.title for p in plan_of(BOTH).prompts if p.line.startswith("alkali")}

    assert titles == {
        "weigh:alkali:naoh": "Weigh Sodium hydroxide (NaOH)",
        "weigh:alkali:koh": "Weigh Potassium hydroxide (KOH)",
    }
    assert "not potassium hydroxide" in plan_of(BOTH).prompt("weigh:alkali:naoh").detail


def test_alkali_goes_into_water_never_the_reverse():
    prompt = plan_of(PLAIN).prompt("alkali-into-water")

    assert prompt.kind == "hold"
    assert prompt.title == "Add the alkali to the water, slowly"
    assert "Alkali → cold water" in prompt.detail


def test_milk_for_the_fats_is_stirred_in_after_the_pot_check():
    found = keys(MILKY)

    assert found.index("read-lye") < found.index("weigh:liquid:milk") < found.index("cool")
    assert found.index("pot-check") < found.index("add:liquid:milk") < found.index("combine")


def test_milk_in_the_lye_brings_its_own_warning():
    prompt = plan_of(JUGGED).prompt("alkali-into-water")

    assert "liquid-lye" in {caution.code for caution in prompt.cautions}
    assert keys(JUGGED).index("weigh:liquid:milk") < keys(JUGGED).index("weigh:alkali:naoh")


def test_the_largest_portion_stays_in_the_pot():
    assert [key for key in keys(SWIRLED) if key.startswith("split")] == ["split:B"]


def test_one_portion_is_not_split():
    assert not [key for key in keys(PLAIN) if key.startswith("split")]


def test_the_shortest_working_time_is_scented_last_and_poured_first():
    found = keys(SWIRLED)

    assert found.index("add:scent:A:rosemary") < found.index("add:scent:B:clove")
    assert plan_of(SWIRLED).prompt("pour:1").title == "Pour B and A side by side"
    assert "Scent A, B" in plan_of(SWIRLED).schedule


def test_a_layer_is_scented_just_before_its_own_pour():
    found = keys(LAYERED)

    assert found[found.index("add:scent:A:rosemary") + 1] == "pour:1"
    assert found[found.index("add:scent:B:clove") + 1] == "pour:2"


def test_colours_go_in_before_scents():
    found = keys(SWIRLED)

    assert found.index("add:colourant:B:indigo") < found.index("add:scent:A:rosemary")


def test_what_goes_into_the_whole_batter_comes_before_the_split():
    formula = replace(SWIRLED, additives=(*SWIRLED.additives, Additive("citric", 1, "percent of fats")))
    found = keys(formula)

    assert found.index("trace") < found.index("add:addition:all:citric") < found.index("split:B")


def test_each_stage_of_the_pour_names_its_letters_and_grams():
    stages = (
        PourStage("layer", ("A",), 0.5),
        PourStage("drops", ("B",), 1.0, 200),
        PourStage("layer", ("A",), 0.5, note="Fill the corners."),
    )
    plan = plan_of(replace(SWIRLED, pour=stages))
    made = [plan.prompt(f"pour:{number}") for number in (1, 2, 3)]

    assert [prompt.kind for prompt in made] == ["pour", "pour", "pour"]
    assert made[0].detail.startswith("A 482 g, from 50 mm.")
    assert made[1].detail.startswith("B 486 g, from 200 mm.")
    assert made[2].detail.endswith("Fill the corners.")


def test_a_formula_without_a_pour_is_poured_as_one_layer():
    assert plan_of(PLAIN).prompt("pour:1").title == "Pour A as a layer"


def test_a_working_time_runs_from_the_scent_to_the_pour():
    timer = plan_of(SWIRLED).prompt("add:scent:B:clove").timer

    assert (timer.minutes, timer.until) == (3, "pour:1")


def test_nothing_is_drawn_when_the_formula_draws_nothing():
    assert "draw" not in keys(replace(SWIRLED, drawing=Drawing("none")))
    assert plan_of(SWIRLED).prompt("draw").title == "Draw: zigzag, with Skewer"


def test_an_oven_takes_the_place_of_the_cover():
    found = keys(OVEN)

    assert "cover" not in found
    assert found.index("oven") < found.index("look") < found.index("oven-off") < found.index("rest")
    assert plan_of(OVEN).prompt("oven").timer.minutes == 60


def test_a_later_cut_waits_after_the_unmoulding():
    later = replace(PLAIN, process=Process(unmould_hours=24, cut_hours=36))

    assert plan_of(later).prompt("cut-wait").minutes == 12 * 60
    assert "cut-wait" not in keys(PLAIN)


def test_cast_bars_are_counted_not_cut():
    mould = Mould("cavities", cavities=12, cavity_ml=100)
    cast = replace(PLAIN, cut=Cut("cavities", tool=""))
    plan = plan_of(cast, bench=replace(BENCH, mould=mould), size=SizeAsked("mould"))

    assert plan.prompt("cut").title == "Count and weigh the bars"
    assert "tool:cutter" not in {tick.key for tick in plan.prompt("tools-shape").ticks}
