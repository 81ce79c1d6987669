"""What changed from one formula to the next, in words."""

from dataclasses import replace

import pytest

from soapbench.bars.differences import differences
from soapbench.bars.formula import Additive, AlkaliChoice, Cut, Drawing, FatLine, LiquidLine, PourStage, Process, Water
from soapbench.bars.section_words import section_words
from tests.bars.plain import INDIGO, ONE, PLAIN, TWO, plain

NAMES = {"olive": "Olive oil", "palm": "Palm oil", "shea": "Shea butter", "indigo": "Indigo", "loaf": "Long loaf"}
LESS_PALM = (FatLine("olive", 45), FatLine("coconut", 30), FatLine("shea", 25))


def test_nothing_changed_says_nothing():
    assert differences(PLAIN, plain(), NAMES) == ()


@pytest.mark.parametrize(
    ("changes", "sentences"),
    [
        (
            {"fats": LESS_PALM},
            ("Olive oil: 45 %, was 40 %.", "Shea butter added: 25 %.", "Palm oil taken out."),
        ),
        ({"superfat": 0.065}, ("Superfat: 6.5 %, was 5 %.",)),
        ({"water": Water("percent of fats", 33)}, ("Water: 33 % of the fats, was 2 g for 1 g of alkali.",)),
        (
            {"alkali": AlkaliChoice(1, 0.98)},
            ("Alkali: sodium hydroxide of 98 %, was sodium hydroxide of 100 %.",),
        ),
        ({"liquids": (LiquidLine("milk", 0.3),)}, ("milk added: 30 % of the water, into the fats.",)),
        (
            {"additives": (INDIGO,)},
            ("Indigo in portion B added: 6 g per kg of fats, each gram in 3 g of the recipe's Olive oil.",),
        ),
        ({"additives": (Additive("salt", 1),)}, ("salt in the whole batter added: 1 % of the fats.",)),
        (
            {"pour": (PourStage("layer", ("A",), 0.5), PourStage("drops", ("A",), 0.5))},
            ("Pour: A a level layer, 50 % of each; A drops, 50 % of each, was all at once.",),
        ),
        (
            {"drawing": Drawing("zigzag", "hanger", 4, 20)},
            ("Drawing: zigzag across, with hanger, 4 passes, 20 mm apart, was no drawing.",),
        ),
        (
            {"cut": Cut("slices", 30, 3)},
            ("Cut: slices 30 mm thick, 3 mm trimmed, was slices 25 mm thick, 3 mm trimmed.",),
        ),
        (
            {"process": Process(cure_days=60, oven=True, trace="medium")},
            ("Blend to medium trace.", "Warm oven: yes.", "Cure for 60 days."),
        ),
    ],
    ids=lambda value: next(iter(value)) if isinstance(value, dict) else "",
)
def test_each_change_is_one_sentence(changes, sentences):
    assert differences(PLAIN, plain(**changes), NAMES) == sentences


def test_a_recoloured_portion_is_told():
    darker = replace(TWO[1], colour="#111111")

    (told,) = differences(plain(portions=TWO), plain(portions=(TWO[0], darker)), NAMES)

    assert told.startswith("Portion B: Dark, 1 part, #111111")


def test_a_mixture_of_alkalis_is_told():
    (told,) = differences(PLAIN, plain(alkali=AlkaliChoice(0.9, 1.0)), NAMES)

    assert "90 % by mole sodium hydroxide" in told


def test_a_share_counted_by_mass_is_told_from_one_by_mole():
    by_mole, by_mass = (plain(alkali=AlkaliChoice(0.9, 1.0, shares_by=by)) for by in ("mole", "mass"))

    (told,) = differences(by_mole, by_mass, NAMES)

    assert "90 % by mass sodium hydroxide" in told


def test_each_part_of_a_formula_has_its_line():
    words = section_words(plain(portions=ONE, mould="loaf"), NAMES)

    assert words["fats"] == "Olive oil 40, coconut 30, Palm oil 30"
    assert words["liquids"] == "none"
    assert words["cut"].endswith("Long loaf")
