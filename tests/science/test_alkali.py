import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.alkali import (
    Acid,
    Alkali,
    AlkaliMass,
    Fat,
    alkali_for,
    alkali_mixture,
    careful_mol,
    careful_note,
    careful_notes,
    demand_mol,
    excess_alkali_g,
    full_demand_naoh_g,
    pure_equivalents,
    superfat_of,
)
from soapbench.science.errors import OutOfRange

OLIVE = Fat("olive", 400, 184, 196)
COCONUT = Fat("coconut", 300, 248, 265)
SHEA = Fat("shea", 200, 160, 195)
JOJOBA = Fat("jojoba", 50, 92.2, 92.2, kind="wax ester")
LANOLIN = Fat("lanolin", 50, 90, 102, kind="unsaponifiable")
SODIUM = Alkali()

masses = st.floats(1, 5000)
values = st.tuples(st.floats(150, 280), st.floats(0, 40)).map(lambda pair: (pair[0], pair[0] + pair[1]))
fats = st.lists(st.builds(lambda m, v: Fat("fat", m, *v), masses, values), min_size=1, max_size=4)
alkalis = st.builds(
    Alkali,
    naoh_share=st.floats(0, 1),
    naoh_purity=st.floats(0.8, 1),
    koh_purity=st.floats(0.8, 1),
    shares_by=st.sampled_from(["mass", "mole"]),
)
superfats = st.floats(0, 0.3)


def acids_of(grams):
    return (Acid("citric acid", grams, 876.1),)


@given(fats, superfats, alkalis, st.floats(0.01, 100))
def test_twice_the_fats_take_twice_the_alkali(recipe, superfat, alkali, factor):
    one = alkali_for(recipe, superfat, alkali)
    more = alkali_for([replace(fat, mass_g=fat.mass_g * factor) for fat in recipe], superfat, alkali)

    assert more.naoh_g == pytest.approx(one.naoh_g * factor, abs=1e-9)
    assert more.koh_g == pytest.approx(one.koh_g * factor, abs=1e-9)


@given(fats, superfats, alkalis, st.floats(0, 50))
def test_weighing_what_was_asked_for_gives_the_superfat_that_was_asked_for(recipe, superfat, alkali, acid_g):
    known = [replace(fat, sv_own=fat.sv_low) for fat in recipe]
    weighed = alkali_for(known, superfat, alkali, acids_of(acid_g))

    assert superfat_of(known, weighed, alkali, acids_of(acid_g)) == pytest.approx(superfat, abs=1e-9)


@given(fats, alkalis, st.floats(0, 2000), st.floats(0, 2000), st.floats(0, 500), st.floats(0, 500))
def test_more_alkali_never_raises_the_superfat(recipe, alkali, naoh, koh, more_naoh, more_koh):
    before = superfat_of(recipe, AlkaliMass(naoh, koh), alkali)
    after = superfat_of(recipe, AlkaliMass(naoh + more_naoh, koh + more_koh), alkali)

    assert after <= before + 1e-12


@given(fats, alkalis, st.floats(0, 500), st.floats(0, 100))
def test_more_acid_never_lowers_the_superfat(recipe, alkali, naoh, acid_g):
    weighed = AlkaliMass(naoh)

    assert superfat_of(recipe, weighed, alkali, acids_of(acid_g)) >= superfat_of(recipe, weighed, alkali) - 1e-12


@given(masses, st.floats(0, 1))
def test_splitting_a_fat_changes_no_demand(mass, share):
    whole = Fat("olive", mass, 184, 196)
    parts = [replace(whole, mass_g=mass * share), replace(whole, mass_g=mass * (1 - share))]

    assert demand_mol(parts) == pytest.approx(demand_mol([whole]))
    assert careful_mol(parts) == pytest.approx(careful_mol([whole]))


@given(st.floats(0, 100), alkalis)
def test_a_mixture_holds_the_moles_that_it_was_made_for(mol, alkali):
    assert pure_equivalents(alkali_mixture(mol, alkali), alkali) == pytest.approx(mol)


@given(fats, alkalis, st.floats(0, 2000))
def test_excess_alkali_and_negative_superfat_go_together(recipe, alkali, naoh):
    weighed = AlkaliMass(naoh)
    superfat = superfat_of(recipe, weighed, alkali)

    assert excess_alkali_g(recipe, weighed, alkali) == pytest.approx(-superfat * full_demand_naoh_g(recipe), abs=1e-9)


