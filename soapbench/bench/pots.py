"""The two pots that cool, as the plan has them: their vessels and what heat they hold."""

from __future__ import annotations

from collections.abc import Iterable

from soapbench.bench.plan import Line, LineGroup, Plan
from soapbench.science.cooling import pot_heat_capacity
from soapbench.science.cooling_window import Pot
from soapbench.science.mixing import FATS_C

__all__ = ["POTS", "Pot", "heat_capacity_of", "mass_g", "vessel_of"]

POTS: tuple[Pot, ...] = ("lye", "fats")
GROUPS: dict[Pot, tuple[LineGroup, ...]] = {"lye": ("water", "liquid", "alkali"), "fats": ("fat",)}
# kJ/(kg K). The lye's is that of a third at 50 °C, rounded: the fit learns the rate from the readings anyway.
CP_OF: dict[Pot, float] = {"lye": 3.3, "fats": FATS_C.value}


def vessel_of(lines: Iterable[Line], pot: Pot) -> str:
    """Return the name of the vessel that a pot is in, "" where the lines name none."""
    first: LineGroup = "water" if pot == "lye" else "fat"
    return next((line.vessel for line in lines if line.group == first), "")


def mass_g(plan: Plan, pot: Pot) -> float:
    return sum(line.planned_g for line in plan.in_group(*GROUPS[pot]))


def heat_capacity_of(plan: Plan, pot: Pot) -> float:
    """Return the heat capacity of what is in a pot, kJ/K.

    Raises:
        OutOfRange: the pot is empty.
    """
    return pot_heat_capacity(mass_g(plan, pot), CP_OF[pot])
