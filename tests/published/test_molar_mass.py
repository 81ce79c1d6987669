"""Molar masses and short names of fatty acids against a general reference library and the formulas of the acids."""

import pytest

from soapbench.science.acids import ACIDS, acid_of
from soapbench.science.alkali import Alkali, acid_mol, alkali_mixture
from soapbench.science.atoms import molar_mass
from soapbench.science.fatty_acids import (
    acid_molar_mass,
    carbon_atoms,
    double_bonds,
    glyceride_molar_mass,
    sodium_soap_molar_mass,
)

# Formulas as printed in dictionaries of chemistry under the systematic names (octadecanoic acid and so on).
FORMULAS = [
    *(("C8:0", "C8H16O2"), ("C10:0", "C10H20O2"), ("C12:0", "C12H24O2"), ("C14:0", "C14H28O2"), ("C16:0", "C16H32O2")),
    *(("C16:1", "C16H30O2"), ("C18:0", "C18H36O2"), ("C18:1", "C18H34O2"), ("C18:1-OH", "C18H34O3")),
    *(("C18:2", "C18H32O2"), ("C18:3", "C18H30O2"), ("C20:0", "C20H40O2"), ("C20:1", "C20H38O2")),
    *(("C22:0", "C22H44O2"), ("C22:1", "C22H42O2"), ("C24:0", "C24H48O2")),
]


def reference(formula):
    """Return the molar mass that the library chemicals works out; its atomic weights are older by some 1e-5."""
    chemicals = pytest.importorskip("chemicals")
    return chemicals.molecular_weight(chemicals.nested_formula_parser(formula))


@pytest.mark.parametrize(
    ("counts", "formula"),
    [
        ({"na": 1, "o": 1, "h": 1}, "NaOH"),
        ({"k": 1, "o": 1, "h": 1}, "KOH"),
        ({"c": 3, "h": 8, "o": 3}, "C3H8O3"),
        ({"na": 2, "c": 1, "o": 3}, "Na2CO3"),
        ({"k": 2, "c": 1, "o": 3}, "K2CO3"),
        ({"c": 57, "h": 110, "o": 6}, "C57H110O6"),
    ],
)
def test_a_molar_mass_equals_that_of_the_reference_library(counts, formula):
    assert molar_mass(**counts) == pytest.approx(reference(formula), rel=5e-5)


@pytest.mark.parametrize(("code", "formula"), FORMULAS)
def test_a_fatty_acid_weighs_what_its_formula_weighs(code, formula):
    assert acid_molar_mass(code) == pytest.approx(reference(formula), rel=5e-5)


@pytest.mark.parametrize(("code", "formula"), FORMULAS)
def test_the_short_name_tells_the_atoms_and_double_bonds_of_the_formula(code, formula):
    chemicals = pytest.importorskip("chemicals")
    atoms = chemicals.nested_formula_parser(formula)

    assert carbon_atoms(code) == atoms["C"]
    assert double_bonds(code) == (2 * atoms["C"] - atoms["H"]) / 2


# Triolein is C57H104O6, tristearin C57H110O6; sodium stearate is C18H35NaO2, sodium oleate C18H33NaO2.
@pytest.mark.parametrize(
    ("code", "glyceride", "soap"),
    [("C18:0", "C57H110O6", "C18H35NaO2"), ("C18:1", "C57H104O6", "C18H33NaO2"), ("C12:0", "C39H74O6", "C12H23NaO2")],
)
def test_a_triglyceride_and_a_soap_weigh_what_their_formulas_weigh(code, glyceride, soap):
    assert glyceride_molar_mass(code) == pytest.approx(reference(glyceride), rel=5e-5)
    assert sodium_soap_molar_mass(code) == pytest.approx(reference(soap), rel=5e-5)


@pytest.mark.parametrize(
    ("kind", "formula", "groups"),
    [
        ("citric anhydrous", "C6H8O7", 3),
        ("citric monohydrate", "C6H10O8", 3),
        ("lactic", "C3H6O3", 1),
        ("acetic", "C2H4O2", 1),
        ("ricinoleic", "C18H34O3", 1),
    ],
)
def test_alkali_taken_by_an_acid_follows_from_its_formula(kind, formula, groups):
    expected = groups * reference("KOH") * 1000 / reference(formula)

    assert ACIDS[kind].koh_mg_per_g == pytest.approx(expected, rel=1e-4)


# 21.0 g of citric acid monohydrate are a tenth of a mole, 12.0 g of acetic acid two tenths: 0.3 + 0.2 mol of alkali.
def test_the_moles_that_two_acids_take_together():
    acids = [acid_of("citric monohydrate", 21.01), acid_of("acetic", 12.01)]

    assert acid_mol(acids) == pytest.approx(0.5, rel=0.001)


# A mole of alkali, half of it each by mole, with the molar masses of the library and the purities of the jars.
def test_a_mixture_of_both_alkalis_weighs_what_the_reference_library_says():
    mixed = alkali_mixture(1.0, Alkali(naoh_share=0.5, naoh_purity=0.98, koh_purity=0.9))

    assert mixed.naoh_g == pytest.approx(0.5 * reference("NaOH") / 0.98, rel=5e-5)
    assert mixed.koh_g == pytest.approx(0.5 * reference("KOH") / 0.9, rel=5e-5)
