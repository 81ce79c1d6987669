"""How working times change and what to plan with, against printed speeds and the normal distribution."""

import math

import pytest

from soapbench.science.interval import Interval
from soapbench.science.scent_time import (
    GUESS_SD,
    RECORD_SD,
    TRACE_GUESS,
    at_temperature,
    cooler_by_k,
    learnt_minutes,
    planning_minutes,
    usual_trace_minutes,
    working_minutes,
)


# K. M. Dunn, Waiting for a Cure, 2018: at 50 C a soap was done in 8 h (extrapolated), at 60 C in 1 to 2 h. So 10 K less
# gave four times the time or more; the doubling that is promised here is on the careful side.
def test_ten_kelvin_promise_less_time_than_was_measured():
    assert cooler_by_k(2) == pytest.approx(10)
    assert cooler_by_k(8 / 2) <= 20
    assert at_temperature(2 * 60, 60, 50) <= 8 * 60


# Arrhenius with 50 kJ/mol, the textbook case of "a doubling for each 10 K" near 25 C: a factor of 1.9.
def test_a_doubling_is_what_arrhenius_gives_for_an_everyday_reaction():
    arrhenius = math.exp(50_000 / 8.314 * (1 / 298.15 - 1 / 308.15))

    assert at_temperature(10, 35, 25) / 10 == pytest.approx(arrhenius, rel=0.06)


# A band of two standard deviations: half way to its low end is one, which the normal distribution passes five times in
# six.
def test_five_times_in_six_there_is_more_time_than_planned():
    stats = pytest.importorskip("scipy.stats")
    working = working_minutes("calm", (18, 22))
    sd = math.log(working.high / working.central) / 2

    passed = stats.norm.sf(math.log(planning_minutes(working)), math.log(working.central), sd)

    assert passed == pytest.approx(5 / 6, abs=0.01)
    assert planning_minutes(Interval(4, 9, 20)) == 6


# Normal-normal updating against a brute posterior on a grid of numpy's, no formula shared.
def test_learnt_times_equal_a_posterior_on_a_grid():
    np = pytest.importorskip("numpy")
    grid = np.linspace(math.log(0.5), math.log(100), 6001)
    weight = np.exp(-0.5 * ((grid - math.log(10)) / GUESS_SD.value) ** 2)
    for minutes in (14.0, 17.0):
        weight = weight * np.exp(-0.5 * ((math.log(minutes) - grid) / RECORD_SD.value) ** 2)
    mean = np.average(grid, weights=weight)

    assert learnt_minutes(10, (14.0, 17.0)).central == pytest.approx(math.exp(mean), rel=1e-4)


# Common practice: a blender takes 1 to 5 min in short bursts to the first trace, thin to thick 5 to 30 min.
def test_the_first_guess_of_a_trace_lies_among_the_usual_minutes():
    assert 1 <= usual_trace_minutes(()).central <= 30
    assert usual_trace_minutes(()).central == pytest.approx(TRACE_GUESS.value)
