"""The start of a lye, its window and its trace, against the worked table of peaks, printed curves and trade advice."""

import numpy as np
import pytest

from soapbench.science.cooling import Reading, curve_until, fit, prior_for
from soapbench.science.cooling_window import Window, ways_into_window
from soapbench.science.false_trace import rest_result
from soapbench.science.lye_start import hottest_allowed, lye_start, start_for_peak
from tests.published.cooling_data import CONTAINERS


# Peaks without loss from 20 C by strength, from the balance with Olsson's enthalpies, worked out apart from this code.
@pytest.mark.parametrize(("w", "peak"), [(0.28, 99), (0.33, 108), (0.38, 114)])
def test_the_warmest_start_turns_the_worked_table_round(w, peak):
    assert start_for_peak(1000 * w, 1000 - 1000 * w, peak) == pytest.approx(20, abs=0.8)


# The same table's boiling points: 120.5 C for 33 %, 130.1 C for 40 %.
@pytest.mark.parametrize(("w", "boils"), [(0.33, 120.5), (0.40, 130.1)])
def test_a_lye_is_kept_five_kelvin_under_the_worked_boiling_point(w, boils):
    assert hottest_allowed(w) == pytest.approx(boils - 5, abs=0.1)
    assert hottest_allowed(w, jug_c=80) == 80


# The same table: half of the water as ice holds a 33 % lye at 66 C, so a jug that stands 66 C asks for half.
def test_a_jug_that_stands_sixty_six_degrees_asks_for_half_of_the_water_as_ice():
    start = lye_start(330, 670, 20, 1, jug_c=66.6)

    assert start.only_ice
    assert start.ice_g == pytest.approx(335, abs=10)


# A. Lobanov 2017, container 1: the band told after half an hour holds all that was printed of the next three quarters.
def test_the_band_of_the_curve_holds_the_rest_of_a_printed_run():
    early = [Reading(*point) for point in CONTAINERS[1] if point[0] <= 31]
    rows = np.array(curve_until(fit(early, 23, prior_for(1.05), room_measured=False), 80, points=61))

    for minute, celsius in CONTAINERS[1]:
        if minute > 31:
            assert np.interp(minute, rows[:, 0], rows[:, 1]) <= celsius <= np.interp(minute, rows[:, 0], rows[:, 3])


# Trade texts: fats clear before the lye, warmed gently; a lye that is cold may go into warm, clear fats; 38 to 49 C.
def test_the_ways_into_a_window_are_those_of_the_trade():
    missed = ways_into_window(Window(None, None, "", ok=False), 30, 33, 38, 49)
    hot = ways_into_window(Window(None, None, "", ok=False), 60, 45, 38, 49)

    assert [way.code for way in missed] == ["warm-fats", "warm-lye", "cool-lye"]
    assert [way.code for way in hot] == ["bath-lye"]


# Bench-error study, row 7: two minutes of rest show no film of oil on a true trace; thicker while it cools is false.
@pytest.mark.parametrize(
    ("film", "thickens", "true"),
    [(False, False, True), (True, False, False), (False, True, False), (True, True, False)],
)
def test_the_rest_test_judges_as_the_study_does(film, thickens, true):
    assert rest_result(film, thickens, 45).is_true is true
