"""A portion that thickens: the order that is left, and pouring or spooning."""

from math import inf

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.late_pour import late_act, pours_left, spoon_after_minutes
from soapbench.science.working_time import ScentedPortion


def portion(letter, minutes=inf, place=None):
    return ScentedPortion(letter, minutes, 0.0, place)


def test_a_free_order_begins_with_what_thickened():
    found = pours_left([portion("A"), portion("B", 8), portion("C")], "C")

    assert (found.order[0], found.keeps_plan) == ("C", True)
    assert found.sentence.startswith("Pour C, ")


def test_where_the_drawing_fixes_the_order_the_thick_one_changes_its_place():
    found = pours_left([portion("A", place=1), portion("B", place=2)], "B")

    assert (found.order, found.keeps_plan) == (("B", "A"), False)
    assert "B changes its place" in found.sentence


def test_what_is_next_anyway_is_poured_as_planned():
    found = pours_left([portion("A", place=1), portion("B", place=2)], "A")

    assert (found.order, found.keeps_plan) == (("A", "B"), True)


def test_where_no_order_works_the_thick_one_is_spooned_in():
    found = pours_left([portion("A", 1.6, 1), portion("B", inf, 2)], "B")

    assert found.order == ("A", "B")
    assert "spoon B in" in found.sentence


def test_a_poured_portion_is_past_help():
    with pytest.raises(OutOfRange, match="poured already"):
        pours_left([portion("A")], "B")


@pytest.mark.parametrize(
    ("over", "act"), [(-0.1, ""), (0, "pour"), (1.9, "pour"), (2, "spoon"), (60, "spoon")]
)  # fmt: skip
def test_an_overdue_portion_is_poured_next_and_later_spooned(over, act):
    assert late_act(8, over) == act


def test_the_time_to_spoon_follows_the_working_time():
    assert spoon_after_minutes(8) == 2
    with pytest.raises(OutOfRange):
        spoon_after_minutes(0)
