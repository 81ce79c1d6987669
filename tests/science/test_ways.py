import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.alkali import Alkali, Fat, superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.ways import (
    alkali_in_full,
    excess_fat_from_superfat,
    superfat_from_excess_fat,
    superfat_of_added_fat,
    two_ways,
)

OLIVE = Fat("olive", 500, 184, 196)
COCONUT = Fat("coconut", 500, 248, 265)


def test_five_per_cent_extra_fat_is_less_than_five_per_cent_superfat():
    assert superfat_from_excess_fat(0.05) == pytest.approx(0.04762, abs=1e-5)


@given(st.floats(0, 0.5))
def test_the_two_ways_turn_into_each_other(superfat):
    assert superfat_from_excess_fat(excess_fat_from_superfat(superfat)) == pytest.approx(superfat)


def test_added_fat_leaves_the_superfat_that_it_says():
    extra = Fat("olive", 25, 184, 196)
    weighed = alkali_in_full([OLIVE], Alkali())

    assert superfat_of([OLIVE, extra], weighed, Alkali()) == pytest.approx(superfat_of_added_fat([OLIVE], [extra]))


def test_grams_of_coconut_leave_more_superfat_than_grams_of_olive():
    by_olive = superfat_of_added_fat([OLIVE], [Fat("olive", 25, 184, 196)])
    by_coconut = superfat_of_added_fat([OLIVE], [Fat("coconut", 25, 248, 265)])

    assert by_coconut > 1.3 * by_olive


def test_both_ways_are_named_with_their_figures():
    sentences = two_ways(0.05)

    assert "Alkali discount" in sentences
    assert "Excess fat" in sentences
    assert "5.26 %" in sentences
    assert "4.76 %" in sentences


@pytest.mark.parametrize(
    "call",
    [lambda: superfat_from_excess_fat(-0.1), lambda: two_ways(0.9), lambda: superfat_of_added_fat([], [])],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
