"""Rounding, small weights and scales against standards; the doubt of a weighing against Monte Carlo."""

import random

import pytest

from soapbench.science.rounding import round_keeping_total, round_to, smallest_sensible_g
from soapbench.science.scale import Weighing, weighing_limit, weighing_u


# ISO 80000-1, annex B, rule B: where two roundings are as near, the greater one is taken: 12.25 to tenths is 12.3; 1225
# and 1275 to tens are 1230 and 1280. From memory.
@pytest.mark.parametrize(("mass", "step", "rounded"), [(12.25, 0.1, 12.3), (1225, 10, 1230), (1275, 10, 1280)])
def test_a_half_goes_up_as_the_standard_s_rule_b_says(mass, step, rounded):
    assert round_to(mass, step) == rounded


# The method of largest remainders (Hamilton's) as encyclopaedias show it: 100 000 votes of 47 000, 16 000, 15 900,
# 12 000, 6 000 and 3 100 for ten seats give 5, 2, 1, 1, 1 and 0. From memory.
def test_largest_remainders_share_out_the_seats_of_the_usual_example():
    votes = (47_000, 16_000, 15_900, 12_000, 6_000, 3_100)

    assert round_keeping_total([count / 10_000 for count in votes], 1) == (5, 2, 1, 1, 1, 0)


# OIML R 76-1, classes of accuracy: the minimum capacity of a class III scale is 20 e. From memory.
@pytest.mark.parametrize(("step", "least"), [(1, 20), (0.1, 2), (5, 100)])
def test_the_smallest_weight_is_the_minimum_capacity_of_class_iii(step, least):
    assert smallest_sensible_g(step) == pytest.approx(least)


# Two roundings, the scale's own error and its scatter, drawn 20 000 times apart from the formulas (JCGM 101).
@pytest.mark.parametrize("scale", [Weighing(1.0, 0.5, 1.0), Weighing(0.1, 0.02, 0.2), Weighing(5.0, 1.0, 2.5)])
def test_the_doubt_of_a_weighing_equals_monte_carlo(scale):
    draw = random.Random(7)
    half = scale.resolution_g / 2
    off = [
        draw.uniform(-half, half)
        + draw.uniform(-half, half)
        + draw.uniform(-scale.mpe_g, scale.mpe_g)
        + draw.gauss(0, scale.repeat_g)
        for _ in range(20_000)
    ]
    spread = (sum(x * x for x in off) / len(off)) ** 0.5
    beyond = sum(abs(x) > weighing_limit(scale) for x in off) / len(off)

    assert weighing_u(scale) == pytest.approx(spread, rel=0.02)
    assert beyond < 0.005
