"""What a gram does, against the worked case of a bench-error study: olive 400 g, coconut 300 g, palm 300 g, 5 %."""

import pytest

from soapbench.science.atoms import NAOH
from soapbench.science.effect import alkali_slope, fat_slope, mol_per_g, tolerance_by_effect
from soapbench.science.remedy_before import keep_planned_alkali, take_less_of
from soapbench.science.split_weighing import split_weighing
from tests.published.test_remedy import COCONUT, MADE, PLANNED, SODIUM, with_coconut


# Table B of the study: one gram on the alkali is 0.7 points for 1 kg of fats. (10 g over: 5 % falls to -1.6 %.)
def test_a_gram_of_alkali_in_a_kilogram_of_fats_is_two_thirds_of_a_point():
    slope = alkali_slope("NaOH", PLANNED, SODIUM)

    assert 100 * slope == pytest.approx(-0.7, abs=0.05)
    assert 100 * (0.05 + 10 * slope) == pytest.approx(-1.6, abs=0.05)


# The study: 30 g of coconut short with the lye in is 1.4 %; a slope holds near the target, so within a tenth of it.
def test_thirty_grams_of_coconut_are_three_and_a_half_points():
    assert 100 * (0.05 - 30 * fat_slope(COCONUT, PLANNED, 0.05)) == pytest.approx(1.4, abs=0.2)


# Bench rule of the study: 0.5 % of the alkali, 0.7 g of 143.6 g; half a point gives nearly the same.
def test_the_tolerance_of_the_alkali_is_that_of_the_bench_rule():
    assert tolerance_by_effect(alkali_slope("NaOH", PLANNED, SODIUM), 143.6, 0.1) == pytest.approx(0.7)


# The definition of the mole.
def test_a_gram_of_pure_sodium_hydroxide_in_moles():
    assert mol_per_g("NaOH", SODIUM) * NAOH == pytest.approx(1)


# The study: coconut 340 g, planned alkali kept: 9.4 %.
def test_the_planned_alkali_for_forty_grams_more_of_coconut():
    assert 100 * keep_planned_alkali(with_coconut(340), MADE, SODIUM).superfat == pytest.approx(9.4, abs=0.05)


# A sum of another kind: the batch keeps its kilogram.
def test_less_of_another_fat_keeps_the_mass_of_the_batch():
    remedy = take_less_of(with_coconut(340), PLANNED, "coconut", "olive")

    assert remedy.grams + 340 + 300 == 1000


# A sum of another kind: the parts add up to the whole.
def test_parts_add_up_to_the_whole():
    assert sum(split_weighing(1351.5, capacity_g=1550, resolution_g=0.1, tare_g=640).parts) == 1351.5
