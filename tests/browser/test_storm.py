"""A few storms of the many that `python -m tests.browser.storm` lets blow."""

import random

import pytest

from tests.browser.storm.blow import blow

SEEDS = [random.randrange(1_000_000) for _ in range(3)]


@pytest.mark.slow
@pytest.mark.parametrize("seed", SEEDS)
def test_no_tap_is_lost_or_doubled_in_a_storm(seed, tmp_path_factory, playwright):
    print(f"seed {seed}")
    blow(seed, tmp_path_factory.getbasetemp(), playwright)
