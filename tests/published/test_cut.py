import pytest

from soapbench.science.cut import CutPlan, cut_yield, thickness_for_mass, wires_along
from soapbench.science.mould import Mould, fill_height_mm

# Worked by hand: a loaf of 240 × 84 × 64 mm, 1330 g, 1290.24 cm3, 1.0308 g/cm3.
LOAF = Mould("box", 240, 84, 64)
DENSITY = 1330 / 1290.24


def test_slices_of_the_worked_loaf():
    cut = cut_yield(LOAF, 64, CutPlan("slices", 25, trim_mm=3), DENSITY)

    assert (cut.count, cut.leftover_mm) == (9, 9)
    assert cut.bar_mass_g == pytest.approx(138.5, abs=0.05)
    assert cut.leftover_g == pytest.approx(83, abs=0.2)


def test_even_slices_of_the_worked_loaf():
    cut = cut_yield(LOAF, 64, CutPlan("slices", 25, trim_mm=3, even=True), DENSITY)

    assert cut.bar_size_mm[0] == pytest.approx(26.0)
    assert cut.bar_mass_g == pytest.approx(144.1, abs=0.05)


def test_thickness_of_a_120_g_slice():
    thickness = thickness_for_mass(LOAF, 64, 120, DENSITY, CutPlan("slices", trim_mm=3))

    assert thickness == pytest.approx(21.65, abs=0.005)


def test_blocks_on_their_sides_of_the_worked_loaf():
    plan = CutPlan("blocks on their sides", 28, 3, length_mm=58, width_mm=80, trim_side_mm=2, trim_top_mm=4, even=True)

    cut = cut_yield(LOAF, 64, plan, DENSITY)

    assert cut.count == 8
    assert cut.bar_size_mm == pytest.approx((58.5, 80, 30.0))
    assert cut.bar_mass_g == pytest.approx(144.7, abs=0.05)


def test_planks_of_the_worked_loaf():
    plan = CutPlan("long planks", 26, 3, length_mm=78, height_mm=60, trim_side_mm=2, trim_top_mm=4, even=True)

    cut = cut_yield(LOAF, 64, plan, DENSITY)

    assert cut.count == 9
    assert cut.bar_size_mm == pytest.approx((78, 26.67, 60), abs=0.005)
    assert cut.bar_mass_g == pytest.approx(128.6, abs=0.06)


def test_ten_wires_fit_the_worked_loaf_and_eleven_do_not():
    ten = wires_along(240, 10, 25)

    assert (ten.fits, ten.full_bars, ten.end_piece_mm) == (True, 9, 7.5)
    assert not wires_along(240, 11, 25).fits


def test_bars_of_the_worked_slab():
    plan = CutPlan("blocks on their sides", trim_mm=3, length_mm=58, width_mm=72, trim_side_mm=3, even=True)

    cut = cut_yield(Mould("slab", 300, 225, 30), 30, plan, density=1)

    assert cut.count == 15
    assert cut.bar_size_mm == pytest.approx((58.8, 73.0, 30))
    assert cut.bar_mass_g == pytest.approx(128.8, abs=0.05)


def test_rounds_of_the_worked_cylinder():
    cut = cut_yield(Mould("cylinder", length_mm=250, diameter_mm=76), 250, CutPlan("rounds", 25, 3), 1.03)

    assert (cut.count, cut.leftover_mm) == (9, 19)
    assert cut.even_size_mm[-1] == pytest.approx(27.11, abs=0.005)
    assert cut.bar_mass_g == pytest.approx(116.8, abs=0.05)
    assert cut.bar_mass_g / 1.03 == pytest.approx(113.4, abs=0.05)


def test_fill_height_of_the_worked_loaf():
    assert fill_height_mm(LOAF, 1330 / 1.03) == pytest.approx(64.05, abs=0.005)
