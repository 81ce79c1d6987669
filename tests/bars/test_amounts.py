"""What to weigh, against sums worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.bars.amounts import NotEnoughWater, amounts, science_alkali, science_fats
from soapbench.bars.formula import Additive, AlkaliChoice, FatLine, FormulaError, LiquidLine, Portion, Water
from soapbench.science.alkali import superfat_of
from soapbench.science.errors import OutOfRange
from tests.bars.plain import FACTS, INDIGO, ONE, fact, plain, with_additives

# Worked by hand: olive 400 × 0.1345 + coconut 300 × 0.183 + palm 300 × 0.1415 = 151.15 g NaOH in full;
# × 0.95 = 143.6 g; twice that is 287 g of water.


def made(formula, fats_g=1000, step=0.1, facts=FACTS):
    return amounts(formula, facts, fats_g, step)


def grams(lines):
    return {line.key: line.mass_g for line in lines}


def test_the_worked_case_gives_its_alkali_and_water():
    batch = made(plain())

    assert grams(batch.fats) == {"fat:olive": 400, "fat:coconut": 300, "fat:palm": 300}
    assert grams(batch.alkali) == {"alkali:naoh": 143.6}
    assert batch.water.mass_g == pytest.approx(287.2)


def test_a_worked_case_with_more_coconut_takes_the_alkali_worked_by_hand():
    fats = (FatLine("olive", 400), FatLine("coconut", 340), FatLine("palm", 300))

    # 151.15 + 40 × 0.183 = 158.47; × 0.95 = 150.5 g.
    assert grams(made(plain(fats=fats, fats_by="mass"), 1040).alkali) == {"alkali:naoh": 150.5}


def test_an_impure_alkali_is_weighed_heavier():
    # 143.59 / 0.97 = 148.03 g.
    assert made(plain(alkali=AlkaliChoice(naoh_purity=0.97))).alkali_mass.naoh_g == pytest.approx(148.0)


def test_the_purity_on_the_lots_paper_wins():
    jar = fact("sodium_hydroxide", "alkali", purity=0.97, lot=1)

    assert made(plain(), facts={**FACTS, "sodium_hydroxide": jar}).alkali_mass.naoh_g == pytest.approx(148.0)


def test_both_alkalis_are_weighed_for_a_mixture():
    # 143.593 g NaOH are 3.5901 mol. Half of each: 71.8 g NaOH, 1.79504 × 56.105 / 0.9 = 111.9 g KOH.
    batch = made(plain(alkali=AlkaliChoice(naoh_share=0.5, naoh_purity=1.0)))

    assert grams(batch.alkali) == {"alkali:naoh": 71.8, "alkali:koh": 111.9}


def test_a_share_by_mass_weighs_out_equal_masses_of_pure_alkali():
    # x / 39.997 + x / 56.105 = 3.5901 mol, so x = 83.8 g of each when pure; 83.83 / 0.9 = 93.1 g of KOH flakes.
    batch = made(plain(alkali=AlkaliChoice(naoh_share=0.5, naoh_purity=1.0, shares_by="mass")))

    assert grams(batch.alkali) == {"alkali:naoh": 83.8, "alkali:koh": 93.1}


def test_the_fats_keep_their_total_when_rounded():
    thirds = tuple(FatLine(key, 1) for key in ("olive", "coconut", "palm"))

    assert sum(line.mass_g for line in made(plain(fats=thirds), 1000, 1).fats) == 1000


def test_the_alkali_counts_on_the_fats_as_rounded():
    fats = (FatLine("olive", 1), FatLine("coconut", 1))

    # 101 g on a scale of 10 g: 50 and 50 g. 50 × 0.1345 + 50 × 0.183 = 15.875; × 0.95 = 15.08 -> 20 g on this scale.
    batch = made(plain(fats=fats), 101, 10)

    assert grams(batch.fats) == {"fat:olive": 50, "fat:coconut": 50}
    assert batch.alkali_mass.naoh_g == 20


@pytest.mark.parametrize(
    ("water", "grams_of_water"),
    [
        (Water("lye concentration", 0.25), 430.8),  # 143.6 × 3
        (Water("water to alkali ratio", 1.5), 215.4),
        (Water("percent of fats", 33), 330.0),
    ],
)
def test_water_may_be_stated_in_three_ways(water, grams_of_water):
    assert made(plain(water=water)).water.mass_g == pytest.approx(grams_of_water)


@pytest.mark.parametrize("water", [Water("lye concentration", 0.6), Water("percent of fats", 10)])
def test_less_water_than_alkali_is_refused(water):
    with pytest.raises(NotEnoughWater, match="dissolve"):
        made(plain(water=water))


def test_milk_replaces_water_by_the_water_in_it():
    batch = made(plain(liquids=(LiquidLine("milk", 0.25),)))

    # A quarter of 287.2 g is 71.8 g of water, in 71.8 / 0.88 = 81.6 g of milk.
    assert grams(batch.liquids) == {"liquid:milk": 81.6}
    assert batch.water.mass_g == pytest.approx(215.4)


def test_milk_into_the_fats_may_not_leave_the_jug_short_of_water():
    with pytest.raises(NotEnoughWater, match="In the lye jug"):
        made(plain(liquids=(LiquidLine("milk", 0.6, "fats"),)))


def test_milk_in_the_lye_leaves_the_jug_as_wet_as_before():
    assert made(plain(liquids=(LiquidLine("milk", 0.6, "lye"),))).water.mass_g == pytest.approx(114.9)


def test_a_liquid_that_is_hardly_water_is_refused():
    with pytest.raises(FormulaError, match="Honey is hardly water"):
        made(plain(liquids=(LiquidLine("honey", 0.1),)))


def test_liquids_cannot_replace_more_than_all_of_the_water():
    with pytest.raises(FormulaError, match="120 %"):
        made(plain(liquids=(LiquidLine("milk", 1.2, "lye"),)))


def test_citric_acid_takes_alkali_of_its_own():
    # 1 % of 1000 g is 10 g; it takes 10 × 0.876 / 1.40270 = 6.245 g NaOH: 143.593 + 6.245 = 149.8 g.
    batch = made(with_additives(Additive("citric", 1), portions=ONE))

    assert batch.alkali_mass.naoh_g == pytest.approx(149.8)
    assert batch.acids[0].mass_g == 10


@pytest.mark.parametrize(
    ("dose", "basis", "expected"),
    [
        (3, "percent of fats", 10.0),  # of a third of 1000 g
        (3, "percent of batter", 14.3),  # of a third of 1000 + 143.6 + 287.2 = 1430.8 g
        (6, "grams per kg of fats", 2.0),
        (5, "grams", 5.0),  # what it says, for the portion itself
    ],
)
def test_a_portion_gets_its_share_of_a_dose(dose, basis, expected):
    batch = made(with_additives(Additive("rosemary", dose, basis, "B")))

    assert batch.additives[0].mass_g == pytest.approx(expected)


def test_a_dose_for_the_whole_batter_counts_on_all_of_it():
    assert made(with_additives(Additive("salt", 1))).additives[0].mass_g == 10


def test_a_colour_is_dispersed_in_oil_of_the_recipe():
    batch = made(with_additives(INDIGO))

    # 6 g/kg of a third of the fats is 2.0 g, in three times that of olive: 6.0 g less in the pot.
    assert grams(batch.carriers) == {"carrier:B:indigo:olive": 6.0}
    assert grams(batch.fats)["fat:olive"] == 394.0
    assert batch.fat_masses["olive"] == 400
    assert batch.alkali_mass.naoh_g == pytest.approx(143.6)


def test_a_colour_may_be_dispersed_in_water_of_the_recipe():
    batch = made(with_additives(Additive("clay", 3, "percent of fats", "A", "water", 2)))

    # 3 % of two thirds of 1000 g is 20 g of clay, in 40 g of water.
    assert batch.water.mass_g == pytest.approx(247.2)


def test_a_carrier_must_be_in_the_recipe():
    with pytest.raises(FormulaError, match="not in the recipe"):
        made(with_additives(Additive("indigo", 6, "grams per kg of fats", "B", "milk", 3)))


def test_carriers_cannot_take_more_than_there_is():
    with pytest.raises(FormulaError, match="take 450 g of Olive"):
        made(with_additives(Additive("clay", 45, "grams", "B", "olive", 10)))


def test_the_portions_are_weighed_out_of_the_pot():
    batch = made(with_additives(INDIGO))

    # 1000 + 143.6 + 287.2 - 6 = 1424.8 g in the pot: 949.9 and 474.9.
    assert batch.pot_g == pytest.approx(1424.8)
    assert batch.portions == {"A": pytest.approx(949.9), "B": pytest.approx(474.9)}
    assert batch.of_portion("B") == pytest.approx(474.9 + 2 + 6)


def test_the_batter_is_all_that_is_weighed():
    batch = made(with_additives(INDIGO, Additive("salt", 1)))

    assert batch.batter_g == pytest.approx(sum(line.mass_g for line in batch.lines))


def test_the_volume_is_that_of_fats_and_lye_together():
    # 400 / 0.91 + 300 / 0.92 + 300 / 0.90 = 1099 ml, and 430.8 g of 33.3 % lye at 1.35 g/ml = 319 ml.
    assert made(plain()).volume_ml == pytest.approx(1418, abs=8)


def test_a_pinch_below_the_scales_step_is_not_rounded_to_nothing():
    assert made(with_additives(Additive("indigo", 0.3, "grams", "B")), 1000, 1).additives[0].mass_g == 0.3


def test_a_scale_too_coarse_for_any_alkali_is_refused():
    with pytest.raises(OutOfRange, match="too small for the scale"):
        made(plain(), 10, 10)


@pytest.mark.parametrize(
    ("formula", "sentence"),
    [
        (plain(fats=(FatLine("walrus", 100),)), "Nothing is known of “walrus”"),
        (plain(fats=(FatLine("milk", 100),)), "Milk is no fat"),
        (plain(fats=()), "at least one fat"),
        (plain(portions=()), "at least one portion"),
        (plain(portions=(Portion("A", "Nothing", 0),)), "parts above 0"),
        (with_additives(Additive("indigo", 1, goes_to="H")), "portion H, which is not there"),
        (with_additives(Additive("olive", 1)), "It cannot be an addition"),
    ],
)
def test_a_formula_that_names_what_is_not_there_is_refused(formula, sentence):
    with pytest.raises(FormulaError, match=sentence):
        made(formula)


FORMULA = with_additives(INDIGO, Additive("rosemary", 3, "percent of batter", "A"), Additive("citric", 1))
MASSES = st.floats(min_value=300, max_value=20_000)


@settings(deadline=None, max_examples=40)
@given(fats_g=MASSES, factor=st.floats(min_value=0.5, max_value=5))
def test_a_batch_scales_with_its_fats(fats_g, factor):
    small, large = made(FORMULA, fats_g, 0.001), made(FORMULA, factor * fats_g, 0.001)

    for one, other in zip(small.lines, large.lines, strict=True):
        assert other.mass_g == pytest.approx(factor * one.mass_g, rel=1e-3, abs=0.01)
    assert large.volume_ml == pytest.approx(factor * small.volume_ml, rel=1e-4)


@settings(deadline=None, max_examples=40)
@given(fats_g=MASSES, step=st.sampled_from([0.01, 0.1, 1.0, 5.0]), parts=st.floats(min_value=0.1, max_value=9))
def test_the_portions_add_up_to_the_pot(fats_g, step, parts):
    batch = made(with_additives(INDIGO, portions=(Portion("A", "", parts), Portion("B", "", 1))), fats_g, step)

    assert sum(batch.portions.values()) == pytest.approx(batch.pot_g)
    assert sum(batch.of_portion(letter) for letter in batch.portions) == pytest.approx(batch.batter_g)


@settings(deadline=None, max_examples=40)
@given(fats_g=MASSES, step=st.sampled_from([0.01, 0.1, 1.0]), ratio=st.floats(min_value=0, max_value=6))
def test_a_carrier_neither_makes_nor_loses_fat(fats_g, step, ratio):
    bare = made(with_additives(), fats_g, step)
    carried = made(with_additives(Additive("indigo", 6, "grams per kg of fats", "B", "olive", ratio)), fats_g, step)

    assert carried.fat_masses == pytest.approx(bare.fat_masses)
    assert carried.alkali_mass == bare.alkali_mass


@settings(deadline=None, max_examples=40)
@given(fats_g=MASSES, superfat=st.floats(min_value=0, max_value=0.3))
def test_the_alkali_leaves_the_superfat_that_was_asked_for(fats_g, superfat):
    formula = plain(superfat=superfat)
    batch = made(formula, fats_g, 0.01)

    found = superfat_of(science_fats(batch.fat_masses, FACTS), batch.alkali_mass, science_alkali(formula))
    assert found == pytest.approx(superfat, abs=0.0005)
