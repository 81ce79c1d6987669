import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.science.cure import (
    Weighed,
    day_loss_below,
    expected_mass,
    fit_drying,
    label_mass_g,
    loss_per_week,
    settled,
    water_at_pour,
    water_left,
)
from soapbench.science.drying import day_for_loss, mass_after
from soapbench.science.errors import OutOfRange

DAYS = (0, 7, 14, 21, 28)


def weighings(days=DAYS, start=130.0, final=110.0, tau=28.0, n=0.8):
    return [Weighed(day, mass_after(day, start, final, tau, n)) for day in days]


@given(st.floats(5, 80), st.floats(0.4, 1), st.floats(0, 300), st.floats(0.1, 30))
def test_a_drying_bar_only_loses(tau, n, day, more):
    assert mass_after(day + more, 130, 110, tau, n) <= mass_after(day, 130, 110, tau, n)
    assert mass_after(day, 130, 110, tau, n) >= 110


@given(st.floats(5, 60), st.floats(0.5, 1), st.floats(0.2, 2))
def test_from_the_day_told_the_week_loses_no_more_than_the_threshold(tau, n, threshold):
    day = day_for_loss(130, 110, tau, n, threshold)

    loss = mass_after(day, 130, 110, tau, n) - mass_after(day + 7, 130, 110, tau, n)
    assert loss <= threshold + 1e-6


def test_a_loss_that_takes_years_is_refused():
    with pytest.raises(OutOfRange, match="two years"):
        day_for_loss(130, 110, 2000, 0.5, 0.001)


@pytest.mark.parametrize("n", [0, 1.2, float("nan")])
def test_an_exponent_that_no_bar_has_is_refused(n):
    with pytest.raises(OutOfRange):
        day_for_loss(130, 110, 28, n, 1)


@given(st.floats(0.1, 0.3), st.floats(0, 1))
def test_water_left_closes_the_balance(fresh, share):
    now = 100 * (1 - fresh * share)

    left = water_left(fresh, 100, now)
    assert left * now + 100 * (1 - fresh) == pytest.approx(now)


def test_water_left_is_never_negative():
    assert water_left(0.2, 100, 70) == 0


def test_a_bar_heavier_than_fresh_is_refused():
    with pytest.raises(OutOfRange, match="same bar"):
        water_left(0.2, 100, 101)
    with pytest.raises(OutOfRange, match="same bar"):
        fit_drying([Weighed(0, 100), Weighed(7, 110)], 0.2)


def test_more_water_than_batter_is_refused():
    with pytest.raises(OutOfRange, match="more water than batter"):
        water_at_pour(1500, 1432)


def test_one_weighing_cannot_say_the_day_yet():
    cure = fit_drying([Weighed(0, 130)], 0.2)

    assert day_loss_below(cure) is None
    assert "not yet" in cure.sentence


def synthetic_cures(count):
    """Return weighings whose truth comes from the priors that the fit states."""
    dice = random.Random(7)
    for _ in range(count):
        tau = 30 * 2.718281828 ** dice.gauss(0, 0.7)
        n = min(1.0, max(0.35, dice.gauss(0.8, 0.15)))
        final = 130 * 0.8 * (1 + max(0.0, dice.gauss(0.05, 0.03)))
        points = [Weighed(d, mass_after(d, 130, final, tau, n) + dice.gauss(0, 0.13)) for d in DAYS]
        yield points, mass_after(56, 130, final, tau, n)


def test_the_90_per_cent_band_holds_the_true_mass_about_nine_times_in_ten():
    runs = list(synthetic_cures(120))

    held = sum(expected_mass(fit_drying(points, 0.2, 0.1), 56).contains(truth) for points, truth in runs)

    # Binomial, 120 runs at 0.9: 108 ± 3.3.
    assert 98 <= held <= 119


