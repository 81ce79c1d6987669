"""Calculated values held against published ones, of one fat and of a blend."""

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.profile import FatProfile
from soapbench.science.profile_check import PublishedFat, compare_values

# Triolein: 3 × 56.1 × 1000 / 885.4 = 190.1 mg KOH/g; iodine value 86.0.
OLEIN = FatProfile("Olein", 100, {"C18:1": (100, 100)})
WAX = FatProfile("Wax", 100, {"C18:1": (100, 100)}, "wax ester")
BARE = FatProfile("Bare", 100, {})


def compared(profile, sv=(189, 191), iodine=(85, 87)):
    return compare_values([PublishedFat(profile, sv, iodine)])


def test_values_that_agree_are_told_with_their_standards():
    saponification, iodine = compared(OLEIN)

    assert saponification.agrees and "AOCS Cd 3a-94" in saponification.sentence
    assert iodine.agrees and "AOCS Cd 1c-85" in iodine.sentence


def test_values_that_do_not_overlap_do_not_agree():
    assert [one.agrees for one in compared(OLEIN, sv=(200, 210), iodine=(40, 50))] == [False, False]


def test_a_value_that_nobody_published_is_left_out():
    assert len(compared(OLEIN, iodine=None)) == 1


@pytest.mark.parametrize("profile", [WAX, BARE])
def test_a_fat_whose_acids_do_not_tell_its_values_is_left_out(profile):
    assert compared(profile) == ()


def test_a_blend_is_held_against_the_published_ranges_mixed_by_mass():
    blend = [
        PublishedFat(OLEIN, (180, 190), (80, 90)),
        PublishedFat(FatProfile("X", 300, {"C12:0": (100, 100)}), (200, 260), (0, 2)),
    ]

    # (100 × 180 + 300 × 200) / 400 = 195, (100 × 190 + 300 × 260) / 400 = 242.5
    assert "published 195 to 242.5" in compare_values(blend)[0].sentence


@pytest.mark.parametrize("ends", [(-1, 5), (5, 1)])
def test_a_published_range_that_cannot_be_is_refused(ends):
    with pytest.raises(OutOfRange):
        PublishedFat(OLEIN, ends, None)
