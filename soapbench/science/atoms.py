"""Molar masses of what meets in the soap pot, built from the atomic weights alone.

All in g/mol. Source: CIAAW 2021 abridged atomic weights; the sums are ours.
"""

from __future__ import annotations

from .errors import OutOfRange
from .sources import CIAAW_2021, STOICHIOMETRY, Constant, Relation
from .words import say


def _weight(name: str, symbol: str, value: float) -> Constant:
    return Constant(f"atomic weight of {name}", symbol, value, "g/mol", CIAAW_2021, "every molar mass")


HYDROGEN = _weight("hydrogen", "H", 1.008)
CARBON = _weight("carbon", "C", 12.011)
OXYGEN = _weight("oxygen", "O", 15.999)
SODIUM = _weight("sodium", "Na", 22.990)
POTASSIUM = _weight("potassium", "K", 39.098)


def molar_mass(*, c: int = 0, h: int = 0, o: int = 0, na: int = 0, k: int = 0) -> float:
    """Return the molar mass in g/mol of a formula given by its counts of atoms.

    Raises:
        OutOfRange: a negative count.

    Source: sum of CIAAW 2021 abridged atomic weights.
    """
    if min(c, h, o, na, k) < 0:
        raise OutOfRange(say("A formula cannot hold fewer than no atoms. Look at its counts again."))
    return c * CARBON.value + h * HYDROGEN.value + o * OXYGEN.value + na * SODIUM.value + k * POTASSIUM.value


NAOH = molar_mass(na=1, o=1, h=1)
KOH = molar_mass(k=1, o=1, h=1)
WATER = molar_mass(h=2, o=1)
GLYCEROL = molar_mass(c=3, h=8, o=3)
SODIUM_CARBONATE = molar_mass(na=2, c=1, o=3)
POTASSIUM_CARBONATE = molar_mass(k=2, c=1, o=3)
CARBON_DIOXIDE = molar_mass(c=1, o=2)
NAOH_PER_KOH = NAOH / KOH

CONSTANTS = (
    HYDROGEN,
    CARBON,
    OXYGEN,
    SODIUM,
    POTASSIUM,
    Constant("molar mass of sodium hydroxide", "M(NaOH)", NAOH, "g/mol", STOICHIOMETRY, "alkali"),
    Constant("molar mass of potassium hydroxide", "M(KOH)", KOH, "g/mol", STOICHIOMETRY, "alkali"),
    Constant("molar mass of water", "M(H2O)", WATER, "g/mol", STOICHIOMETRY, "mass balance"),
    Constant("molar mass of glycerol", "M(C3H8O3)", GLYCEROL, "g/mol", STOICHIOMETRY, "mass balance"),
    Constant("molar mass of sodium carbonate", "M(Na2CO3)", SODIUM_CARBONATE, "g/mol", STOICHIOMETRY, "carbonate"),
    Constant("molar mass of potassium carbonate", "M(K2CO3)", POTASSIUM_CARBONATE, "g/mol", STOICHIOMETRY, "carbonate"),
    Constant("molar mass of carbon dioxide", "M(CO2)", CARBON_DIOXIDE, "g/mol", STOICHIOMETRY, "carbonate"),
    Constant(
        "grams of NaOH that do the work of one gram of KOH",
        "M(NaOH)/M(KOH)",
        NAOH_PER_KOH,
        "g/g",
        STOICHIOMETRY,
        "alkali",
    ),
)
RELATIONS = (
    Relation(
        "molar mass of a formula",
        "M = sum of (count x atomic weight)",
        "g/mol",
        CIAAW_2021,
        "soapbench.science.atoms.molar_mass",
    ),
)
