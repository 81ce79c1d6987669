"""What fats take, and what is said of those that vary or hardly saponify, against printed cases and ranges."""

import csv
import io
from pathlib import Path

import pytest

from soapbench.science.alkali import (
    Alkali,
    AlkaliMass,
    Fat,
    careful_mol,
    check_superfat,
    demand_mol,
    excess_alkali_g,
    full_demand_naoh_g,
)
from soapbench.science.atoms import KOH
from soapbench.science.errors import OutOfRange
from soapbench.science.fats import careful_note, careful_notes
from soapbench.science.ways import (
    alkali_in_full,
    excess_fat_from_superfat,
    superfat_from_excess_fat,
    superfat_of_added_fat,
    two_ways,
)

TABLE = (Path(__file__).parents[2] / "fixtures" / "fats.csv").read_text(encoding="utf-8")
FATS = {row["key"]: row for row in csv.DictReader(io.StringIO(TABLE))}


def on_the_shelf(key, mass_g=100.0):
    """Return a fat with the range that the shelf's table carries, its source named there."""
    row = FATS[key]
    return Fat(row["name"], mass_g, float(row["sv_low"]), float(row["sv_high"]), kind=row["fat_kind"])


def exact(mass_g, value):
    return Fat("fat", mass_g, value, value, sv_own=value)


# Simmons & Appleton 1908, chapter X: 1.8976 g of fat took 25.6 - 18.95 = 6.65 ml of 1 mol/l; printed value 196.6.
def test_the_printed_titration_gives_the_moles_back():
    assert demand_mol([exact(1.8976, 196.6)]) == pytest.approx(6.65e-3, rel=0.0005)


# Grade 12 exercise: 17.24 g of neutral fat takes 0.06 mol, 2.4 g, of NaOH; 2.9 g would leave half a gram over.
def test_the_printed_exercise_on_a_neutral_fat():
    fat = exact(17.24, 0.06 * KOH / 17.24 * 1000)

    assert full_demand_naoh_g([fat]) == pytest.approx(2.4, abs=0.001)
    assert alkali_in_full([fat], Alkali()).naoh_g == pytest.approx(2.4, abs=0.001)
    assert excess_alkali_g([fat], AlkaliMass(2.9), Alkali()) == pytest.approx(0.5, abs=0.001)


# Codex CXS 325R: shea butter 160 to 195 mg KOH/g. A quarter of the way up is 168.75; the quarter is an own choice.
def test_shea_is_counted_a_quarter_of_the_way_up_its_codex_range():
    shea = on_the_shelf("shea", 1000)

    assert (shea.sv_low, shea.sv_high) == (160, 195)
    assert careful_mol([shea]) * KOH == pytest.approx(168.75)


# Published ranges as the shelf carries them: Codex CXS 210 (rice bran), CXS 325R (shea), CAMEO (avocado), Hilali et
# al. 2005 (argan), Simmons & Appleton and the usual range (neem).
@pytest.mark.parametrize("key", ["shea", "avocado", "rice_bran", "argan", "neem"])
def test_the_fats_that_are_known_to_vary_are_counted_carefully_and_say_so(key):
    fat = on_the_shelf(key)

    assert fat.is_wide
    assert fat.sv_for_alkali < fat.sv_central
    assert "varies a lot" in careful_note(fat)


# Codex CXS 33, CXS 210: olive 184 to 196, coconut 248 to 265, palm 190 to 209 are narrow enough for their middle.
@pytest.mark.parametrize("key", ["olive", "coconut", "palm"])
def test_the_everyday_fats_are_counted_at_the_middle_of_their_codex_range(key):
    assert careful_note(on_the_shelf(key)) is None


# British Pharmaceutical Codex 1911: wool fat hardly saponifies in water. British Pharmacopoeia: beeswax is esters.
def test_wool_fat_and_beeswax_say_why_they_get_less_alkali():
    notes = careful_notes([on_the_shelf("olive"), on_the_shelf("lanolin"), on_the_shelf("beeswax")])

    assert ["hardly saponifies" in notes[0], "no glycerine" in notes[1]] == [True, True]
    assert careful_mol([on_the_shelf("lanolin")]) == 0


# SNI 06-3532-1994, bath soap: the superfatted type holds 2.5 to 7.5 % of free fatty acid or neutral fat.
@pytest.mark.parametrize("superfat", [0.025, 0.05, 0.075])
def test_the_superfats_of_the_national_standard_may_be_asked_for(superfat):
    assert check_superfat(superfat) == superfat


# The same standard allows 0.1 % of free alkali at most: a recipe for free alkali is refused.
def test_a_superfat_below_nought_may_not_be_asked_for():
    with pytest.raises(OutOfRange, match="free alkali"):
        check_superfat(-0.001)


# Worked here apart from the code, by counting grams: 1000 g of a fat get their full alkali, 50 g of the same are added:
# 50 of 1050 g find none, 4.76 %; for 5 % one adds 52.6 g.
def test_the_two_ways_differ_as_counting_grams_says():
    assert superfat_from_excess_fat(0.05) == pytest.approx(50 / 1050)
    assert excess_fat_from_superfat(0.05) == pytest.approx(52.63 / 1000, abs=1e-5)
    assert superfat_of_added_fat([exact(1000, 190)], [exact(50, 190)]) == pytest.approx(50 / 1050)
    assert "4.76 %" in two_ways(0.05)
    assert "5.26 %" in two_ways(0.05)
