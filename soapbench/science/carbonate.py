"""Alkali that the air has spoilt: carbonate takes no part in a cold process."""

from __future__ import annotations

from typing import Literal

from .atoms import CARBON_DIOXIDE, KOH, NAOH, POTASSIUM_CARBONATE, SODIUM_CARBONATE
from .errors import OutOfRange, chosen, fraction, not_negative
from .sources import STOICHIOMETRY, Constant, Relation
from .words import say

Solute = Literal["NaOH", "KOH"]

_MASSES: dict[str, tuple[float, float]] = {
    "NaOH": (NAOH, SODIUM_CARBONATE),
    "KOH": (KOH, POTASSIUM_CARBONATE),
}


def purity_without_carbonate(total_alkali: float, carbonate: float, solute: Solute = "NaOH") -> float:
    """Return the share of true hydroxide in a jar whose certificate counts carbonate as alkali.

    Args:
        total_alkali: total alkalinity of the certificate, as hydroxide, fraction.
        carbonate: share of carbonate in the jar, fraction.
        solute: which hydroxide.

    Raises:
        OutOfRange: a share outside 0 to 1, more carbonate than the alkalinity allows, or an unknown alkali.

    Source: one carbonate titrates as two hydroxides, but does not saponify glycerides in the cold.
    """
    fraction(total_alkali, "The total alkalinity")
    hydroxide, carbonate_mass = _masses(solute)
    purity = total_alkali - fraction(carbonate, "The carbonate") * 2 * hydroxide / carbonate_mass
    if purity <= 0:
        raise OutOfRange(say("There cannot be so much carbonate in that alkali. Read the certificate once more."))
    return purity


def alkali_lost_g(carbon_dioxide_g: float, solute: Solute = "NaOH") -> float:
    """Return the grams of hydroxide that this much carbon dioxide from the air has used up.

    Raises:
        OutOfRange: a negative mass or an unknown alkali.

    Source: CO2 + 2 NaOH = Na2CO3 + H2O, with CIAAW 2021 weights.
    """
    return 2 * not_negative(carbon_dioxide_g, "The carbon dioxide") * _masses(solute)[0] / CARBON_DIOXIDE


def alkali_as_carbonate_g(carbonate_g: float, solute: Solute = "NaOH") -> float:
    """Return the grams of hydroxide that were lost in making this much carbonate.

    Raises:
        OutOfRange: a negative mass or an unknown alkali.

    Source: CO2 + 2 NaOH = Na2CO3 + H2O, with CIAAW 2021 weights.
    """
    hydroxide, carbonate = _masses(solute)
    return 2 * not_negative(carbonate_g, "The carbonate") * hydroxide / carbonate


def _masses(solute: str) -> tuple[float, float]:
    return _MASSES[chosen(solute, _MASSES, "an alkali for soap")]


CONSTANTS: tuple[Constant, ...] = ()
_AT = "soapbench.science.carbonate."
RELATIONS = (
    Relation(
        "hydroxide without its carbonate",
        "P = total alkali - carbonate x 2 M(NaOH) / M(Na2CO3)",
        "share",
        STOICHIOMETRY,
        _AT + "purity_without_carbonate",
    ),
    Relation("alkali lost to the air", "2 x CO2 x M(NaOH) / M(CO2)", "g", STOICHIOMETRY, _AT + "alkali_lost_g"),
    Relation(
        "alkali that became carbonate",
        "2 x carbonate x M(NaOH) / M(Na2CO3)",
        "g",
        STOICHIOMETRY,
        _AT + "alkali_as_carbonate_g",
    ),
)
