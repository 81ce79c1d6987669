"""What one gram more or less does to the superfat, and how far a weighing may be off because of it."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, inf
from typing import Literal

from .alkali import Alkali, Fat, check_superfat, demand_mol
from .atoms import KOH, NAOH
from .errors import SMALLEST, OutOfRange, chosen, not_negative, number, positive
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation
from .words import say

MOST_POINTS = Constant(
    "how far one weighing may move the superfat",
    "t",
    0.005,
    "share",
    OWN_CHOICE,
    "tolerance_by_effect",
    why="A tenth of the 5 % that a usual bar carries, so that several weighings at their edge leave it one.",
)
MOST_OF_LINE = Constant(
    "share of a fat or alkali that its tolerance may be at most",
    "",
    0.05,
    "share",
    OWN_CHOICE,
    "tolerance_by_effect",
    why="A small fat hardly moves the superfat, but it is in the recipe for its own sake.",
)
JARS = ("NaOH", "KOH")
_HAIR = 1e-9  # lifts 2.9999999999 steps that meant 3


def fat_slope(fat: Fat, fats: Sequence[Fat], superfat: float) -> float:
    """Return how much superfat, a fraction, one gram more of a fat brings: df/dm = (1 - f) S / A.

    Args:
        fat: only its values count, not its mass.
        fats: all fats of the pot.
        superfat: what the batch is made for, a fraction.

    Raises:
        OutOfRange: no fat that takes alkali, or a superfat out of range.

    Source: f = 1 - p N / A, so df/dm = p N S / A^2.
    """
    return (1 - check_superfat(superfat)) * fat.sv_central / 1000 / KOH / _fat_mol(fats)


def alkali_slope(jar: Literal["NaOH", "KOH"], fats: Sequence[Fat], alkali: Alkali) -> float:
    """Return how much superfat, a fraction and negative, one gram more from a jar takes: df/dN = -p / A.

    Raises:
        OutOfRange: no fat that takes alkali.

    Source: f = 1 - p N / A.
    """
    return -mol_per_g(jar, alkali) / _fat_mol(fats)


def mol_per_g(jar: Literal["NaOH", "KOH"], alkali: Alkali) -> float:
    """Return the moles of pure alkali in one gram as it lies on the scale.

    Raises:
        OutOfRange: neither of the two jars.

    Source: purity over the molar mass.
    """
    chosen(jar, JARS, "The alkali")
    return alkali.naoh_purity / NAOH if jar == "NaOH" else alkali.koh_purity / KOH


def tolerance_by_effect(slope_per_g: float, target_g: float, resolution_g: float) -> float:
    """Return how far a fat or an alkali may be from its target, g, in whole steps of the scale.

    As much as moves the superfat by half a point, at most 5 % of the line itself, never less than one step.

    Raises:
        OutOfRange: a negative target, a slope that is no number, or a step that is not above 0.

    Source: own choice of both limits.
    """
    step = positive(resolution_g, "The step of the scale")
    slope = abs(number(slope_per_g, "What a gram does"))
    by_effect = MOST_POINTS.value / slope if slope > SMALLEST else inf
    most = min(by_effect, MOST_OF_LINE.value * not_negative(target_g, "The target"))
    return round(max(1, floor(most / step + _HAIR)) * step, 9)


def _fat_mol(fats: Sequence[Fat]) -> float:
    found = demand_mol(fats)
    if found < SMALLEST:
        raise OutOfRange(say("There is no fat here that takes alkali. Weigh the fats first."))
    return found


CONSTANTS = (MOST_POINTS, MOST_OF_LINE)
_AT = "soapbench.science.effect."
RELATIONS = (
    Relation("superfat for a gram of fat", "df/dm = (1 - f) S / A", "share/g", STOICHIOMETRY, _AT + "fat_slope"),
    Relation("superfat for a gram of alkali", "df/dN = -p / A", "share/g", STOICHIOMETRY, _AT + "alkali_slope"),
    Relation("alkali in a gram from the jar", "p / M", "mol/g", STOICHIOMETRY, _AT + "mol_per_g"),
    Relation(
        "tolerance of a fat or an alkali",
        "T = max(d, min(0.005 / |df/dm|, 0.05 x target)), in whole steps d",
        "g",
        OWN_CHOICE,
        _AT + "tolerance_by_effect",
    ),
)
