import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.science.cooling import (
    LearntRate,
    Reading,
    fit,
    learn,
    minutes_between,
    minutes_to,
    pot_heat_capacity,
    prior_for,
    temperature_after,
)
from soapbench.science.errors import OutOfRange

PRIOR = prior_for(1.8)
ROOM = 21


def readings(minutes, start=85, k=0.02, exponent=1.2, room=ROOM):
    return [Reading(m, temperature_after(m, start, room, k, exponent)) for m in minutes]


@given(st.floats(30, 95), st.floats(0.005, 0.08), st.floats(1, 1.8), st.floats(1, 60))
def test_the_time_to_a_temperature_and_the_temperature_after_a_time_agree(start, k, exponent, minutes):
    after = temperature_after(minutes, start, ROOM, k, exponent)

    assert minutes_between(start, after, ROOM, k, exponent) == pytest.approx(minutes, rel=1e-6)


@given(st.floats(-5, 95), st.floats(0.005, 0.08), st.floats(1, 1.8), st.floats(0, 300))
def test_a_pot_never_passes_its_room(start, k, exponent, minutes):
    after = temperature_after(minutes, start, ROOM, k, exponent)

    assert min(start, ROOM) - 1e-9 <= after <= max(start, ROOM) + 1e-9


@pytest.mark.parametrize("target", [95, 21, 15])
def test_no_time_to_a_temperature_that_is_not_on_the_way(target):
    with pytest.raises(OutOfRange, match="will not come to"):
        minutes_between(90, target, ROOM, 0.02)


def synthetic_runs(count):
    """Return runs whose truth comes from the priors that the fit states, with readings that jitter by 0.5 K."""
    dice = random.Random(20)
    for _ in range(count):
        k = math.exp(dice.gauss(PRIOR.ln_k_mean, PRIOR.ln_k_sd))
        exponent = max(1.0, dice.gauss(1.4, 0.3))
        room = dice.gauss(ROOM, 1.0)
        points = [
            Reading(m, temperature_after(m - 4, 80, room, k, exponent) + dice.gauss(0, 0.5)) for m in (4, 8, 14, 20)
        ]
        yield points, 4 + minutes_between(80, 50, room, k, exponent)


def test_the_90_per_cent_band_holds_the_truth_about_nine_times_in_ten():
    runs = list(synthetic_runs(120))

    held = sum(minutes_to(fit(points, ROOM, PRIOR), 50).contains(truth) for points, truth in runs)

    # Binomial, 120 runs at 0.9: 108 ± 3.3.
    assert 98 <= held <= 118


@settings(max_examples=15)
@given(st.floats(0.01, 0.05), st.floats(1.0, 1.5))
def test_more_readings_make_the_time_surer(k, exponent):
    few, many = (
        minutes_to(fit(readings(range(4, last, 4), k=k, exponent=exponent), ROOM, PRIOR), 35) for last in (9, 40)
    )

    assert many.width < few.width


def test_one_reading_gives_the_prior_alone_and_says_so():
    cooling = fit([Reading(0, 85)], ROOM, PRIOR)

    assert cooling.readings_used == 1
    assert cooling.sentence.startswith("From one reading")
    assert minutes_to(cooling, 40).width > 20


def test_a_learnt_jug_makes_the_first_reading_surer():
    learnt = LearntRate(mean=math.log(0.025), sd=0.05, runs=6)

    guess, known = (minutes_to(fit([Reading(0, 85)], ROOM, p), 40) for p in (PRIOR, prior_for(1.8, learnt)))

    assert known.width < 0.6 * guess.width


def test_cooler_targets_come_later():
    cooling = fit(readings((4, 10, 20)), ROOM, PRIOR)
    times = [minutes_to(cooling, target).central for target in (60, 50, 40, 30)]

    assert times == sorted(times)


def test_a_target_under_the_room_is_never_reached():
    assert minutes_to(fit(readings((4, 10, 20)), ROOM, PRIOR), 18) is None


def test_a_target_that_was_passed_already_is_reached_at_the_start():
    cooling = fit(readings((4, 10, 20)), ROOM, PRIOR)

    assert minutes_to(cooling, 88).central == cooling.start_minutes


