import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould, fats_to_fill, fill_height_mm, fits, pot_loss

BOX = Mould("box", 240, 84, 64)
TUBE = Mould("cylinder", diameter_mm=76, height_mm=250)
CAVITIES = Mould("cavities", cavities=6, cavity_ml=100)
sizes = st.floats(20, 500)


def test_room_of_each_shape():
    assert BOX.volume_ml == pytest.approx(1290.24)
    assert TUBE.volume_ml == pytest.approx(1134.1, abs=0.1)
    assert CAVITIES.volume_ml == 600


def test_a_cylinder_may_be_given_by_its_length():
    assert Mould("cylinder", diameter_mm=76, length_mm=250).volume_ml == TUBE.volume_ml


@given(sizes, sizes, sizes, st.floats(0, 1))
def test_filling_to_a_height_and_back(length, width, height, share):
    mould = Mould("box", length, width, height)

    assert fill_height_mm(mould, share * mould.volume_ml) == pytest.approx(share * height)


@given(st.floats(0, 3000), st.floats(1, 100))
def test_more_batter_stands_higher(volume, more):
    for mould in (BOX, TUBE):
        assert fill_height_mm(mould, volume + more) > fill_height_mm(mould, volume)


def test_cavities_fill_to_a_mean_height():
    assert fill_height_mm(Mould("cavities", cavities=6, cavity_ml=100, height_mm=30), 300) == pytest.approx(15)


def test_the_height_in_cavities_needs_their_depth():
    with pytest.raises(OutOfRange, match="depth of the cavities"):
        fill_height_mm(CAVITIES, 300)


def test_batter_with_room_to_spare_fits():
    fit = fits(BOX, 1100)

    assert fit.ok
    assert fit.sentence == "The batter stands 55 mm high and fills 85 % of the mould."


def test_batter_close_under_the_rim_is_asked_to_leave_headroom():
    fit = fits(BOX, 1250)

    assert not fit.ok
    assert fit.fill < 1
    assert "close under the rim" in fit.sentence


def test_batter_over_the_rim_does_not_fit():
    fit = fits(BOX, 1300)

    assert (fit.ok, fit.fill > 1) == (False, True)
    assert "10 ml are over the rim" in fit.sentence


def test_cavities_are_counted():
    assert fits(CAVITIES, 600).ok
    assert fits(CAVITIES, 450).sentence == "The batter fills 4 of 6 cavities."
    assert "about 1 more" in fits(CAVITIES, 650).sentence


@given(st.floats(0.1, 1), st.floats(1.2, 1.6))
def test_the_fats_asked_for_fill_that_share(share, per_gram):
    assert fats_to_fill(BOX, per_gram, share) * per_gram == pytest.approx(share * BOX.volume_ml)


@pytest.mark.parametrize(
    "mould",
    [
        Mould("box", 240, 84),
        Mould("box", 240, 0, 64),
        Mould("slab", -1, 84, 64),
        Mould("cylinder", diameter_mm=76),
        Mould("cavities", cavities=6),
    ],
)
def test_a_mould_with_a_measure_missing_is_refused(mould):
    with pytest.raises(OutOfRange, match="must be more than 0"):
        fits(mould, 100)


@pytest.mark.parametrize("fill", [0, 1.2])
def test_a_fill_that_no_mould_has_is_refused(fill):
    with pytest.raises(OutOfRange, match="fill of the mould"):
        fats_to_fill(BOX, 1.4, fill)


def test_without_records_the_loss_is_a_guess():
    assert pot_loss([]).central == 15


def test_records_draw_the_loss_to_themselves_and_narrow_it():
    one, many = (pot_loss([(1500, 1470)] * n) for n in (1, 12))

    assert 15 < one.central < many.central < 30
    assert many.width < one.width
    assert many.central == pytest.approx(30, abs=0.5)


@given(st.lists(st.floats(0, 60), max_size=10))
def test_the_loss_is_never_negative(losses):
    loss = pot_loss([(1500, 1500 - each) for each in losses])

    assert 0 <= loss.low <= loss.central <= loss.high


def test_more_poured_than_made_is_refused():
    with pytest.raises(OutOfRange, match="tare of the mould"):
        pot_loss([(1500, 1510)])
