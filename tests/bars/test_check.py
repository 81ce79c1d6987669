"""What the check says, and what keeps a run from starting."""

from dataclasses import replace

import pytest

from soapbench.bars.check import check
from soapbench.bars.formula import Additive, Cut, Drawing, FatLine, LiquidLine, Portion, PourStage, Water
from soapbench.science.mould import Mould
from tests.bars.plain import FACTS, INDIGO, ONE, TWO, fact, fat, plain, with_additives

LOAF = Mould("box", length_mm=240, width_mm=84, height_mm=70)
POUR = (PourStage("layer", ("A", "B")),)


def checked(formula, fats_g=1000, step=0.1, mould=None, facts=FACTS, tools=None):
    return check(formula, facts, fats_g, step, mould, tools=tools)


def codes(findings):
    return {finding.code for finding in findings}


def sentence(result, code):
    return next(finding.sentence for finding in result.findings if finding.code == code)


def test_a_sound_formula_stops_nothing():
    assert checked(plain(), mould=LOAF, fats_g=900).stops == ()


def test_the_superfat_comes_with_its_interval_and_what_weighs_most():
    text = sentence(checked(plain(superfat=0.08)), "superfat")

    assert "8.0 %" in text
    assert "Most of the doubt is the" in text


def test_an_interval_that_reaches_below_nothing_asks_for_care_and_says_what_would_narrow_it():
    result = checked(plain(superfat=0.01))

    assert result.stops == ()
    assert "supplier" in sentence(result, "may-be-lye-heavy")
    assert "more superfat" in sentence(result, "may-be-lye-heavy")


def test_a_suppliers_value_narrows_the_interval():
    own = {key: replace(one, sv_own=(one.sv_low + one.sv_high) / 2) for key, one in FACTS.items() if one.kind == "fat"}

    bare, certified = (checked(plain(), facts=facts).sums.superfat for facts in (FACTS, {**FACTS, **own}))

    assert certified.high - certified.low < bare.high - bare.low


def test_a_lye_heavy_formula_stops():
    # 150 g of fats take 22.7 g of NaOH in full; a scale of 5 g rounds that up to 25 g.
    assert "lye-heavy" in codes(checked(plain(superfat=0.0), 150, 5).stops)


def test_a_portion_left_lye_heavy_by_a_slurry_stops():
    # A scent diluted in 60 g olive of the recipe for 40 % of the batter: the base has -0.4 %, the portion 12 %.
    portions = (Portion("A", "Plain", 6), Portion("B", "Scented", 4))
    formula = with_additives(Additive("clay", 20, "grams", "B", "olive", 3), portions=portions, pour=POUR)

    result = checked(formula)

    assert "portion-lye-heavy" in codes(result.stops)
    assert result.sums.portions.base == pytest.approx(-0.004, abs=0.001)
    assert dict(result.sums.portions.portions)["B"] == pytest.approx(0.120, abs=0.001)


def test_a_slurry_of_20_g_olive_leaves_the_base_with_3_3_per_cent():
    portions = (Portion("A", "Plain", 7), Portion("B", "Green", 3))
    formula = with_additives(Additive("clay", 10, "grams", "B", "olive", 2), portions=portions, pour=POUR)

    result = checked(formula)

    assert result.sums.portions.base == pytest.approx(0.033, abs=0.0005)
    assert dict(result.sums.portions.portions)["B"] == pytest.approx(0.088, abs=0.0005)
    assert "portion-superfat" in codes(result.attentions)


def test_much_superfat_asks_for_care():
    assert "much-superfat" in codes(checked(plain(superfat=0.12)).attentions)


@pytest.mark.parametrize(
    ("value", "code"), [(0.33, "lye"), (0.45, "strong-lye"), (0.24, "weak-lye"), (0.6, "lye-too-strong")]
)
def test_the_strength_of_the_lye_is_judged(value, code):
    assert code in codes(checked(plain(water=Water("lye concentration", value))).findings)


def test_water_below_the_alkali_stops():
    assert codes(checked(plain(water=Water("water to alkali ratio", 0.8))).stops) == {"lye-too-strong"}


def test_milk_that_leaves_the_jug_dry_stops():
    assert codes(checked(plain(liquids=(LiquidLine("milk", 0.7),))).stops) == {"lye-too-strong"}


@pytest.mark.parametrize(("olive", "code"), [(40, "hardness"), (90, "liquid-fats"), (10, "hard-fats")])
def test_the_share_of_liquid_fats_is_told(olive, code):
    fats = (FatLine("olive", olive), FatLine("palm", 100 - olive))

    assert f"{olive} %" in sentence(checked(plain(fats=fats)), code)


def test_the_profile_speaks_in_sentences():
    assert len(checked(plain()).profile) > 1


def test_fats_of_unknown_composition_leave_the_profile_out():
    facts = {**FACTS, "olive": fat("olive", 190)}

    result = checked(plain(fats=(FatLine("olive", 100),)), facts=facts)

    assert result.sums.profile is None
    assert "profile" not in codes(result.findings)


def test_a_wide_range_is_counted_carefully_and_says_so():
    facts = {**FACTS, "shea": fat("shea", 180, 20)}
    fats = (FatLine("olive", 80), FatLine("shea", 20))

    assert "Shea varies a lot" in sentence(checked(plain(fats=fats), facts=facts), "careful")


