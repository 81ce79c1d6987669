import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.fatty_acids import acid_molar_mass, sodium_soap_molar_mass
from soapbench.science.interval import Interval
from soapbench.science.profile import (
    FatProfile,
    calculated_iodine_value,
    calculated_saponification_value,
    compare_with_published,
    profile_of,
    sentences,
)

OLIVE = {"C16:0": (7.5, 20.0), "C18:0": (0.5, 5.0), "C18:1": (55.0, 83.0), "C18:2": (2.5, 21.0)}
COCONUT = {"C8:0": (4.6, 10), "C10:0": (5, 8), "C12:0": (45.1, 53.2), "C14:0": (16.8, 21), "C16:0": (7.5, 10.2),
           "C18:0": (2, 4), "C18:1": (5, 10), "C18:2": (1, 2.5)}  # fmt: skip
LINSEED = {"C16:0": (4, 11), "C18:0": (2, 8), "C18:1": (10, 36), "C18:2": (8, 30), "C18:3": (44, 70)}
CASTOR = {"C18:1-OH": (85.0, 95.0), "C18:1": (2, 6), "C18:2": (1, 5)}
SHEA = {"C16:0": (4, 4), "C18:0": (42, 42), "C18:1": (46, 46), "C18:2": (7, 7)}


def words(*fats):
    return " ".join(sentences(profile_of([FatProfile("fat", mass, acids) for mass, acids in fats])))


def test_the_groups_add_up_to_everything():
    profile = profile_of([FatProfile("olive", 400, OLIVE), FatProfile("coconut", 300, COCONUT)])

    groups = (profile.saturated, profile.monounsaturated, profile.polyunsaturated)
    assert sum(group.central for group in groups) == pytest.approx(100)
    assert sum(interval.central for _, interval in profile.acids) == pytest.approx(100)


@given(st.floats(1, 1000), st.floats(1, 1000))
def test_a_blend_lies_between_its_fats(olive_g, coconut_g):
    blend = profile_of([FatProfile("olive", olive_g, OLIVE), FatProfile("coconut", coconut_g, COCONUT)])
    olive, coconut = calculated_saponification_value(OLIVE), calculated_saponification_value(COCONUT)

    assert olive.central < blend.saponification_value.central < coconut.central


@given(st.floats(0.01, 100))
def test_the_size_of_the_batch_changes_no_profile(factor):
    small = profile_of([FatProfile("olive", 4, OLIVE), FatProfile("coconut", 3, COCONUT)])
    large = profile_of([FatProfile("olive", 4 * factor, OLIVE), FatProfile("coconut", 3 * factor, COCONUT)])

    assert large.iodine_value.central == pytest.approx(small.iodine_value.central)


def test_a_composition_filled_to_a_hundred_lies_inside_the_calculated_ends():
    for mixture in (
        {"C16:0": 20, "C18:0": 5, "C18:1": 55, "C18:2": 20},
        {"C16:0": 8, "C18:0": 1, "C18:1": 83, "C18:2": 8},
    ):
        exact = {acid: (share, share) for acid, share in mixture.items()}

        assert calculated_saponification_value(OLIVE).contains(calculated_saponification_value(exact).central)
        assert calculated_iodine_value(OLIVE).contains(calculated_iodine_value(exact).central)


def test_the_acids_are_listed_from_short_to_long():
    profile = profile_of([FatProfile("linseed", 100, LINSEED), FatProfile("coconut", 100, COCONUT)])

    assert [code for code, _ in profile.acids] == [
        "C8:0", "C10:0", "C12:0", "C14:0", "C16:0", "C18:3", "C18:2", "C18:1", "C18:0",
    ]  # fmt: skip


def test_a_wax_and_an_unknown_fat_count_as_not_known():
    profile = profile_of(
        [
            FatProfile("olive", 300, OLIVE),
            FatProfile("jojoba", 50, {"C20:1": (68, 73)}, kind="wax ester"),
            FatProfile("mystery", 50, {}),
        ]
    )

    assert profile.known_share == pytest.approx(0.75)
    assert "75 % of the fats" in sentences(profile)[0]
    assert "C20:1" not in dict(profile.acids)


def test_fast_lather_is_told_with_its_reason():
    assert "lathers fast" in words((700, OLIVE), (300, COCONUT))
    assert "takes up skin fat" in words((100, COCONUT))


def test_a_bar_of_olive_alone_is_told_as_slow_and_soft_at_first():
    told = words((100, OLIVE))

    assert "soft at first" in told
    assert "oleic acid" in told
    assert "more water and rubbing" in told


def test_a_bar_with_much_stearic_acid_is_told_as_firm_with_fats_that_melt_last():
    told = words((100, SHEA))

    assert "firm and lasts" in told
    assert "melt last" in told


def test_acids_that_take_up_oxygen_are_told_with_what_to_do():
    assert "rancid" in words((100, LINSEED))
    assert "rancid" not in words((100, COCONUT))


def test_castor_is_told_by_its_own_acid():
    assert "ricinoleic" in words((100, CASTOR))
    assert "ricinoleic" not in words((100, OLIVE))


def test_a_range_apart_from_the_published_one_says_what_to_trust():
    comparison = compare_with_published("saponification value", Interval(190, 191, 192), 160, 185)

    assert not comparison.agrees
    assert "trust the published value" in comparison.sentence


def test_a_sodium_soap_is_heavier_than_its_acid_by_one_sodium_less_one_hydrogen():
    assert sodium_soap_molar_mass("C18:0") - acid_molar_mass("C18:0") == pytest.approx(21.982)


@pytest.mark.parametrize(
    "call",
    [
        lambda: profile_of([]),
        lambda: profile_of([FatProfile("mystery", 100, {})]),
        lambda: FatProfile("olive", -1, OLIVE),
        lambda: FatProfile("olive", 1, {"C18:1": (80, 60)}),
        lambda: FatProfile("olive", 1, {"C18:1": (60, 120)}),
        lambda: FatProfile("olive", 1, {"oleic": (60, 80)}),
        lambda: calculated_saponification_value({}),
        lambda: calculated_iodine_value({"C20:1": (70, 70)}, "wax ester"),
        lambda: acid_molar_mass("C4:3"),
        lambda: compare_with_published("value", Interval(1, 2, 3), -1, 2),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(call):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert str(refusal.value).endswith(".")
