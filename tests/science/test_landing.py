"""Where a stage lands, seen from above."""

from math import pi

import pytest

from soapbench.science.landing import landings
from soapbench.science.pour import Room, Stage

LOAF = Room(240, 84, 80)
WAYS = ("layer", "side by side", "down the middle", "drops", "in the pot", "against the walls", "rings")


def landed(way, *portions):
    return landings(LOAF, Stage(way, portions, 60))


@pytest.mark.parametrize("portions", [(("A", 300),), (("A", 300), ("B", 100)), (("A", 9), ("B", 9), ("C", 900))])
@pytest.mark.parametrize("way", WAYS)
def test_nothing_lands_outside_the_mould(way, portions):
    for one in landed(way, *portions):
        assert -1e-9 <= one.along_mm - one.half_along_mm <= one.along_mm + one.half_along_mm <= 240 + 1e-9
        assert -1e-9 <= one.across_mm - one.half_across_mm <= one.across_mm + one.half_across_mm <= 84 + 1e-9


def test_side_by_side_fills_the_floor_by_volume():
    first, second = landed("side by side", ("A", 300), ("B", 100))

    assert (2 * first.half_across_mm, 2 * second.half_across_mm) == pytest.approx((63, 21))


def test_a_dozen_drops_hold_the_volume():
    drops = landed("drops", ("A", 20))

    assert sum(4 / 3 * pi * drop.half_across_mm**3 for drop in drops) == pytest.approx(20_000)
    assert {drop.across_mm for drop in drops} == {42}


def test_rings_lie_inside_one_another_by_area():
    rings = landed("rings", ("A", 100), ("B", 100))

    radii = [ring.half_along_mm for ring in rings]
    assert radii == sorted(radii, reverse=True)
    assert radii[1] ** 2 / radii[0] ** 2 == pytest.approx(5 / 6)
    assert [ring.letter for ring in rings] == list("ABABAB")


def test_one_portion_goes_along_both_walls_and_two_take_one_each():
    assert [one.letter for one in landed("against the walls", ("A", 50))] == ["A", "A"]
    assert [one.letter for one in landed("against the walls", ("A", 50), ("B", 50))] == ["A", "B"]


def test_an_empty_portion_lands_nowhere():
    assert landed("side by side", ("A", 0), ("B", 0)) == ()
    assert landed("in the pot", ("A", 0)) == ()
