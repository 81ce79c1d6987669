"""How much of what was weighed for a portion goes into the portion that was really split off."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.science.errors import not_negative, positive
from soapbench.science.sources import STOICHIOMETRY, Relation, Source

PROPORTION = Source("proportion", "Proportion", "what was weighed, by needed over weighed", STOICHIOMETRY.confidence)


@dataclass(frozen=True, slots=True)
class Taking:
    """What to put in: grams with the carrier it is dispersed in, of how much, and the share of the dose that this is.

    share is 1 when the dose is right, less when too little was weighed.
    """

    take_g: float
    of_g: float
    share: float

    @property
    def is_all(self) -> bool:
        return self.take_g == self.of_g

    @property
    def is_short(self) -> bool:
        return self.share < 1


def taking(weighed_g: float, needed_g: float, tolerance_g: float, carrier_g: float = 0.0) -> Taking:
    """Return how much of an addition goes in.

    Args:
        weighed_g: of the addition itself.
        needed_g: what its dose asks for in the portion as it is.
        tolerance_g: within it the two are the same.
        carrier_g: the oil or water that it is dispersed in; it goes in by the same share.

    Raises:
        OutOfRange: nothing was weighed, or another mass is negative.

    Source: proportion.
    """
    positive(weighed_g, "What was weighed")
    not_negative(needed_g, "What is needed")
    whole = weighed_g + not_negative(carrier_g, "The carrier")
    gap = needed_g - weighed_g
    if abs(gap) <= not_negative(tolerance_g, "The tolerance") + 1e-9:
        return Taking(whole, whole, 1.0)
    if gap > 0:
        return Taking(whole, whole, weighed_g / needed_g)
    return Taking(whole * needed_g / weighed_g, whole, 1.0)


CONSTANTS = ()
RELATIONS = (
    Relation("Part of what was weighed", "(m + carrier)·needed/m", "g", PROPORTION, "soapbench.science.taking.taking"),
)
