import pytest

from soapbench.science.cooling import (
    Reading,
    below_window_advice,
    both_in_window,
    fit,
    minutes_to,
    prior_for,
    reading_doubt,
    temperature_after,
    ways_into_window,
)
from soapbench.science.errors import OutOfRange


def pot(start_c, k, room_c=21.0, capacity=1.8):
    points = [Reading(m, temperature_after(m, start_c, room_c, k, 1.2)) for m in (4, 8, 14, 20)]
    return fit(points, room_c, prior_for(capacity))


LYE = pot(85, 0.02)
FATS = pot(60, 0.01)


def test_the_window_opens_with_the_later_pot_and_closes_with_the_earlier():
    window = both_in_window(LYE, FATS, 35, 45)

    assert window.ok
    assert window.opens == max(minutes_to(LYE, 45).central, minutes_to(FATS, 45).central)
    assert window.closes == min(minutes_to(LYE, 35).central, minutes_to(FATS, 35).central)
    assert window.opens_band.contains(window.opens)


def ways(lye_c, fats_c, shared=None):
    found = ways_into_window(shared or both_in_window(LYE, FATS, 35, 45), lye_c, fats_c, 35, 45)
    return [way.title for way in found]


def test_a_window_that_only_has_to_be_waited_for_asks_for_nothing():
    assert ways(60, 50) == []


def test_fats_below_the_window_are_warmed():
    assert ways(60, 33) == ["Warm the fats"]


def test_cool_lye_may_be_warmed_or_taken_as_it_is():
    assert ways(33, 40) == ["Warm the lye", "Go on with cool lye"]


def test_a_pot_that_would_leave_first_is_kept_warm_and_the_other_cooled():
    shared = both_in_window(pot(90, 0.01), pot(48, 0.05), 38, 45)

    assert ways(90, 48, shared) == ["Keep the fats warm", "Cool the lye in a bath"]


def test_a_room_too_warm_for_the_window_asks_for_a_bath():
    shared = both_in_window(LYE, FATS, 10, 18)
    found = ways_into_window(shared, 60, 50, 10, 18)

    assert [way.title for way in found] == ["Cool the lye in a bath", "Cool the fats in a bath"]


def test_a_pot_that_is_in_the_window_already_does_not_delay_it():
    window = both_in_window(pot(44, 0.005), FATS, 35, 50)

    assert window.opens == minutes_to(FATS, 50).central


def test_a_window_that_reaches_under_the_room_stays_open():
    window = both_in_window(LYE, FATS, 15, 45)

    assert window.closes is None
    assert window.sentence.endswith("min on.")


def test_a_window_under_the_room_is_not_reached_without_a_bath():
    window = both_in_window(LYE, FATS, 10, 18)

    assert (window.ok, window.opens) == (False, None)
    assert "in cold water" in window.sentence


def test_fats_that_cool_too_far_before_the_lye_is_ready_are_named():
    window = both_in_window(pot(90, 0.01), pot(48, 0.05), 38, 45)

    assert (window.ok, window.first_out) == (False, "fats")
    assert window.sentence.startswith("The fats would be too cold from about")
    assert "Keep the fats warm, or cool the lye in a water bath." in window.sentence


def test_a_pot_that_is_past_the_window_closes_it_at_once():
    window = both_in_window(LYE, pot(34, 0.01), 38, 45)

    assert (window.ok, window.first_out) == (False, "fats")


def test_lye_colder_than_the_room_comes_into_the_window_from_below():
    cold_lye = fit([Reading(4, 8), Reading(10, 10), Reading(20, 12.8)], 24, prior_for(1.8))

    window = both_in_window(cold_lye, pot(60, 0.03, room_c=24.0), 18, 30)

    assert window.opens == max(minutes_to(cold_lye, 18).central, minutes_to(pot(60, 0.03, 24.0), 30).central)


def test_a_window_upside_down_is_refused():
    with pytest.raises(OutOfRange, match="open upwards"):
        both_in_window(LYE, FATS, 45, 35)
    with pytest.raises(OutOfRange, match="open upwards"):
        below_window_advice("lye", 30, 45, 35)


def test_fats_below_the_window_are_warmed_until_clear():
    assert below_window_advice("fats", 33, 38, 44) == (
        "Warm the fats gently to about 41 °C and stir until they are clear. Then go on."
    )


def test_lye_below_the_window_goes_into_warm_water_and_never_on_a_hob():
    advice = below_window_advice("lye", 33, 38, 44)

    assert "hot tap water" in advice
    assert "No hob, no microwave" in advice


def test_a_pot_in_the_window_needs_no_advice():
    assert below_window_advice("lye", 38, 38, 44) is None


@pytest.mark.parametrize(
    ("new", "says"),
    [
        (Reading(10, 66), "hotter than 60 °C, 5 min before"),
        (Reading(10, 12), "colder than the room"),
        (Reading(10, 140), "it is 60 °C"),
    ],
)
def test_a_reading_that_cannot_be_true_is_doubted(new, says):
    assert says in reading_doubt([Reading(5, 60)], new, 21)


@pytest.mark.parametrize("new", [Reading(10, 57), Reading(10, 61), Reading(10, 35)])
def test_a_reading_that_can_be_true_is_taken(new):
    assert reading_doubt([Reading(5, 60)], new, 21) is None


def test_a_cold_pot_may_warm_up_to_the_room():
    assert reading_doubt([Reading(5, 8)], Reading(15, 14), 21) is None


def test_the_first_reading_is_taken():
    assert reading_doubt([], Reading(0, 90), 21) is None
