import numpy as np
import pytest

from soapbench.science.cure import (
    Weighed,
    day_loss_below,
    expected_mass,
    fit_drying,
    label_mass_g,
    loss_per_week,
    water_at_pour,
    water_left,
)
from soapbench.science.drying import T_95, day_for_loss, mass_after, settled

# French page "Comment mesurer l'humidité ?" (method and units of K. M. Dunn): a bar began with 201 ppt of moisture and
# had 89 ppt 60 days later. That is 0.877 of its fresh mass.
MOIST, LATER, DAYS, RATIO = 0.201, 0.089, 60, 0.877


def test_water_left_equals_the_printed_moisture():
    assert water_left(MOIST, 100, 100 * RATIO) == pytest.approx(LATER, abs=0.0005)


def test_the_printed_first_moisture_is_that_of_a_batter_with_33_per_cent_lye():
    assert water_at_pour(288, 1000 + 432) == pytest.approx(MOIST, abs=0.0005)


# The rate that Newton's model needs to pass through the two printed points, for three final moistures per dry mass.
@pytest.mark.parametrize(("final", "rate"), [(0.03, 0.0198), (0.05, 0.0240), (0.07, 0.0313)])
def test_newtons_model_passes_through_the_printed_points(final, rate):
    dry = 1 - MOIST

    mass = mass_after(DAYS, 1, dry * (1 + final), 1 / rate)

    assert mass == pytest.approx(RATIO, abs=0.0005)


# W0 = 100 g, D = 79.9 g, Xe = 0.05, k = 0.024 per day, closed form of Newton's model worked out apart from this code.
@pytest.mark.parametrize(("threshold", "day"), [(1.0, 38.0), (0.5, 66.9), (0.25, 95.7)])
def test_day_of_a_small_loss_equals_the_closed_form(threshold, day):
    assert day_for_loss(100, 79.9 * 1.05, 1 / 0.024, 1, threshold) == pytest.approx(day, abs=0.1)


def test_the_fit_through_the_two_printed_points_holds_them_and_leaves_the_end_open():
    cure = fit_drying([Weighed(0, 1000), Weighed(DAYS, 1000 * RATIO)], MOIST, resolution_g=0.1)

    assert expected_mass(cure, DAYS).contains(1000 * RATIO)
    assert cure.final_g.width > 20


# The printed bar has 877 g of a kilogram after 60 days: a label for that day promises no more, and not much less.
def test_the_mass_for_a_label_is_one_that_the_printed_bar_still_had():
    cure = fit_drying([Weighed(0, 1000), Weighed(DAYS, 1000 * RATIO)], MOIST, resolution_g=0.1)

    assert 1000 * RATIO - 10 <= label_mass_g(cure, DAYS) <= 1000 * RATIO


# Closed form of Newton's model, worked out apart from this code: with k = 0.024 a day the loss falls under 1 g a week
# on day 38. Weighings every third day on that very curve.
def test_the_loss_in_a_week_equals_the_closed_form():
    days = range(0, 91, 3)
    weighed = [Weighed(day, mass_after(day, 100, 79.9 * 1.05, 1 / 0.024, 1)) for day in days]
    cure = fit_drying(weighed, MOIST, resolution_g=0.01)

    assert loss_per_week(cure, 38).contains(1.0)
    assert loss_per_week(cure, 38).central == pytest.approx(1.0, rel=0.05)


# One maker: 12 % in 6 to 8 weeks; hobby rule: 10 to 15 %.
@pytest.mark.parametrize("day", [42, 56])
def test_one_weighing_expects_what_makers_report(day):
    assert 10 <= 100 - expected_mass(fit_drying([Weighed(0, 100)], MOIST), day).central <= 15


def test_students_points_equal_the_reference_library():
    stats = pytest.importorskip("scipy.stats")

    assert pytest.approx([stats.t.ppf(0.975, n + 1) for n in range(len(T_95))], abs=0.0006) == list(T_95)


def test_settled_equals_the_paired_test_of_the_reference_library():
    stats = pytest.importorskip("scipy.stats")
    before, after = [121.4, 119.8, 120.6, 122.0, 118.9], [121.1, 119.9, 120.2, 121.8, 118.7]

    result = settled(before, after)

    band = stats.ttest_rel(before, after).confidence_interval(0.95)
    assert (result.loss_g.low, result.loss_g.high) == pytest.approx((band.low, band.high), abs=1e-3)
    assert result.ok == (stats.ttest_rel(before, after).pvalue > 0.05)


def test_the_fit_agrees_with_least_squares_of_the_reference_library_when_the_data_are_plenty():
    optimize = pytest.importorskip("scipy.optimize")
    days = list(range(0, 85, 7))
    masses = [mass_after(day, 130, 110, 28, 0.8) for day in days]

    cure = fit_drying([Weighed(*pair) for pair in zip(days, masses, strict=True)], 0.2, resolution_g=0.01)
    final, tau, n = optimize.curve_fit(
        lambda t, final, tau, n: final + (130 - final) * np.exp(-((t / tau) ** n)),
        days, masses, p0=(112, 25, 0.9),
    )[0]  # fmt: skip

    assert cure.final_g.contains(final)
    assert cure.tau_days.contains(tau)
    assert cure.exponent.contains(n)
    assert day_loss_below(cure, 1.0).contains(day_for_loss(130, final, tau, n, 1.0))