def test_the_day_and_its_band_hold_the_truth():
    band = day_loss_below(fit_drying(weighings(), 0.2, 0.1), 0.65)

    assert band.contains(day_for_loss(130, 110, 28, 0.8, 0.65))


@settings(max_examples=10)
@given(st.floats(15, 50))
def test_more_weighings_make_the_mass_at_the_sale_surer(tau):
    few, many = (expected_mass(fit_drying(weighings(DAYS[:count], tau=tau), 0.2, 0.1), 42) for count in (2, 5))

    assert many.width < few.width


def test_a_smaller_threshold_comes_later():
    cure = fit_drying(weighings(), 0.2, 0.1)
    days = [day_loss_below(cure, threshold).central for threshold in (2, 1, 0.5)]

    assert days == sorted(days)


def test_the_usual_threshold_is_half_a_per_cent_of_the_fresh_bar():
    cure = fit_drying(weighings(), 0.2, 0.1)

    assert day_loss_below(cure) == day_loss_below(cure, 0.65)


def test_the_loss_in_a_week_is_the_difference_of_two_masses():
    cure = fit_drying(weighings(), 0.2, 0.1)

    difference = expected_mass(cure, 28).central - expected_mass(cure, 35).central
    assert loss_per_week(cure, 28).central == pytest.approx(difference, abs=0.1)


def test_the_mass_for_a_label_is_whole_grams_under_the_expected_mass():
    cure = fit_drying(weighings(), 0.2, 0.1)
    expected = expected_mass(cure, 42)

    label = label_mass_g(cure, 42)
    assert isinstance(label, int)
    assert expected.low - 1 < label <= expected.low


def test_days_may_be_counted_from_the_pour():
    cure = fit_drying([Weighed(w.day + 2, w.mass_g) for w in weighings()], 0.2, 0.1)
    from_the_cut = fit_drying(weighings(), 0.2, 0.1)

    assert day_loss_below(cure).central == pytest.approx(day_loss_below(from_the_cut).central + 2)
    assert expected_mass(cure, 44).central == pytest.approx(expected_mass(from_the_cut, 42).central)


def test_a_weighing_of_another_bar_is_found_and_hardly_counts():
    points = weighings()
    truth = expected_mass(fit_drying(points, 0.2, 0.1), 42).central
    points[2] = Weighed(14, 112.0)

    cure = fit_drying(points, 0.2, 0.1)

    assert cure.odd_weighings == (2,)
    assert cure.weighings_used == 4
    assert expected_mass(cure, 42).central == pytest.approx(truth, abs=0.8)


def test_a_thick_bar_is_expected_to_dry_more_slowly():
    thin, thick = (fit_drying([Weighed(0, 130)], 0.2, thickness_mm=t).tau_days.central for t in (25, 40))

    assert thick > thin


@pytest.mark.parametrize(
    ("points", "water"),
    [([], 0.2), ([Weighed(0, 0)], 0.2), ([Weighed(-1, 100)], 0.2), ([Weighed(0, 100)], 1.2)],
)
def test_an_impossible_cure_is_refused(points, water):
    with pytest.raises(OutOfRange):
        fit_drying(points, water)


def test_a_day_before_the_first_weighing_is_refused():
    with pytest.raises(OutOfRange):
        expected_mass(fit_drying([Weighed(3, 100)], 0.2), 1)


def test_bars_that_lose_alike_have_not_settled():
    result = settled([100, 101, 99.5], [99.4, 100.4, 98.9])

    assert not result.ok
    assert "still change" in result.sentence


def test_bars_that_differ_both_ways_have_settled():
    assert settled([100, 101, 99.5, 100], [100.1, 100.9, 99.6, 99.9]).ok


@pytest.mark.parametrize(("before", "after"), [([100, 101], [99, 100]), ([100, 101, 99], [100, 101])])
def test_too_few_bars_cannot_be_compared(before, after):
    with pytest.raises(OutOfRange, match="[Ww]eigh"):
        settled(before, after)
