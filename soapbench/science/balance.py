"""What comes out of the pot: soap, glycerol and the water that free acid makes."""

from __future__ import annotations

from dataclasses import dataclass

from .analysis import ester_value
from .atoms import GLYCEROL, KOH, NAOH, WATER
from .errors import fraction, not_negative
from .fats import check_saponification_value
from .sources import STOICHIOMETRY, Constant, Relation


@dataclass(frozen=True, slots=True)
class MassBalance:
    """Pure NaOH in; glycerol, water from free acid, and dry soap with what does not saponify out, all g."""

    naoh_g: float
    glycerol_g: float
    water_g: float
    soap_g: float


def mass_balance(
    fat_g: float, saponification_value: float, acid_value: float = 0.0, inert_share: float = 0.0
) -> MassBalance:
    """Return what full saponification of a fat takes and gives, g.

    Args:
        fat_g: mass of the fat as weighed, g.
        saponification_value: of the fat without its inert share, mg KOH/g.
        acid_value: its part that is free acid, mg KOH/g; gives water in place of glycerol.
        inert_share: fraction of the mass that does not react and is left out of the soap.

    Raises:
        OutOfRange: a value that no fat has, an acid value above it, a negative mass or a share outside 0 to 1.

    Source: RCOO-glyceryl + 3 NaOH = 3 soap + glycerol; RCOOH + NaOH = soap + water; mass is conserved.
    """
    check_saponification_value(saponification_value, "this fat")
    active = not_negative(fat_g, "The mass of the fat") * (1 - fraction(inert_share, "The inert share"))
    naoh = active * saponification_value / 1000 / KOH * NAOH
    glycerol = active * ester_value(saponification_value, acid_value) / 1000 / KOH / 3 * GLYCEROL
    water = active * acid_value / 1000 / KOH * WATER
    return MassBalance(naoh, glycerol, water, active + naoh - glycerol - water)


CONSTANTS: tuple[Constant, ...] = ()
RELATIONS = (
    Relation(
        "mass balance of saponification",
        "soap = fat + NaOH - glycerol - water",
        "g",
        STOICHIOMETRY,
        "soapbench.science.balance.mass_balance",
    ),
)
