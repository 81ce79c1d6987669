from __future__ import annotations

from soapbench.science.interval import Interval


def test_the_width_is_the_distance_between_the_ends():
    assert Interval(1.0, 2.0, 4.0).width == 3.0


def test_the_ends_belong_to_the_interval():
    interval = Interval(1.0, 2.0, 4.0)

    assert interval.contains(1.0)
    assert interval.contains(4.0)
    assert not interval.contains(4.01)


def test_a_negative_factor_swaps_the_ends():
    assert Interval(1.0, 2.0, 4.0).scaled(-2.0) == Interval(-8.0, -4.0, -2.0)


def test_a_shift_leaves_the_width_alone():
    assert Interval(1.0, 2.0, 4.0).shifted(10.0) == Interval(11.0, 12.0, 14.0)


def test_an_exact_value_has_no_width():
    assert Interval.exact(3.0).width == 0.0
