"""The worked case of a bench-error study: olive 400 g, coconut 300 g, palm 300 g, 5 % superfat, lye of 33.3 %.

The study's factors, g NaOH a g: olive 0.1345, coconut 0.183, palm 0.1415 (from memory there, illustration only).
"""

from dataclasses import replace

import pytest

from soapbench.science.alkali import Alkali, AlkaliMass, Fat, alkali_for
from soapbench.science.atoms import NAOH_PER_KOH
from soapbench.science.remedy import (
    Portion,
    alkali_to_add,
    cure_progress,
    dose_for_rest,
    fat_to_add,
    portion_superfats,
    pour_part_of_lye,
    put_water_right,
    recompute_alkali,
    remedies_lye_made,
    share_of_stock_lye,
    superfat_now,
)


def fat(name, mass_g, naoh_per_g):
    """Return a fat that takes so many g of NaOH a g, exactly."""
    value = 1000 * naoh_per_g / NAOH_PER_KOH
    return Fat(name, mass_g, value, value, sv_own=value)


OLIVE, COCONUT, PALM = fat("olive", 400, 0.1345), fat("coconut", 300, 0.183), fat("palm", 300, 0.1415)
PLANNED = [OLIVE, COCONUT, PALM]
SODIUM = Alkali()
MADE = alkali_for(PLANNED, 0.05, SODIUM)


def with_coconut(mass_g):
    return [OLIVE, replace(COCONUT, mass_g=mass_g), PALM]


def test_the_planned_alkali_and_water():
    remedy = recompute_alkali(PLANNED, 0.05, SODIUM)

    assert remedy.grams == pytest.approx(143.6, abs=0.05)
    assert "287 g of water" in remedy.sentence


def test_coconut_over_before_the_lye_takes_more_alkali():
    remedy = recompute_alkali(with_coconut(340), 0.05, SODIUM)

    assert remedy.grams == pytest.approx(150.5, abs=0.05)
    assert "301 g of water" in remedy.sentence


def test_coconut_over_with_the_lye_made_takes_more_solution():
    more, accept = remedies_lye_made(with_coconut(340), MADE, 2 * MADE.total_g, 0.05, SODIUM)

    assert (more.code, accept.code) == ("C4", "C2")
    assert more.grams == pytest.approx(20.9, abs=0.05)
    assert 100 * accept.superfat == pytest.approx(9.4, abs=0.05)


def test_coconut_short_with_the_lye_made_pours_part_of_it():
    pour, accept = remedies_lye_made(with_coconut(270), MADE, 2 * MADE.total_g, 0.05, SODIUM)

    assert (pour.code, accept.code) == ("C3", "C2")
    assert pour.grams == pytest.approx(415.2, abs=0.1)
    assert pour.lye_share == pytest.approx(415.2 / 430.8, abs=0.0005)
    assert pour.interval.central == pytest.approx(0.05, abs=0.0005)
    assert 100 * accept.interval.central == pytest.approx(1.4, abs=0.05)


def test_coconut_short_with_the_lye_in_owes_the_thirty_grams():
    fats = with_coconut(270)

    assert 100 * superfat_now(fats, MADE, SODIUM).superfat == pytest.approx(1.4, abs=0.05)
    assert fat_to_add(fats, MADE, SODIUM, 0.05, COCONUT).grams == pytest.approx(30, abs=0.01)


def test_coconut_forgotten_with_the_lye_in_is_caustic():
    remedy = superfat_now([OLIVE, PALM], MADE, SODIUM)

    assert 100 * remedy.superfat == pytest.approx(-49, abs=0.7)
    assert remedy.grams == pytest.approx(47, abs=0.5)


def test_ten_grams_of_alkali_too_much_need_78_g_of_olive():
    weighed = AlkaliMass(MADE.naoh_g + 10)

    assert 100 * superfat_now(PLANNED, weighed, SODIUM).superfat == pytest.approx(-1.6, abs=0.05)
    assert fat_to_add(PLANNED, weighed, SODIUM, 0.05, OLIVE).grams == pytest.approx(78, abs=0.5)