def test_a_coarse_scale_asks_for_care():
    assert "coarse-scale" in codes(checked(plain(), 500, 1).attentions)


def test_a_pinch_on_a_coarse_scale_asks_for_a_finer_one():
    assert "Indigo (2 g)" in sentence(checked(with_additives(INDIGO, pour=POUR), 1000, 1), "small-doses")


@pytest.mark.parametrize(("fats_g", "code"), [(900, "mould"), (1100, "does-not-fit")])
def test_the_batter_is_held_against_the_mould(fats_g, code):
    result = checked(plain(), fats_g, mould=LOAF)

    assert code in codes(result.findings)
    assert bool(result.stops) == (code == "does-not-fit")


def test_the_cut_says_how_many_bars():
    assert sentence(checked(plain(cut=Cut("slices", 25, 3)), 900, mould=LOAF), "cut").startswith("9 bars")


def test_a_cut_that_does_not_suit_the_mould_asks_for_care():
    assert "cut" in codes(checked(plain(cut=Cut("rounds", 25)), 900, mould=LOAF).attentions)


def test_a_scent_within_its_limit_says_so_with_the_source():
    result = checked(with_additives(Additive("rosemary", 2), pour=POUR))

    assert "supplier's paper" in sentence(result, "dose")
    assert result.stops == ()


def test_a_scent_over_its_limit_in_one_portion_stops_though_the_bar_keeps_it():
    # 3 % of a third of 1000 g is 10 g in 477 g of batter B, 2.4 % when dry; 0.8 % in the bar.
    result = checked(with_additives(Additive("rosemary", 3, goes_to="B"), pour=POUR))

    assert sentence(result, "over-limit").startswith("Portion B: Rosemary")
    assert codes(result.stops) == {"over-limit"}


def test_a_scent_without_a_known_limit_stops():
    result = checked(with_additives(Additive("mystery", 1), pour=POUR))

    assert codes(result.stops) == {"no-limit"}
    assert "No limit is known for Mystery" in sentence(result, "no-limit")


def test_a_colour_needs_no_limit():
    assert "no-limit" not in codes(checked(with_additives(INDIGO, pour=POUR)).stops)


def test_a_colour_that_has_a_limit_keeps_it():
    facts = {**FACTS, "indigo": fact("indigo", "colourant", limit_percent=0.1, limit_source="our own rule")}

    assert "over-limit" in codes(checked(with_additives(INDIGO, pour=POUR), facts=facts).stops)


@pytest.mark.parametrize(
    ("formula", "code"),
    [
        (plain(fats=(FatLine("olive", 60), FatLine("palm", 30))), "percent"),
        (plain(fats=(FatLine("olive", 110), FatLine("palm", -10))), "negative"),
        (plain(portions=(Portion("A", "One", 1), Portion("A", "Two", 1)), pour=POUR[:0]), "letter-twice"),
        (plain(portions=(Portion("A", "One", 1), Portion("B", "Two", 0)), pour=POUR), "parts"),
        (plain(portions=()), "no-portion"),
        (plain(portions=TWO), "pour-shares"),
        (plain(portions=TWO, pour=(PourStage("layer", ("A",)),)), "pour-shares"),
        (plain(portions=TWO, pour=(*POUR, PourStage("drops", ("B",), 0.5))), "pour-shares"),
        (plain(pour=(PourStage("layer", ("A", "C")),)), "pour-portion"),
        (with_additives(Additive("salt", 1, goes_to="F"), pour=POUR), "addition-portion"),
        (with_additives(Additive("salt", 1), Additive("salt", 2), pour=POUR), "addition-twice"),
        (plain(fats=(FatLine("walrus", 100),)), "formula"),
    ],
)
def test_a_formula_that_does_not_hang_together_stops(formula, code):
    assert code in codes(checked(formula).stops)


def test_a_portion_may_be_poured_in_several_stages():
    pour = (PourStage("layer", ("A",), 0.33), PourStage("layer", ("A", "B"), 0.33), PourStage("drops", ("A",), 0.34))
    pour = (*pour, PourStage("rings", ("B",), 0.67))

    assert checked(plain(portions=TWO, pour=pour)).stops == ()


def test_a_tool_that_is_not_in_the_workshop_stops():
    drawing = Drawing("zigzag", "chopstick", 9, 10)

    assert "chopstick" in sentence(checked(plain(drawing=drawing), tools={"skewer"}), "tool")
    assert "tool" not in codes(checked(plain(drawing=drawing), tools={"chopstick"}).findings)


def test_a_drawing_without_a_tool_asks_for_one():
    assert "no-tool" in codes(checked(plain(drawing=Drawing("zigzag"))).attentions)


def test_a_fat_listed_twice_asks_for_care():
    fats = (FatLine("olive", 50), FatLine("olive", 50))

    assert sentence(checked(plain(fats=fats)), "fat-twice").startswith("Olive is listed twice")


def test_a_batch_that_is_no_number_stops_and_does_not_raise():
    assert codes(checked(plain(), float("nan")).stops) == {"number"}


def test_what_stops_comes_first():
    levels = [finding.level for finding in checked(with_additives(Additive("mystery", 1), portions=ONE)).findings]

    assert levels == sorted(levels, key=["stops", "attention", "good"].index)
