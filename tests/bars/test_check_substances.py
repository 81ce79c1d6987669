"""Substances with a limit of their own, added up over all scents."""

from dataclasses import replace

import pytest

from soapbench.bars.check import check
from soapbench.bars.formula import Additive, Portion, PourStage
from tests.bars.plain import FACTS, fact, with_additives

POUR = (PourStage("layer", ("A", "B")),)
GRASS = fact("grass", "scent", limit_percent=5.0, limit_source="table", parts={"Citral": 85.0, "Linalool": 2.0})
LITSEA = fact("litsea", "scent", limit_percent=5.0, limit_source="table", parts={"Citral": 80.0, "Geraniol": 2.0})
SHELF = {**FACTS, "grass": GRASS, "litsea": LITSEA}


def found(*additives, facts=SHELF, **changes):
    findings = check(with_additives(*additives, **{"pour": POUR, **changes}), facts, 1000, 0.1).findings
    return [one for one in findings if one.code in ("substance", "substances")]


# IFRA category 9, citral: 1.2 %. About 1430 g of batter are 1215 g of dry bars: 14.6 g of citral at most.
def test_a_substance_is_added_up_over_all_scents():
    each = [found(Additive(key, 12, "grams")) for key in ("grass", "litsea")]
    both = found(Additive("grass", 12, "grams"), Additive("litsea", 12, "grams"))

    assert [one.code for findings in each for one in findings] == ["substances", "substances"]
    over = next(one for one in both if one.code == "substance")
    assert over.level == "stops"
    assert "All scents together: citral is 1.6" in over.sentence
    assert "Grass (up to 85 % of it), Litsea (up to 80 % of it)" in over.sentence
    assert "IFRA 49th Amendment, category 9" in over.sentence


def test_a_portion_counts_by_itself():
    (over,) = (one for one in found(Additive("grass", 8, "grams", "B")) if one.level == "stops")

    assert over.sentence.startswith("Portion B, all scents together: citral is ")


def test_what_keeps_its_limit_is_told_once_with_its_source():
    (kept,) = found(Additive("grass", 2, "grams"), Additive("litsea", 2, "grams"))

    assert kept.level == "good"
    assert "citral 0.27 of 1.2 %" in kept.sentence
    assert "geraniol 0.0033 of 9.2 %" in kept.sentence
    assert "linalool" not in kept.sentence  # it has no limit
    assert kept.sentence.count("IFRA 49th Amendment, category 9") == 1


def test_the_certificate_of_the_lot_wins_over_the_table():
    certified = {key: replace(SHELF[key], limit_confidence="supplier") for key in ("grass", "litsea")}

    (over,) = found(Additive("grass", 24, "grams"), facts={**SHELF, **certified})

    assert over.level == "attention"
    assert "The certificate of your lot wins" in over.sentence


def test_two_certificates_say_nothing_of_both_oils_together():
    certified = {key: replace(SHELF[key], limit_confidence="supplier") for key in ("grass", "litsea")}
    both = (Additive("grass", 12, "grams"), Additive("litsea", 12, "grams"))

    sentence = next(one.sentence for one in found(*both, facts={**SHELF, **certified}) if one.level == "attention")
    assert "ask the supplier whether they count together" in sentence


def test_one_scent_without_a_certificate_among_two_stops():
    half = {**SHELF, "grass": replace(GRASS, limit_confidence="supplier")}
    both = (Additive("grass", 12, "grams"), Additive("litsea", 12, "grams"))

    assert "stops" in {one.level for one in found(*both, facts=half)}


@pytest.mark.parametrize("additive", [Additive("rosemary", 1), Additive("salt", 1), Additive("grass", 0)])
def test_nothing_is_said_without_a_known_part(additive):
    assert found(additive) == []


def test_a_batter_that_stays_whole_names_no_portion():
    whole = (Portion("A", "Whole", 1),)

    (over,) = found(Additive("grass", 24, "grams"), portions=whole, pour=())

    assert over.sentence.startswith("All scents together: ")
