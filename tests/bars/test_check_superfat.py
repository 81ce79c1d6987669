"""The superfat, its two names, its doubts, and that of each portion."""

from dataclasses import replace

import pytest

from soapbench.bars.check import check
from soapbench.bars.formula import Additive, Portion, PourStage
from tests.bars.plain import FACTS, ONE, plain, with_additives

PORTIONS = (Portion("A", "Plain", 7), Portion("B", "Green", 3))
POUR = (PourStage("layer", ("A", "B")),)
SLURRY = Additive("clay", 10, "grams", "B", "olive", 2)
CERTIFIED = {
    key: replace(one, sv_own=(one.sv_low + one.sv_high) / 2) if one.kind == "fat" else one for key, one in FACTS.items()
}


def checked(formula, facts=FACTS, fats_g=1000, step=0.1):
    return check(formula, facts, fats_g, step)


def codes(result, level):
    return {one.code for one in result.findings if one.level == level}


# e = f / (1 - f): 5 % by discount is 5.26 % by excess.
def test_a_superfat_is_named_in_both_ways():
    sums = checked(plain(superfat=0.05)).sums

    assert sums.percent["asked"] == pytest.approx(5)
    assert sums.percent["excess"] == pytest.approx(5.263, abs=0.001)
    assert "5.26 % more fat on top" in sums.ways


def test_the_doubts_come_largest_first_in_points():
    doubts = checked(plain()).sums.doubts

    points = [each for _name, each in doubts]
    assert points == sorted(points, reverse=True)
    assert doubts[0][0].startswith("the saponification value of")
    assert points[0] == pytest.approx(100 * checked(plain()).sums.superfat.contributions[0].points)


# df = p d / A: 0.1 g over 151.15 g of full demand.
def test_one_step_of_the_scale_is_told_in_superfat():
    assert checked(plain()).sums.percent["step"] == pytest.approx(100 * 0.1 / 151.15, rel=0.001)


def test_each_portion_has_an_interval_around_its_superfat():
    sums = checked(with_additives(SLURRY, portions=PORTIONS, pour=POUR)).sums

    letters = [letter for letter, *_ in sums.spread]
    assert letters == ["A", "B"]
    for letter, central, low, high in sums.spread:
        assert low < central < high
        assert central == pytest.approx(100 * dict(sums.portions.portions)[letter])


def test_portions_that_are_alike_have_no_table():
    assert checked(plain(portions=PORTIONS, pour=POUR)).sums.spread == ()
    assert checked(plain(portions=ONE)).sums.spread == ()


def test_acid_in_one_portion_alone_makes_the_portions_differ():
    sums = checked(with_additives(Additive("citric", 10, "grams", "B"), portions=PORTIONS, pour=POUR)).sums

    spread = {letter: central for letter, central, _low, _high in sums.spread}
    assert spread["B"] > spread["A"]


def test_an_oil_shared_out_as_the_batter_is_leaves_no_portion_poorer():
    doses = (Additive("clay", dose, "grams", letter, "olive", 2) for letter, dose in (("A", 14), ("B", 6)))

    result = checked(with_additives(*doses, portions=PORTIONS, pour=POUR))

    assert "portion-superfat" not in codes(result, "attention")
    assert result.sums.portions.lowest == pytest.approx(result.sums.superfat.central, abs=0.0005)


def test_a_portion_that_an_unlucky_batch_would_leave_lye_heavy_asks_for_care_and_does_not_stop():
    formula = with_additives(SLURRY, portions=PORTIONS, pour=POUR, superfat=0.028)

    result = checked(formula, CERTIFIED)

    assert not result.sums.superfat.lye_heavy_possible
    assert result.sums.portion_intervals["A"].lye_heavy_possible
    sentence = next(one.sentence for one in result.findings if one.code == "portion-may-be-lye-heavy")
    assert sentence.startswith("Portion A has 1.")
    assert codes(result, "stops") == set()


def test_a_central_superfat_below_nothing_stops_and_an_interval_that_reaches_there_only_warns():
    # 150 g of fats take 22.7 g of NaOH in full; a scale of 5 g rounds that up to 25 g.
    heavy, doubtful = checked(plain(superfat=0.0), fats_g=150, step=5), checked(plain(superfat=0.01))

    assert "lye-heavy" in codes(heavy, "stops")
    assert "may-be-lye-heavy" in codes(doubtful, "attention")
    assert codes(doubtful, "stops") == set()


def test_the_blend_is_held_against_the_published_values():
    facts = {**FACTS, "olive": replace(FACTS["olive"], iodine_low=75, iodine_high=94)}

    # Coconut and palm have no published iodine value here, so the blend's is left out.
    assert [one.sentence.split(" ")[1] for one in checked(plain(), facts).sums.comparisons] == ["saponification"]
