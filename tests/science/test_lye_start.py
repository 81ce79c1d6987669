"""How cold the water of a lye has to be, and how much of it may be ice instead."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.lye import boiling_point_c, peak_temperature
from soapbench.science.lye_start import hottest_allowed, lye_start, start_for_peak

strengths = st.floats(0.25, 0.45)


def test_water_from_the_shelf_will_do_in_a_cool_room_and_a_jug_that_stands_the_lye():
    start = lye_start(143.6, 287.2, 19, 0.1, jug_c=120)

    assert (start.needs_cold, start.ice_g, start.warmest_c) == (False, 0, 25)
    assert start.sentence == "Start with water at 25 °C or colder: then the lye stays under 116 °C."
    assert start.short == "25 °C or colder"


def test_a_jug_that_softens_asks_for_ice_as_a_part_of_the_water():
    start = lye_start(143.6, 287.2, 19, 0.1, jug_c=80)

    assert start.only_ice and 0 < start.ice_g < 287.2
    assert start.sentence == (
        f"Weigh {start.ice_g:.1f} g of the water as ice, or the lye can pass 80 °C. "
        "Ice is a part of the water, never added to it."
    )


def test_in_a_warm_room_the_water_is_chilled_or_partly_frozen():
    start = lye_start(143.6, 287.2, 28, 1, jug_c=120)

    assert start.sentence.startswith(f"Chill the water to 25 °C or colder, or weigh {start.ice_g:.0f} g of it as ice.")
    assert start.ice_g == int(start.ice_g) > 0


@given(strengths, st.floats(15, 35), st.sampled_from((0.01, 0.1, 1.0)))
def test_the_ice_named_keeps_the_lye_under_the_limit_and_is_what_the_scale_can_show(w, room, step):
    start = lye_start(400 * w, 400 - 400 * w, room, step, jug_c=80)
    ice = start.ice_g
    peak = peak_temperature(400 * w, 400 - 400 * w, room, ice_g=ice).no_loss_c

    assert ice / step == pytest.approx(round(ice / step), abs=1e-6)
    assert peak <= 80 + 1e-6


@given(strengths, st.floats(70, 110))
def test_the_warmest_start_just_keeps_the_limit(w, limit):
    start = start_for_peak(1000 * w, 1000 - 1000 * w, limit)
    if start is None:
        assert peak_temperature(1000 * w, 1000 - 1000 * w, 0).no_loss_c > limit
    elif start < 59.9:
        assert peak_temperature(1000 * w, 1000 - 1000 * w, start).no_loss_c == pytest.approx(limit, abs=0.01)


def test_no_lye_may_come_near_its_boiling_point():
    assert hottest_allowed(0.33) == boiling_point_c(0.33) - 5
    assert hottest_allowed(0.33, 80) == 80
