"""Runs of the known world at the stations of the rack, and a clock that stands on the day after the pour."""

from datetime import timedelta

import pytest
import time_machine

from tests.bench.sample import START
from tests.rack.played import begin, play, write


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(START + timedelta(days=1), tick=False) as traveller:
        yield traveller


@pytest.fixture
def doorstep(world):
    return world.bars["doorstep"]


@pytest.fixture
def resting(doorstep, owner):
    return play(doorstep, owner, "rest")


@pytest.fixture
def curing(doorstep, owner):
    """Ten bars of 130 g, three of them weighed fresh and after one and two weeks."""
    run, hand = begin(doorstep, owner)
    hand.start().until("cure")
    for days, mass in ((0, 390), (7, 372), (7, 364)):
        hand.wait(days=days)
        hand.tap("cure-weighed", "cure", bars=3, mass_g=mass)
    return write(run, hand, owner)


@pytest.fixture
def tested(doorstep, owner):
    return play(doorstep, owner, "release")


@pytest.fixture
def heavy(doorstep, owner):
    """Cured bars of a batch that got a third too much alkali, not tested yet."""
    run, hand = begin(doorstep, owner)
    hand.start().until("weigh:alkali:naoh")
    hand.weigh("alkali:naoh", hand.state.targets["alkali:naoh"] * 1.3)
    hand.until("test")
    return write(run, hand, owner)