def test_the_curve_narrows_at_the_readings_and_widens_after_them():
    curve = fit(readings((4, 10, 20)), ROOM, PRIOR).curve

    assert all(low <= central <= high for _, low, central, high in curve)
    early, late = curve[1], curve[-1]
    assert early[3] - early[1] < late[3] - late[1]


def test_the_order_in_which_readings_are_given_does_not_matter():
    points = readings((4, 10, 20))

    assert fit(points[::-1], ROOM, PRIOR).k == fit(points, ROOM, PRIOR).k


def test_the_clock_may_begin_anywhere():
    points = readings((4, 10, 20))
    later = [Reading(p.minutes + 1000, p.temp_c) for p in points]

    shifted = minutes_to(fit(later, ROOM, PRIOR, peak_minutes=1000), 40)

    assert shifted.central == pytest.approx(1000 + minutes_to(fit(points, ROOM, PRIOR), 40).central)


@pytest.mark.parametrize("position", [0, 2, 4])
@pytest.mark.parametrize("slip", [-20, 15])
def test_a_mistyped_reading_is_found_and_hardly_counts(position, slip):
    points = readings((4, 8, 12, 16, 20, 24))
    truth = minutes_to(fit(points, ROOM, PRIOR), 40)
    points[position] = Reading(points[position].minutes, points[position].temp_c + slip)

    cooling = fit(points, ROOM, PRIOR)

    assert cooling.odd_readings == (position,)
    assert cooling.readings_used == 5
    assert minutes_to(cooling, 40).central == pytest.approx(truth.central, rel=0.12)


def test_a_cold_bath_is_noticed():
    points = [*readings((4, 8, 12, 16)), Reading(20, 40), Reading(24, 33)]

    cooling = fit(points, ROOM, PRIOR)

    assert cooling.conditions_changed
    assert "Was a lid, a bath or the place changed?" in cooling.sentence


def test_the_first_minutes_after_the_peak_are_left_out():
    settled = readings((5, 10, 20))
    unsettled = [Reading(0, 99), Reading(2, 91), *settled]

    assert fit(unsettled, ROOM, PRIOR).k == fit(settled, ROOM, PRIOR).k


def test_a_pot_colder_than_its_room_warms_up():
    cooling = fit([Reading(0, 8), Reading(10, 11.5), Reading(20, 14)], ROOM, PRIOR)

    assert minutes_to(cooling, 18) is not None
    assert minutes_to(cooling, 5).central == cooling.start_minutes


@pytest.mark.parametrize("temp_c", [-40, 180, float("nan")])
def test_a_temperature_that_no_pot_has_is_refused(temp_c):
    with pytest.raises(OutOfRange, match="temperature|°C"):
        fit([Reading(0, temp_c)], ROOM, PRIOR)


def test_no_reading_no_fit():
    with pytest.raises(OutOfRange, match="Read the thermometer once"):
        fit([], ROOM, PRIOR)


def test_a_large_pot_is_expected_to_cool_more_slowly():
    assert prior_for(8).ln_k_mean == pytest.approx(prior_for(1).ln_k_mean - math.log(2))


def test_the_jug_stores_heat_as_well():
    assert pot_heat_capacity(432, 3.55, 150, "polypropylene") == pytest.approx(1.534 + 0.285, abs=0.001)


def test_each_run_narrows_what_is_known_of_a_jug():
    cooling = fit(readings((4, 10, 20, 30)), ROOM, PRIOR)

    once = learn(None, cooling, 1.8)
    twice = learn(once, cooling, 1.8)

    assert (once.runs, twice.runs) == (1, 2)
    assert twice.sd < once.sd
    assert twice.mean == pytest.approx(once.mean)


def test_what_a_jug_taught_holds_for_another_filling():
    cooling = fit(readings((4, 10, 20, 30)), ROOM, PRIOR)
    learnt = learn(None, cooling, 1.8)

    assert prior_for(1.8 * 8, learnt).ln_k_mean == pytest.approx(prior_for(1.8, learnt).ln_k_mean - math.log(2))


def test_one_reading_teaches_nothing():
    assert learn(None, fit([Reading(0, 85)], ROOM, PRIOR), 1.8) is None


@pytest.mark.parametrize("capacity", [0, -1, float("nan")])
def test_a_pot_without_heat_capacity_is_refused(capacity):
    with pytest.raises(OutOfRange):
        prior_for(capacity)
