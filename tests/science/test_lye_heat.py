import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.lye import heat_of_solution, ice_for_peak, peak_temperature, start_warning

strengths = st.floats(0.15, 0.45)
starts = st.floats(2, 25)


@given(strengths, starts, st.floats(0.1, 5))
def test_a_warmer_start_ends_hotter(w, start, more):
    cool, warm = (peak_temperature(1000 * w, 1000 - 1000 * w, t).no_loss_c for t in (start, start + more))

    assert warm > cool


@given(strengths, starts, st.floats(1, 10))
def test_the_size_of_the_batch_does_not_change_the_peak(w, start, times):
    small = peak_temperature(100 * w, 100 - 100 * w, start).no_loss_c
    large = peak_temperature(times * 100 * w, times * (100 - 100 * w), start).no_loss_c

    assert large == pytest.approx(small, abs=1e-6)


@given(strengths, starts, st.floats(0, 0.9))
def test_more_ice_keeps_it_cooler(w, start, share):
    water = 1000 - 1000 * w
    some, more = (peak_temperature(1000 * w, water, start, ice_g=water * s).no_loss_c for s in (share, share + 0.1))

    assert more <= some


@given(strengths, starts, st.floats(10, 500))
def test_a_jug_takes_heat_but_never_cools_below_the_start(w, start, jug_g):
    peak = peak_temperature(1000 * w, 1000 - 1000 * w, start, jug_g=jug_g)

    assert start < peak.with_jug_c < peak.no_loss_c


@given(strengths, starts)
def test_what_is_usually_read_lies_between_the_start_and_the_peak(w, start):
    peak = peak_temperature(1000 * w, 1000 - 1000 * w, start, jug_g=150)

    assert start <= peak.usual_low_c <= peak.usual_high_c <= peak.with_jug_c


def test_impure_alkali_warms_less():
    pure, impure = (peak_temperature(300, 700, 20, purity=p).no_loss_c for p in (1, 0.95))

    assert impure < pure


def test_strong_lye_gives_less_heat_for_each_mole():
    heats = [heat_of_solution("NaOH", w) for w in (0.1, 0.2, 0.3, 0.4, 0.5)]

    assert heats == sorted(heats, reverse=True)


def test_the_sentence_tells_the_peak_and_what_is_usual():
    peak = peak_temperature(144, 288, 20, jug_g=100)

    assert peak.sentence == "The lye can rise to about 99 °C, usually 74 to 94 °C."


def test_the_peak_of_koh_is_told_as_an_upper_bound():
    assert "up to" in peak_temperature(144, 288, 20, solute="KOH", purity=0.9).sentence


def test_a_lye_that_could_boil_is_said_to():
    peak = peak_temperature(330, 670, 40)

    assert peak.boils
    assert "It could boil" in peak.sentence


def test_a_lye_kept_too_cold_may_not_dissolve():
    peak = peak_temperature(280, 720, 5, ice_g=720)

    assert peak.too_cold
    assert "undissolved" in peak.sentence


@given(strengths, st.floats(5, 25))
def test_the_ice_asked_for_keeps_the_lye_under_the_limit(w, start):
    water = 1000 - 1000 * w
    ice = ice_for_peak(1000 * w, water, start, 70)

    assert 0 <= ice <= water
    assert peak_temperature(1000 * w, water, start, ice_g=ice).no_loss_c <= 70 + 1e-6


def test_a_weak_lye_needs_no_ice():
    assert ice_for_peak(50, 950, 20, 60) == 0


def test_a_limit_that_no_ice_can_keep_is_refused():
    with pytest.raises(OutOfRange, match="Even with all water frozen"):
        ice_for_peak(450, 550, 20, 10)


def test_cold_water_starts_without_a_word():
    assert start_warning(20) is None
    assert start_warning(25) is None


def test_warm_water_is_warned_about():
    warning = start_warning(26)

    assert warning is not None
    assert not warning.stops


def test_water_above_30_degrees_stops_the_start():
    warning = start_warning(30.5)

    assert warning is not None
    assert warning.stops
    assert "Cool it below 25 °C" in warning.sentence


@pytest.mark.parametrize("start", [-40, 212, float("nan")])
def test_a_start_that_no_water_has_is_refused(start):
    with pytest.raises(OutOfRange):
        start_warning(start)


@pytest.mark.parametrize(
    "change",
    [
        {"alkali_g": 0},
        {"water_g": 0},
        {"water_g": 100},
        {"ice_g": 701},
        {"ice_c": 5},
        {"jug_g": -1},
        {"purity": 0},
        {"purity": 1.1},
        {"start_c": 150},
        {"jug_material": "cardboard"},
    ],
)
def test_an_impossible_lye_is_refused_with_a_sentence(change):
    given = {"alkali_g": 300, "water_g": 700, "start_c": 20} | change

    with pytest.raises(OutOfRange) as refused:
        peak_temperature(**given)
    assert str(refused.value)[-1] in ".?"
