"""Acids in a formula: the alkali that each takes, what it becomes, and the other form of citric acid."""

from dataclasses import replace

import pytest

from soapbench.bars.check import check
from soapbench.bars.formula import Additive, AlkaliChoice, FatLine
from tests.bars.plain import FACTS, ONE, fact, fat, plain, with_additives

SHELF = {
    **FACTS,
    "citric_acid": fact("citric_acid", "addition", takes_koh_mg_per_g=876.1),
    "citric_acid_monohydrate": fact("citric_acid_monohydrate", "addition", takes_koh_mg_per_g=801.0),
    "lactic_acid_80": fact("lactic_acid_80", "addition", takes_koh_mg_per_g=498.3),
    "stearic_acid": fat("stearic_acid", 197.2, fat_kind="fatty acid"),
}


def told(formula, code="acid", facts=SHELF):
    return [one.sentence for one in check(formula, facts, 1000, 0.1).findings if one.code == code]


def with_acid(key, dose=10.0, **changes):
    return with_additives(Additive(key, dose, "grams"), portions=ONE, **changes)


# 10 g / 192.12 g/mol × 3 × 39.997 = 6.25 g of NaOH; trisodium citrate 258.07 g/mol: 13.4 g.
# The monohydrate, 210.14 g/mol: 5.71 g of NaOH; 0.54 g between the two.
def test_citric_acid_says_what_it_takes_becomes_and_what_the_other_form_would_take():
    (sentence,) = told(with_acid("citric_acid"))

    assert "10 g takes 6.25 g of sodium hydroxide and becomes 13.4 g of sodium citrate" in sentence
    assert "If the jar says monohydrate, it takes 5.71 g: that is 0.54 g too much alkali" in sentence


def test_the_monohydrate_says_that_the_anhydrous_form_would_leave_more_superfat():
    (sentence,) = told(with_acid("citric_acid_monohydrate"))

    assert "takes 5.71 g of sodium hydroxide and becomes 12.3 g of sodium citrate" in sentence
    assert "If the jar says anhydrous, it takes 6.25 g: that is 0.54 g alkali missing" in sentence


# 10 g of 80 % are 0.0888 mol: 3.55 g of NaOH; sodium lactate 112.06 g/mol: 9.95 g.
def test_a_solution_counts_by_its_strength():
    (sentence,) = told(with_acid("lactic_acid_80"))

    assert "takes 3.55 g of sodium hydroxide and becomes 9.95 g of sodium lactate" in sentence


# 50 g / 284.48 g/mol × 39.997 = 7.03 g of NaOH; sodium stearate 306.5 g/mol: 53.9 g.
def test_a_free_fatty_acid_among_the_fats_is_named_as_well():
    (sentence,) = told(plain(fats=(FatLine("olive", 95), FatLine("stearic_acid", 5))))

    assert "50 g takes 7.03 g of sodium hydroxide and becomes 53.9 g of sodium stearate" in sentence


def test_an_acid_of_the_makers_own_says_what_it_takes():
    (sentence,) = told(with_acid("citric"))

    assert sentence == "Citric: 10 g takes 6.24 g of sodium hydroxide."


def test_both_alkalis_take_their_share_of_an_acid():
    both = AlkaliChoice(naoh_share=0.5, naoh_purity=1.0, koh_purity=1.0)

    (sentence,) = told(with_acid("citric_acid", alkali=both))

    assert "3.12 g of sodium hydroxide and 4.38 g of potassium hydroxide" in sentence
    assert "sodium and potassium citrate" in sentence


def test_an_impure_jar_gives_more_of_itself():
    (sentence,) = told(with_acid("citric_acid", alkali=AlkaliChoice(naoh_purity=0.9)))

    assert "takes 6.94 g of sodium hydroxide" in sentence


def test_an_acid_in_two_portions_is_told_once():
    doses = (Additive("citric_acid", 5, "grams", letter) for letter in "AB")

    (sentence,) = told(with_additives(*doses))

    assert "10 g takes 6.25 g" in sentence


def test_what_takes_no_alkali_is_no_acid():
    assert told(with_acid("salt")) == []


def shelf_with(key):
    return {**SHELF, key: replace(SHELF[key], lot=1, lot_code="CI-1", left_g=500.0)}


def test_a_shelf_that_holds_only_the_other_form_asks_for_care():
    facts = shelf_with("citric_acid_monohydrate")

    (sentence,) = told(with_acid("citric_acid"), "acid-form", facts)

    assert "lot CI-1" in sentence


@pytest.mark.parametrize("key", ["citric_acid", "citric_acid_monohydrate"])
def test_a_shelf_that_holds_the_form_asks_nothing(key):
    assert told(with_acid(key), "acid-form", shelf_with(key)) == []
