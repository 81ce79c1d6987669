"""What is said about a temperature that was just read."""

import pytest

from soapbench.bench import rules
from soapbench.bench.cooling_screen import cooling_screen
from soapbench.bench.kinds import Read
from tests.bench.sample import hand


@pytest.fixture
def cooling():
    played = hand().start().until("cool")
    played.tap("read", "cool", pot="lye", temp_c=60)
    return played


def remark(played, pot, temp_c):
    return rules.check(played.plan, played.state, tuple(played.facts), "read", "cool", Read(pot, temp_c))


def test_a_pot_left_alone_does_not_get_hotter(cooling):
    assert remark(cooling, "lye", 71) == "71 °C is hotter than 60 °C before. Stir, then read again."


def test_a_pot_is_not_colder_than_its_room(cooling):
    assert "colder than the room" in remark(cooling, "lye", 5)


@pytest.mark.parametrize("temp_c", [60, 55, 41])
def test_a_pot_that_cools_is_believed(cooling, temp_c):
    assert remark(cooling, "lye", temp_c) == ""


def test_a_pot_below_its_window_brings_advice(cooling):
    cooling.tap("read", "cool", pot="fats", temp_c=25)

    screen = cooling_screen(cooling.plan, cooling.state)
    assert screen.sentence == "The fats are below the window."
    assert [way.title for way in screen.ways] == ["Warm the fats"]
