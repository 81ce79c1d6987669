"""A scale tried with a known mass: class III in service, and what to do when it is off."""

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.scale_check import check_limit_g, scale_check


@pytest.mark.parametrize(
    ("known", "step", "limit"), [(50, 0.1, 0.1), (200, 0.1, 0.2), (500, 0.1, 0.3), (5000, 0.1, 0.3), (500, 1, 1)]
)
def test_the_error_allowed_grows_with_the_load(known, step, limit):
    assert check_limit_g(known, step) == limit


@pytest.mark.parametrize(("read", "ok"), [(200.0, True), (200.2, True), (199.8, True), (200.3, False), (199.7, False)])
def test_a_scale_is_good_up_to_its_limit(read, ok):
    assert scale_check(200, read, 0.1).ok is ok


def test_a_scale_that_is_off_says_by_how_much_and_what_to_do():
    said = scale_check(200, 203.4, 0.1).sentence

    assert "3.4 g over; 0.2 g are allowed" in said and "another scale" in said
    assert "3.4 g short" in scale_check(200, 196.6, 0.1).sentence


@pytest.mark.parametrize("read", [7.05, 0.441])
def test_a_scale_in_ounces_or_pounds_is_told_from_a_broken_one(read):
    assert "Set it to g" in scale_check(200, read, 0.1).sentence


@pytest.mark.parametrize("known", [0, -5, float("nan")])
def test_a_known_mass_is_more_than_nothing(known):
    with pytest.raises(OutOfRange):
        scale_check(known, 200, 0.1)
