"""Both pots, what a jug teaches and which reading cannot be, against printed cooling curves."""

import numpy as np
import pytest

from soapbench.science.cooling import (
    Reading,
    below_window_advice,
    both_in_window,
    check_temperature,
    fit,
    learn,
    minutes_to,
    pot_heat_capacity,
    prior_for,
    rate_of,
    reading_doubt,
)
from soapbench.science.cooling_law import LearntRate, Prior, learn_rate
from soapbench.science.cooling_window import PotTimes, check_window, window
from soapbench.science.interval import Interval
from tests.published.cooling_data import BEAKER, BLACK_COFFEE, COFFEE, COFFEE_F, COFFEE_ROOM, CONTAINERS, MUG

PRIOR = prior_for(1.05)
ROOM = 23  # of A. Lobanov's containers; not recorded, so a guess


def readings(points):
    return [Reading(*point) for point in points]


def when(points, celsius):
    """Return when a printed curve passes a temperature, by straight lines between its points."""
    minutes, temperatures = zip(*points, strict=True)
    return float(np.interp(-celsius, [-t for t in temperatures], minutes))


# A. Lobanov 2017: containers 1 and 2 cooled side by side, 1 the slower. Both are between 50 and 66 C from 40.8 min on,
# when 1 comes down to 66, until 44.6 min, when 2 leaves 50. Told from the readings of the first half hour only.
def test_two_printed_containers_are_in_one_window_when_they_really_were():
    lye = fit(readings([p for p in CONTAINERS[2] if p[0] <= 32]), ROOM, PRIOR, room_measured=False)
    fats = fit(readings([p for p in CONTAINERS[1] if p[0] <= 32]), ROOM, PRIOR, room_measured=False)
    opens, closes = when(CONTAINERS[1], 66), when(CONTAINERS[2], 50)

    found = both_in_window(lye, fats, 50, 66)

    assert (opens, closes) == (pytest.approx(40.8, abs=0.05), pytest.approx(44.6, abs=0.05))
    assert found.ok
    assert found.opens_band.contains(opens)
    assert found.closes == pytest.approx(closes, abs=3)


# The same pair has no time in common between 60 and 70 C: 2 leaves 60 at 25 min, 1 comes down to 70 at 31 min.
def test_the_same_containers_miss_a_narrower_window_and_the_quick_one_is_named():
    quick, slow = when(CONTAINERS[2], 60), when(CONTAINERS[1], 70)

    found = window(
        PotTimes("lye", Interval.exact(when(CONTAINERS[2], 70)), Interval.exact(quick)),
        PotTimes("fats", Interval.exact(slow), Interval.exact(when(CONTAINERS[1], 60))),
        60,
        70,
    )

    assert quick < slow
    assert (found.ok, found.first_out) == (False, "lye")
    assert "Keep the lye warm" in found.sentence


# Every printed curve is of a pot left alone: no reading of it may be doubted.
@pytest.mark.parametrize(
    ("points", "room"),
    [(BLACK_COFFEE, 17), (BEAKER, 24), (MUG, 24), (CONTAINERS[1], ROOM), (CONTAINERS[4], ROOM), (COFFEE, COFFEE_ROOM)],
)
def test_no_printed_reading_is_doubted(points, room):
    taken = readings(points)

    assert [reading_doubt(taken[:i], taken[i], room) for i in range(len(taken))] == [None] * len(taken)


# MathBits prints its coffee in F: 179.5 is 81.9 C.
def test_a_printed_reading_in_fahrenheit_is_recognised():
    assert "82 °C" in reading_doubt([], Reading(*COFFEE_F[0]), COFFEE_ROOM)


def test_every_printed_temperature_is_one_that_a_pot_can_have():
    for points in (BLACK_COFFEE, BEAKER, MUG, COFFEE):
        for _, celsius in points:
            check_temperature(celsius)


# Water has 4.18 kJ/(kg K) (CRC Handbook): a quarter-litre mug has 1.05 kJ/K, and 150 g of polypropylene (1.9, from
# memory) add 0.285 kJ/K.
def test_the_heat_capacity_of_a_mug_of_water():
    assert pot_heat_capacity(250, 4.18) == pytest.approx(1.045)
    assert pot_heat_capacity(250, 4.18, 150, "polypropylene") == pytest.approx(1.045 + 0.285)


# What one run of container 1 teaches foretells the next run of the same container from its first reading alone; the
# prior of an unknown pot does not come as near.
def test_what_a_printed_run_teaches_foretells_the_next_one():
    points = CONTAINERS[1]
    learnt = learn(None, fit(readings(points), ROOM, PRIOR, room_measured=False), 1.05)
    first, truth = readings(points[1:2]), when(points, 60)

    knowing = minutes_to(fit(first, ROOM, prior_for(1.05, learnt), room_measured=False), 60)
    guessing = minutes_to(fit(first, ROOM, PRIOR, room_measured=False), 60)

    assert knowing.contains(truth)
    assert knowing.high / knowing.low < guessing.high / guessing.low / 2
    assert abs(knowing.central - truth) < abs(guessing.central - truth)


# Gould and Tobochnik's black coffee with the exponent free, by least squares of the reference library.
def test_the_rate_of_the_black_coffee_equals_that_of_the_reference_library():
    optimize = pytest.importorskip("scipy.optimize")
    minutes, celsius = np.array([point for point in BLACK_COFFEE if point[0] >= 3]).T

    def cooled(t, k, q, start):
        return 17 + (start**-q + q * k * (t - minutes[0]) / 30**q) ** (-1 / q)

    (k, _, _), _ = optimize.curve_fit(cooled, minutes, celsius, p0=(0.02, 0.5, 57))
    mean, spread = rate_of(fit(readings(BLACK_COFFEE), 17, PRIOR))

    assert abs(mean - np.log(k)) < 2 * spread
    assert np.exp(mean) == pytest.approx(k, rel=0.1)


# Mean weighted by precision, against numpy's own average and the sum of the two precisions.
def test_learning_is_the_mean_weighted_by_precision():
    learnt = learn_rate(LearntRate(-3.6, 0.2, 2), -3.4, 0.3, 1.0)
    each = np.array([0.2, np.hypot(0.3, 0.15)])

    assert learnt.mean == pytest.approx(np.average([-3.6, -3.4], weights=each**-2.0))
    assert learnt.sd == pytest.approx(np.sum(each**-2.0) ** -0.5)


# A mug that is eight times as large has four times the area for eight times the heat: half the rate (geometry).
def test_the_rate_goes_with_area_to_volume():
    small, large = prior_for(1.05), prior_for(8 * 1.05)

    assert isinstance(small, Prior)
    assert np.exp(large.ln_k_mean - small.ln_k_mean) == pytest.approx(0.5)


# Trade texts mix between 38 and 49 C, the fats clear: fats at 30 C are warmed, at 43 C nothing is said.
def test_a_pot_below_the_usual_window_gets_advice():
    check_window(38, 49)

    assert "until they are clear" in below_window_advice("fats", 30, 38, 49)
    assert below_window_advice("lye", 43, 38, 49) is None
