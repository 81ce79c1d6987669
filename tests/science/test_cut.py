import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.cut import (
    CutPlan,
    cast_into,
    cut_into,
    cut_yield,
    mass_to_pour,
    pieces_along,
    thickness_for_mass,
    wires_along,
)
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould

LOAF = Mould("box", 240, 84, 64)


@given(st.floats(50, 500), st.floats(10, 40), st.floats(0, 5), st.floats(0, 3))
def test_pieces_cuts_trims_and_leftover_make_up_the_loaf(size, thickness, trim, kerf):
    pieces = pieces_along(size, thickness, trim, kerf)

    total = pieces.count * thickness + (pieces.count - 1) * kerf + pieces.leftover_mm + trim
    assert total == pytest.approx(size)
    assert pieces.leftover_mm < thickness + kerf
    assert pieces.count * pieces.even_mm + (pieces.count - 1) * kerf + trim == pytest.approx(size)


@given(st.floats(50, 500), st.floats(10, 40), st.floats(0.01, 5))
def test_thicker_bars_are_never_more_bars(size, thickness, more):
    assert pieces_along(size, thickness + more).count <= pieces_along(size, thickness).count


@given(st.integers(1, 40), st.floats(5, 60))
def test_a_loaf_of_whole_bars_leaves_nothing(count, thickness):
    pieces = pieces_along(count * thickness, thickness)

    assert pieces.count == count
    assert pieces.leftover_mm == pytest.approx(0, abs=1e-6)


@given(st.floats(25, 60), st.sampled_from(["slices", "long planks", "blocks on their sides"]), st.floats(10, 20))
def test_bars_and_leftover_weigh_what_the_loaf_weighs(height, way, thickness):
    cut = cut_yield(LOAF, height, CutPlan(way, thickness, trim_mm=3, trim_top_mm=2), 1.02)

    assert cut.count * cut.bar_mass_g + cut.leftover_g == pytest.approx(240 * 84 * height * 1.02 / 1000)


@given(st.floats(15, 30))
def test_even_bars_are_at_least_as_thick_as_asked_for(thickness):
    cut = cut_yield(LOAF, 60, CutPlan("slices", thickness, even=True))

    assert cut.bar_size_mm[0] >= thickness - 1e-9
    assert cut.leftover_mm == 0


@given(st.floats(80, 160))
def test_the_thickness_for_a_mass_gives_that_mass(mass):
    plan = CutPlan("slices", thickness_for_mass(LOAF, 60, mass, 1.03, CutPlan("slices")))

    assert cut_yield(LOAF, 60, plan, 1.03).bar_mass_g == pytest.approx(mass)


def test_the_thickness_of_rounds_comes_from_the_circle():
    tube = Mould("cylinder", length_mm=250, diameter_mm=76)

    assert thickness_for_mass(tube, 250, 116.8, 1.03, CutPlan("rounds")) == pytest.approx(25, abs=0.01)


def test_kerf_takes_its_part():
    assert pieces_along(100, 24, kerf_mm=2).count == 3
    assert pieces_along(102, 24, kerf_mm=2).count == 4
    assert pieces_along(100, 25).count == 4


def test_cavities_are_bars_already():
    cut = cut_yield(Mould("cavities", cavities=6, cavity_ml=100), 0, CutPlan("cavities"), 1.02)

    assert (cut.count, cut.leftover_g) == (6, 0)
    assert cut.bar_mass_g == pytest.approx(102)


def test_half_full_cavities_give_half_bars():
    cut = cut_yield(Mould("cavities", cavities=6, cavity_ml=100, height_mm=30), 15, CutPlan("cavities"), 1.0)

    assert cut.bar_mass_g == pytest.approx(50)


def test_the_sentence_counts_and_weighs():
    cut = cut_yield(LOAF, 64, CutPlan("slices", 25, trim_mm=3), 1330 / 1290.24)

    assert cut.sentence == "9 bars of 25 × 84 × 64 mm, 139 g each before drying. 83 g of trimmings."


@pytest.mark.parametrize(
    ("mould", "plan"),
    [
        (LOAF, CutPlan("rounds", 25)),
        (LOAF, CutPlan("cavities")),
        (Mould("cylinder", length_mm=250, diameter_mm=76), CutPlan("slices", 25)),
        (Mould("cavities", cavities=6, cavity_ml=100), CutPlan("slices", 25)),
    ],
)
def test_a_cut_that_the_mould_does_not_have_is_refused(mould, plan):
    with pytest.raises(OutOfRange, match="Choose"):
        cut_yield(mould, 60, plan)


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        (CutPlan("slices", 300), "Cut thinner"),
        (CutPlan("slices", 25, trim_mm=130), "Trim less"),
        (CutPlan("slices", -1), "cannot be less"),
        (CutPlan("slices", 25, kerf_mm=-1), "cannot be less"),
    ],
)
def test_a_plan_that_gives_no_bar_is_refused(plan, says):
    with pytest.raises(OutOfRange, match=says):
        cut_yield(LOAF, 60, plan)


def test_cavities_above_their_rim_are_refused():
    with pytest.raises(OutOfRange, match="rim"):
        cut_yield(Mould("cavities", cavities=6, cavity_ml=100, height_mm=30), 35, CutPlan("cavities"))


def test_cavities_have_no_thickness_to_choose():
    with pytest.raises(OutOfRange, match="nothing to cut"):
        thickness_for_mass(Mould("cavities", cavities=6, cavity_ml=100), 0, 100, 1, CutPlan("cavities"))


def test_one_wire_sets_no_thickness():
    with pytest.raises(OutOfRange, match="two wires"):
        wires_along(240, 1, 25)


# Worked by hand: 240 mm less 3 mm off each end is 234 mm, nine times 26 mm; 26 × 84 × 64 mm at 1.0308 g/ml.
def test_an_even_share_is_what_the_worked_example_calls_even():
    made = cut_into(LOAF, 64, CutPlan("slices", trim_mm=3), 9, 1.0308)

    assert made.count == 9
    assert made.bar_size_mm[0] == pytest.approx(26.0)
    assert made.bar_mass_g == pytest.approx(144.1, abs=0.1)


@given(st.integers(1, 30), st.floats(20, 300))
def test_what_is_poured_for_bars_gives_those_bars(bars, bar_g):
    plan = CutPlan("slices", trim_mm=3)
    height = mass_to_pour(LOAF, bars * bar_g, plan, 1.03) * 1000 / (LOAF.floor_mm2 * 1.03)

    assert cut_into(LOAF, height, plan, bars, 1.03).bar_mass_g == pytest.approx(bar_g)


def test_a_share_that_a_cavity_cannot_hold_is_refused():
    with pytest.raises(OutOfRange, match="more than a cavity"):
        cast_into(Mould("cavities", cavities=6, cavity_ml=100), 500, 4)


def test_cavities_are_not_cut():
    with pytest.raises(OutOfRange, match="nothing to cut"):
        cut_into(Mould("cavities", cavities=6, cavity_ml=100), 30, CutPlan("cavities"), 4, 1.03)