def test_ten_grams_of_alkali_too_little():
    weighed = AlkaliMass(MADE.naoh_g - 10)

    assert 100 * superfat_now(PLANNED, weighed, SODIUM).superfat == pytest.approx(11.6, abs=0.05)
    assert alkali_to_add(PLANNED, weighed, SODIUM, 0.05).grams == pytest.approx(10, abs=0.01)


def test_a_slurry_with_oil_taken_from_the_recipe():
    base = [replace(OLIVE, mass_g=380), COCONUT, PALM]
    found = portion_superfats(base, MADE, SODIUM, [Portion("A", 0.3, (replace(OLIVE, mass_g=20),))])

    assert 100 * found.base == pytest.approx(3.3, abs=0.05)
    assert 100 * dict(found.portions)["A"] == pytest.approx(8.8, abs=0.05)
    assert 100 * found.batch == pytest.approx(5.0, abs=0.001)


def test_a_slurry_with_extra_oil():
    found = portion_superfats(PLANNED, MADE, SODIUM, [Portion("A", 0.3, (replace(OLIVE, mass_g=20),))])

    assert 100 * dict(found.portions)["A"] == pytest.approx(10.3, abs=0.05)
    assert 100 * found.batch == pytest.approx(6.7, abs=0.05)


def test_scent_oil_of_the_recipe_put_into_two_fifths_of_the_batter():
    base = [replace(OLIVE, mass_g=340), COCONUT, PALM]
    found = portion_superfats(base, MADE, SODIUM, [Portion("A", 0.4, (replace(OLIVE, mass_g=60),))])

    assert 100 * found.base == pytest.approx(-0.4, abs=0.05)
    assert 100 * dict(found.portions)["A"] == pytest.approx(12.0, abs=0.05)


# Same study, account B9: 8 oz taken of a make of 32 oz of water and 25 oz of alkali, meant as a quarter of the batch's
# alkali, gave 56 %: a quarter of the water is not a quarter of the make.
def test_a_share_of_a_make_counts_alkali_and_water():
    right = share_of_stock_lye(25 / 4, 25, 32)

    assert right.grams == pytest.approx(57 / 4)
    assert 8 / right.grams == pytest.approx(0.56, abs=0.005)


# Same study, account F1: 8.0 oz of water in place of 11.28 oz made 38 % in place of 31 %.
def test_short_water_is_safe_and_can_still_be_added():
    alkali = 11.28 * 0.31 / 0.69
    remedy = put_water_right(alkali, 8.0, 0.31)

    assert "38" in remedy.sentence
    assert remedy.grams == pytest.approx(3.28, abs=0.01)


# Same study, account F3: 900 g of fats with the alkali for 1300 g at 7 %; 400 g of fat puts it right.
def test_alkali_for_a_bigger_batch_owes_the_missing_fat():
    blend = fat("blend", 900, 0.14)
    weighed = alkali_for([replace(blend, mass_g=1300)], 0.07, SODIUM)

    assert fat_to_add([blend], weighed, SODIUM, 0.07, blend).grams == pytest.approx(400, abs=0.01)


# Same study: KOH weighed in grams meant for NaOH leaves 32 % superfat.
def test_potassium_weighed_for_sodium_hydroxide():
    weighed = AlkaliMass(0, MADE.naoh_g)

    assert 100 * superfat_now(PLANNED, weighed, Alkali(koh_purity=1.0)).superfat == pytest.approx(32, abs=0.5)


def test_the_lye_for_fewer_fats_is_poured_in_proportion():
    assert pour_part_of_lye(143.59, 430.8, 138.38).grams == pytest.approx(415.2, abs=0.05)


# Same study, C11: dose for the rest is F (1 - u). C17: L = 1 - w / w0.
def test_scent_for_the_rest_and_the_loss_of_a_curing_bar():
    assert dose_for_rest(40, 0.25).grams == 30
    assert cure_progress(140, 126, 0.20).grams == pytest.approx(14)
