"""From bars or from a mould to the grams of fats."""

import pytest

from soapbench.bars.amounts import amounts
from soapbench.bars.formula import Additive, Cut
from soapbench.bars.sizing import fats_for_bars, fats_for_mould, usable_ml, yield_of
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould, fits
from tests.bars.plain import FACTS, ONE, plain, with_additives

LOAF = Mould("box", length_mm=240, width_mm=84, height_mm=70)
CUPS = Mould("cavities", cavities=6, cavity_ml=120)


def test_a_mould_is_filled_to_three_millimetres_under_its_rim():
    fats = fats_for_mould(plain(), FACTS, LOAF, resolution_g=0.1, loss_g=0)

    assert amounts(plain(), FACTS, fats, 0.1).volume_ml == pytest.approx(24 * 8.4 * 6.7, rel=0.001)


@pytest.mark.parametrize("mould", [LOAF, CUPS])
def test_what_fills_a_mould_also_fits_it(mould):
    fats = fats_for_mould(plain(), FACTS, mould, loss_g=0)

    assert fits(mould, amounts(plain(), FACTS, fats, 1).volume_ml).ok


def test_half_a_mould_takes_half_the_fats():
    whole = fats_for_mould(plain(), FACTS, LOAF, loss_g=0)

    assert fats_for_mould(plain(), FACTS, LOAF, fill=0.5, loss_g=0) == pytest.approx(whole / 2, abs=1)


def test_additions_in_plain_grams_leave_less_room_for_fats():
    formula = with_additives(Additive("salt", 100, "grams"), portions=ONE)
    bare, salted = (fats_for_mould(one, FACTS, LOAF, resolution_g=0.1, loss_g=0) for one in (plain(), formula))

    # 100 g of salt take 100 ml; a gram of these fats makes 1.418 ml of batter.
    assert bare - salted == pytest.approx(100 / 1.418, abs=1)


def test_ten_bars_of_120_g_their_trimmings_and_15_g_in_the_pots_are_one_batter():
    formula = plain(cut=Cut("slices", 25, 3))
    fats = fats_for_bars(formula, FACTS, LOAF, 10, 120, loss_g=15)

    # 3 mm off each end of 240 mm: 234 mm of bars.
    assert amounts(formula, FACTS, fats, 0.1).batter_g == pytest.approx(1200 * 240 / 234 + 15, abs=0.5)


@pytest.mark.parametrize(("mould", "cut"), [(LOAF, Cut("slices", 25, 3)), (CUPS, Cut("cavities"))])
def test_the_bars_asked_for_come_out_in_number_and_weight(mould, cut):
    formula = plain(cut=cut)
    batch = amounts(formula, FACTS, fats_for_bars(formula, FACTS, mould, 6, 110), 0.1)

    made = yield_of(formula, batch, mould, bars=6)

    assert made.count == 6
    assert made.bar_mass_g == pytest.approx(110, rel=0.001)


def test_more_bars_than_cavities_are_refused():
    batch = amounts(plain(), FACTS, 500, 0.1)

    with pytest.raises(OutOfRange, match="6 cavities"):
        yield_of(plain(cut=Cut("cavities")), batch, CUPS, bars=7)


def test_no_bars_are_refused():
    with pytest.raises(OutOfRange, match="number of bars"):
        fats_for_bars(plain(), FACTS, LOAF, 0, 120)


def test_additions_heavier_than_the_batch_are_refused():
    formula = with_additives(Additive("salt", 500, "grams"), portions=ONE)

    with pytest.raises(OutOfRange, match="bigger batch"):
        fats_for_bars(formula, FACTS, LOAF, 1, 100)


def test_cavities_have_no_headroom():
    assert usable_ml(CUPS) == 720


def test_the_cut_tells_how_many_bars_come_out():
    formula = plain(cut=Cut("slices", 25, 3))
    batch = amounts(formula, FACTS, fats_for_mould(formula, FACTS, LOAF), 1)

    # 240 - 6 = 234 mm; nine slices of 25 mm.
    assert yield_of(formula, batch, LOAF).count == 9
