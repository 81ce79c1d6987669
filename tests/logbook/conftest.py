"""Runs of the known world whose records are read, on a clock that stands two months after the pour."""

from datetime import timedelta

import pytest
import time_machine

from tests.bench.sample import START
from tests.rack.played import begin, write


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(START + timedelta(days=60), tick=False) as traveller:
        yield traveller


@pytest.fixture
def ebb_line(world):
    return world.bars["ebb-line"]


@pytest.fixture
def made(ebb_line, owner):
    """A released batch of the bar with four portions: changes, a withdrawn weight, readings, weighings, a test."""
    run, hand = begin(ebb_line, owner)
    eventful(hand)
    return write(run, hand, owner)


def eventful(hand):
    """Play a run in which things happen, from the first tap to the release."""
    hand.start().until("melt")
    wrong = hand.weigh("fat:castor", 99.0)
    hand.tap("took-back", event=wrong)
    hand.until("cool")
    for minutes, lye, fats in ((5, 78, 58), (15, 61, 51), (15, 49, 45), (15, 41, 40)):
        hand.wait(minutes=minutes)
        hand.tap("read", "cool", pot="lye", temp_c=lye)
        hand.tap("read", "cool", pot="fats", temp_c=fats)
    hand.tap("noted", text="Ёлка, ελιά, naïve: the room smelt of olives.")
    hand.until("draw")
    hand.tap("changed", "draw", what="drawn differently", why="The hanger was not at hand.",
             decision="Keep it and cut to suit.", path="zigzag", tool="skewer")  # fmt: skip
    hand.until("cut")
    hand.wait(hours=26)
    hand.until("cure")
    for days, mass in ((0, 390), (7, 372), (7, 364), (14, 357)):
        hand.wait(days=days)
        hand.tap("cure-weighed", "cure", bars=3, mass_g=mass)
    hand.until("")
