"""The other ways out of the bench-error study's worked case: olive 400 g, coconut 300 g, palm 300 g, 5 % superfat."""

from dataclasses import replace

import pytest

from soapbench.science.alkali import AlkaliMass
from soapbench.science.remedy import (
    add_what_is_owed,
    keep_proportions,
    make_more_lye,
    remedies_before_lye,
    remedies_lye_in,
    shrink_to_stock,
    substitute,
)
from soapbench.science.remedy_answer import percent, scaled
from soapbench.science.remedy_before import water_for
from tests.published.test_remedy import COCONUT, MADE, OLIVE, PALM, PLANNED, SODIUM, fat, with_coconut


# Coconut came out at 340 g, lye not made: weigh 150.5 g; or every fat times 340 / 300.
def test_the_ways_out_before_the_lye_name_the_printed_alkali_first():
    first, bigger = remedies_before_lye(with_coconut(340), PLANNED, 0.05, SODIUM)

    assert (first.code, first.grams) == ("C1", pytest.approx(150.5, abs=0.05))
    assert (bigger.code, bigger.grams) == ("C7", pytest.approx(1133.3, abs=0.05))
    assert bigger.grams == pytest.approx(keep_proportions(PLANNED, 340 / 300).grams)


# Coconut came out at 270 g: 30 g are owed, or all shrinks to 900 g (C14).
def test_thirty_grams_are_owed_or_all_shrinks_to_nine_tenths():
    assert add_what_is_owed(with_coconut(270), PLANNED).grams == pytest.approx(30)
    assert shrink_to_stock(PLANNED, "coconut", 270).grams == pytest.approx(900)
    assert sum(each.mass_g for each in scaled(PLANNED, 0.9)) == pytest.approx(900)


# Account B18 of the study: what was left of the coconut was used without another sum for the alkali. 100 g of 300 g,
# olive for the rest: by the study's factors 143.6 g falls by 200 x 0.95 x (0.183 - 0.1345), to 134.4 g.
def test_a_fat_that_stands_in_gram_for_gram_takes_another_alkali():
    fats, remedy = substitute(PLANNED, "coconut", 100, OLIVE)
    first = remedies_before_lye(fats, fats, 0.05, SODIUM)[0]

    assert remedy.grams == pytest.approx(200)
    assert first.grams == pytest.approx(143.59 - 200 * 0.95 * (0.183 - 0.1345), abs=0.05)


# Coconut at 340 g with the lye made: 20.9 g more of the same solution.
def test_more_lye_of_the_same_strength_is_the_printed_amount():
    assert make_more_lye(143.59, 430.8, 150.54).grams == pytest.approx(20.9, abs=0.1)


# Coconut at 270 g with the lye in: 1.4 %; first way out, by the order of the fats; with coconut the printed 30 g.
def test_the_ways_out_with_the_lye_in_hold_the_printed_thirty_grams():
    found = remedies_lye_in(with_coconut(270), MADE, SODIUM, 0.05)

    assert found[1].title == "Add coconut"
    assert found[1].grams == pytest.approx(30, abs=0.01)
    assert percent(found[-1].superfat) == "1.4 %"


# Ten grams of alkali too little, lye in: 11.6 %, below the 12 % from which it would be put right.
def test_a_superfat_of_eleven_point_six_is_left_alone_first():
    found = remedies_lye_in(PLANNED, AlkaliMass(MADE.naoh_g - 10), SODIUM, 0.05)

    assert [remedy.code for remedy in found] == ["C2", "C6"]
    assert found[1].grams == pytest.approx(10, abs=0.01)


# The trade's table: 28 % is 2.57 times the alkali in water, 33.3 % twice, 40 % one and a half times.
@pytest.mark.parametrize(("strength", "ratio"), [(0.28, 2.57), (1 / 3, 2.0), (0.40, 1.5)])
def test_the_water_for_a_lye_is_that_of_the_trade_s_table(strength, ratio):
    assert water_for(100, strength) == pytest.approx(100 * ratio, abs=0.3)


def test_the_worked_case_is_the_one_that_the_study_prints():
    assert [each.mass_g for each in (OLIVE, COCONUT, PALM)] == [400, 300, 300]
    assert replace(fat("olive", 400, 0.1345), name="olive").naoh_g == pytest.approx(53.8)
