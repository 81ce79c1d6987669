"""Where the knife goes, and the same bars cut another way."""

import pytest

from soapbench.science.cut import CutPlan, cut_yield
from soapbench.science.cut_planes import Planes, planes, turned
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould

LOAF = Mould("box", 240, 84, 80)
TUBE = Mould("cylinder", diameter_mm=76, height_mm=260)


def test_slices_are_counted_from_the_end():
    (found,) = planes(LOAF, 64, CutPlan("slices", 25, 3))

    assert found == Planes("along", (3, 28, 53, 78, 103, 128, 153, 178, 203, 228, 237))


def test_without_trim_and_leftover_the_faces_themselves_are_no_cuts():
    (found,) = planes(LOAF, 64, CutPlan("slices", 24, 0))

    assert found.at_mm == tuple(24.0 * at for at in range(1, 10))


def test_even_bars_leave_nothing_between_the_last_and_the_trim():
    (found,) = planes(LOAF, 64, CutPlan("slices", 25, 3, even=True))

    assert found.at_mm == pytest.approx([3 + 26 * at for at in range(10)])


def test_blocks_on_their_sides_are_cut_along_and_level():
    plan = CutPlan("blocks on their sides", 30, 3, length_mm=58.5, trim_top_mm=4)

    along, up = planes(LOAF, 64, plan)

    assert along.at_mm == (3, 61.5, 120, 178.5, 237)
    assert up == Planes("up", (30, 60))


def test_planks_are_cut_along_and_across():
    along, across = planes(LOAF, 64, CutPlan("long planks", 28, 3, length_mm=78))

    assert (along.axis, across) == ("along", Planes("across", (28, 56)))


def test_rounds_are_cut_along_the_tube():
    (found,) = planes(TUBE, 250, CutPlan("rounds", 27.5, 1.25))

    assert (found.axis, len(found.at_mm)) == ("along", 10)


def test_cavities_are_not_cut():
    assert planes(Mould("cavities", cavities=9, cavity_ml=100), 0, CutPlan("cavities")) == ()


def test_a_cut_that_does_not_suit_the_mould_is_refused():
    with pytest.raises(OutOfRange, match="not cut into"):
        planes(TUBE, 250, CutPlan("slices", 25))


@pytest.mark.parametrize("way", ["slices", "blocks on their sides", "long planks"])
def test_bars_cut_another_way_weigh_about_the_same(way):
    bar_ml = 25 * 84 * 64 / 1000

    found = cut_yield(LOAF, 64, turned(LOAF, 64, way, bar_ml, 3), 1.0)

    assert found.bar_mass_g == pytest.approx(bar_ml, rel=0.15)
    assert found.leftover_mm == 0


def test_a_tube_is_always_cut_into_rounds():
    assert turned(TUBE, 250, "blocks on their sides", 120).way == "rounds"


@pytest.mark.parametrize(("bar_ml", "high"), [(0, 64), (120, 0)])
def test_nothing_cannot_be_cut_another_way(bar_ml, high):
    with pytest.raises(OutOfRange):
        turned(LOAF, high, "slices", bar_ml)