@given(st.one_of(st.floats(max_value=-1e-9), st.floats(0.51, 1e6), st.just(math.nan), st.just(math.inf)))
def test_a_superfat_out_of_range_is_refused_with_a_sentence(superfat):
    with pytest.raises(OutOfRange) as refusal:
        alkali_for([OLIVE], superfat, SODIUM)

    assert str(refusal.value).endswith(".")


@given(st.one_of(st.floats(max_value=-1e-9), st.just(math.nan), st.just(math.inf)))
def test_a_mass_out_of_range_is_refused_with_a_sentence(mass):
    for make in (lambda: Fat("olive", mass, 184, 196), lambda: AlkaliMass(mass), lambda: Acid("citric", mass, 876)):
        with pytest.raises(OutOfRange) as refusal:
            make()
        assert str(refusal.value).endswith(".")


@given(st.one_of(st.floats(max_value=0), st.floats(1.001, 1e6), st.just(math.nan)))
def test_a_purity_out_of_range_is_refused_with_a_sentence(purity):
    with pytest.raises(OutOfRange) as refusal:
        Alkali(naoh_purity=purity)

    assert str(refusal.value).endswith(".")


@given(st.one_of(st.floats(560.001, 1e6), st.floats(max_value=99.9), st.just(math.nan)))
def test_a_value_that_no_fat_has_is_refused_with_a_sentence(value):
    with pytest.raises(OutOfRange) as refusal:
        Fat("olive", 100, value, value)

    assert "olive" in str(refusal.value)


def test_grams_of_sodium_hydroxide_in_place_of_a_value_are_explained():
    with pytest.raises(OutOfRange, match="mg of KOH"):
        Fat("olive", 100, 0.134, 0.136)


def test_a_range_upside_down_is_refused():
    with pytest.raises(OutOfRange, match="upside down"):
        Fat("olive", 100, 196, 184)


def test_no_fat_at_all_is_refused():
    with pytest.raises(OutOfRange, match="no fat"):
        alkali_for([], 0.05, SODIUM)
    with pytest.raises(OutOfRange, match="no fat"):
        superfat_of([LANOLIN], AlkaliMass(10), SODIUM)


def test_half_the_alkali_by_mass_is_more_than_half_by_mole():
    assert Alkali(naoh_share=0.5, shares_by="mass").naoh_mole_share == pytest.approx(56.105 / (56.105 + 39.997))


def test_the_certificate_of_a_lot_wins_over_the_range():
    fat = replace(OLIVE, sv_own=188.5)

    assert fat.sv_central == fat.sv_for_alkali == 188.5
    assert not fat.is_wide


def test_a_narrow_range_counts_in_its_middle():
    assert OLIVE.sv_for_alkali == OLIVE.sv_central == 190
    assert careful_note(OLIVE) is None


def test_a_wide_range_counts_on_its_careful_side_and_says_so():
    assert SHEA.sv_for_alkali == pytest.approx(168.75)
    assert "varies a lot" in careful_note(SHEA)


# Ranges of Codex CXS 325R (shea) and CXS 210 (rice bran), CAMEO (avocado), Hilali 2005 (argan), neem from memory.
@pytest.mark.parametrize(
    ("low", "high"),
    [(160, 195), (180, 199), (177, 198), (180, 199.6), (175, 205)],
    ids=["shea", "rice", "avocado", "argan", "neem"],
)
def test_the_five_fats_of_wide_range_are_taken_carefully(low, high):
    fat = Fat("fat", 100, low, high)

    assert fat.is_wide
    assert fat.sv_for_alkali < fat.sv_central


def test_a_lean_lot_of_shea_is_not_lye_heavy_by_more_than_a_hair():
    weighed = alkali_for([SHEA], 0.05, SODIUM)
    lean = replace(SHEA, sv_own=160.0)

    assert superfat_of([lean], weighed, SODIUM) > -0.003


def test_lanolin_gets_no_alkali():
    assert alkali_for([OLIVE, LANOLIN], 0.05, SODIUM) == alkali_for([OLIVE], 0.05, SODIUM)
    assert "hardly saponifies" in careful_note(LANOLIN)


def test_a_wax_gets_alkali_for_its_free_acid_and_a_quarter_of_its_esters():
    beeswax = Fat("beeswax", 50, 87, 104, kind="wax ester", acid_value=20)

    assert JOJOBA.sv_for_alkali == pytest.approx(92.2 / 4)
    assert beeswax.sv_for_alkali == pytest.approx(20 + (104 - 20) / 4)
    assert "wax" in careful_note(JOJOBA)


def test_only_fats_with_something_to_say_have_a_note():
    assert len(careful_notes([OLIVE, SHEA, JOJOBA, LANOLIN, COCONUT])) == 3
