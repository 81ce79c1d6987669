"""One mass to weigh."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from soapbench.science.rounding import round_to

ALL = "all"  # an addition that goes into the whole batter

Group = Literal["fat", "water", "liquid", "alkali", "colourant", "scent", "addition", "carrier"]


@dataclass(frozen=True)
class Amount:
    """One mass to weigh, rounded to the scale."""

    key: str  # "fat:olive", "water", "alkali:naoh", "colourant:B:indigo", "carrier:B:indigo:olive"
    material: str
    name: str
    group: Group
    mass_g: float
    portion: str = ""  # a letter, "all", or "" for what is there before the batter
    rate: float = 0.0
    basis: str = ""  # what the rate counts on; of a carrier: the group that it is taken from

    @property
    def grams(self) -> str:
        """Return the mass as it reads on the scale, without the unit."""
        return f"{self.mass_g:.10g}"


def total_g(lines: Iterable[Amount]) -> float:
    """Return the mass of all lines together, g."""
    return round(sum(line.mass_g for line in lines), 9)


def on_the_scale(mass_g: float, resolution_g: float) -> float:
    """Return the mass rounded to the scale, but never something rounded down to nothing.

    A pinch below half a step stays as it is: the check says that this scale cannot weigh it.
    """
    return round_to(mass_g, resolution_g) or round(mass_g, 4)
