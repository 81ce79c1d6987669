"""Calculated values against AOCS factors and the published ranges of the fats on the shelf."""

import csv
from collections import defaultdict
from pathlib import Path

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.fatty_acids import free_acid_iodine_factor, iodine_factor
from soapbench.science.profile import (
    FatProfile,
    calculated_iodine_value,
    calculated_saponification_value,
    check_composition,
    compare_with_published,
    profile_of,
    sentences,
)
from soapbench.science.profile_check import PublishedFat, compare_values

FIXTURES = Path(__file__).parents[2] / "fixtures"


def rows(name):
    with (FIXTURES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def compositions():
    found = defaultdict(dict)
    for row in rows("fatty_acids.csv"):
        found[row["fat"]][row["acid"]] = (float(row["percent_low"]), float(row["percent_high"]))
    return found


ACIDS = compositions()
# Ranges whose composition and values come from Codex CXS 33, CXS 210 and CXS 211 or a pharmacopoeia, with a spread.
CODEX = [
    row
    for row in rows("fats.csv")
    if row["key"] in ACIDS
    and row["fat_kind"] == "triglyceride"
    and "Codex" in row["source"]
    and row["sv_low"] != row["sv_high"]
    and row["iodine_low"]
    and row["iodine_high"]
]

# AOCS Recommended Practice Cd 1c-85, factors as printed: triglyceride, free acid.
FACTORS = [
    ("C16:1", 0.950, 0.9976),
    ("C18:1", 0.860, 0.8986),
    ("C18:2", 1.732, 1.810),
    ("C18:3", 2.616, 2.735),
    ("C20:1", 0.785, 0.8175),
    ("C22:1", 0.723, 0.7497),
]


@pytest.mark.parametrize(("acid", "glyceride", "free"), FACTORS)
def test_the_printed_iodine_factors(acid, glyceride, free):
    assert iodine_factor(acid) == pytest.approx(glyceride, abs=0.0006)
    assert free_acid_iodine_factor(acid) == pytest.approx(free, abs=0.0004)


# AOCS Cd 3a-94: pure triolein, mean acid mass 282.47, value 190.06.
def test_the_calculated_value_of_triolein():
    assert calculated_saponification_value({"C18:1": (100, 100)}).central == pytest.approx(190.06, abs=0.02)


# CIAAW 2021: the acid value of pure stearic acid is 197.2, of pure oleic acid 198.6; its iodine value 89.9 (Cd 1c-85).
def test_free_fatty_acids_count_their_own_molar_mass():
    stearic = calculated_saponification_value({"C18:0": (100, 100)}, "fatty acid")
    oleic = calculated_saponification_value({"C18:1": (100, 100)}, "fatty acid")

    assert stearic.central == pytest.approx(197.2, abs=0.05)
    assert oleic.central == pytest.approx(198.6, abs=0.05)
    assert calculated_iodine_value({"C18:1": (100, 100)}, "fatty acid").central == pytest.approx(89.9, abs=0.05)


def test_enough_fats_are_compared():
    assert len(CODEX) >= 12


# Codex Alimentarius CXS 33-1981, CXS 210-1999 and CXS 211-1999: each row of the shelf names its own table.
@pytest.mark.parametrize("row", CODEX, ids=lambda row: row["key"])
def test_calculated_values_overlap_the_published_ranges(row):
    value = calculated_saponification_value(ACIDS[row["key"]])
    iodine = calculated_iodine_value(ACIDS[row["key"]])

    assert compare_with_published("value", value, float(row["sv_low"]), float(row["sv_high"])).agrees
    assert compare_with_published("iodine", iodine, float(row["iodine_low"]), float(row["iodine_high"])).agrees


# Codex CXS 33 (184-196; iodine 75-94), CXS 210 for coconut (248-265; 6.3-10.6) and palm (190-209; 50-55).
@pytest.mark.parametrize(
    ("key", "value", "iodine"),
    [("olive", (184, 196), (75, 94)), ("coconut", (248, 265), (6.3, 10.6)), ("palm", (190, 209), (50, 55))],
)
def test_the_middle_of_a_composition_lies_in_the_codex_range(key, value, iodine):
    assert value[0] <= calculated_saponification_value(ACIDS[key]).central <= value[1]
    assert iodine[0] <= calculated_iodine_value(ACIDS[key]).central <= iodine[1]


# Commission Regulation (EEC) 2568/91, Annex I, as the shelf carries it: olive oil has 55 to 83 % oleic acid; saturated
# acids are the minor part. A blend with as much coconut oil (Codex CXS 210: 45 to 53 % lauric) lies half way.
def test_the_profile_of_a_blend_is_made_of_the_printed_compositions():
    olive, coconut = FatProfile("olive", 500, ACIDS["olive"]), FatProfile("coconut", 500, ACIDS["coconut"])

    alone, blend = profile_of([olive]), profile_of([olive, coconut])

    assert 55 <= alone.acid("C18:1") <= 83
    assert alone.saturated.central < alone.monounsaturated.central
    assert 45 <= 2 * blend.acid("C12:0") <= 53.5
    for group in ("saponification_value", "iodine_value", "saturated"):
        parts = [getattr(profile_of([fat]), group).central for fat in (olive, coconut)]
        assert getattr(blend, group).central == pytest.approx(sum(parts) / 2)


# The same tables: the words name the acids that each oil is known for. Codex CXS 210: grape seed 58 to 78 % linoleic.
@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("olive", "is oleic acid"),
        ("coconut", "short and saturated (up to C14)"),
        ("palm", "long and saturated"),
        ("castor", "is ricinoleic acid"),
        ("grapeseed", "two or more double bonds"),
    ],
)
def test_the_words_follow_the_printed_composition(key, words):
    assert words in " ".join(sentences(profile_of([FatProfile(key, 100, ACIDS[key])])))


# Codex CXS 33 for olive (184 to 196; iodine 75 to 94), CXS 210 for coconut (248 to 265; 6.3 to 10.6), mixed by mass.
def test_the_values_of_a_blend_agree_with_the_codex_ranges_of_its_oils():
    found = compare_values(
        [
            PublishedFat(FatProfile("olive", 600, ACIDS["olive"]), (184, 196), (75, 94)),
            PublishedFat(FatProfile("coconut", 400, ACIDS["coconut"]), (248, 265), (6.3, 10.6)),
        ]
    )

    assert [one.agrees for one in found] == [True, True]


# Every printed composition of the shelf is one; a printed range turned round is not.
def test_the_printed_compositions_are_taken_and_one_upside_down_is_not():
    for key, acids in ACIDS.items():
        check_composition(acids, key)
    with pytest.raises(OutOfRange, match="smaller to a larger"):
        check_composition({"C18:1": (83, 55)})
