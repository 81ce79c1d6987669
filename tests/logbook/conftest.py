"""Runs of the known world whose records are read, on a clock that stands two months after the pour."""

from datetime import timedelta

import pytest
import time_machine

from tests.bench.sample import START
from tests.logbook.batch import eventful
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
