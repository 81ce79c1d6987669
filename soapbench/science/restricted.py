"""Substances inside scents that have a limit of their own, added up over all oils."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from .doses import DoseCheck, Limit, check_dose
from .errors import SMALLEST, OutOfRange, fraction, not_negative
from .sources import STOICHIOMETRY, Confidence, Constant, Relation, Source
from .words import say

_READ = "read in the standard"
_SECOND_HAND = "read second-hand"
_MEMORY = "from memory, ask your supplier"


def _ifra(max_percent: float, confidence: str = _MEMORY) -> Limit:
    return Limit(max_percent, "finished product", "IFRA 49th Amendment, category 9", confidence)


def _eu(max_percent: float, confidence: str = _SECOND_HAND) -> Limit:
    return Limit(max_percent, "finished product", "EU cosmetics regulation, Annex III, rinse-off", confidence)


# The figure on the certificate of the very oil always wins over these.
LIMITS: dict[str, tuple[Limit, ...]] = {
    "methyl eugenol": (_ifra(0.00087, _READ), _eu(0.001, _MEMORY)),
    "citronellal": (_ifra(1.4, _READ),),
    "citral": (_ifra(1.2),),
    "cinnamal": (_ifra(0.49),),
    "eugenol": (_ifra(4.9),),
    "isoeugenol": (_ifra(0.21), _eu(0.02)),
    "geraniol": (_ifra(9.2),),
    "coumarin": (_ifra(2.9),),
    "hydroxycitronellal": (_ifra(4.0), _eu(1.0)),
    "oakmoss extract": (_ifra(0.10),),
    "safrole": (Limit(0.01, "finished product", "IFRA, total from natural parts", _SECOND_HAND),),
}

WITHOUT_LIMIT = ("limonene", "linalool")  # but fresh oil only: peroxide value below 20 mmol/l, with an antioxidant


@dataclass(frozen=True, slots=True)
class Scent:
    """A mass of one scent and what its certificate says is in it, as fractions by mass of the oil.

    Raises:
        OutOfRange: a negative mass, or a part outside 0 to 1.
    """

    name: str
    mass_g: float
    parts: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        not_negative(self.mass_g, "The mass of {name}", name=self.name)
        for substance, share in self.parts.items():
            fraction(share, "The {substance} in {name}", substance=substance, name=self.name)


def strictest_limit(substance: str) -> Limit | None:
    """Return the lowest limit known for a substance in a bar of soap, or None when there is none.

    Source: IFRA Standards 49th Amendment, category 9, and EU Annex III; each Limit says how far it can be trusted.
    """
    return min(LIMITS.get(substance.lower(), ()), key=lambda limit: limit.max_percent, default=None)


def substance_totals(scents: Sequence[Scent]) -> dict[str, float]:
    """Return the grams of each substance over all scents of a recipe or a portion.

    Source: IFRA asks to add up what natural oils contain; second-hand.
    """
    totals: dict[str, float] = defaultdict(float)
    for scent in scents:
        for substance, share in scent.parts.items():
            totals[substance.lower()] += scent.mass_g * share
    return dict(totals)


def check_substances(scents: Sequence[Scent], product_g: float) -> tuple[tuple[str, DoseCheck], ...]:
    """Check every substance that has a limit against it; substances without one are left out.

    Raises:
        OutOfRange: a product that is not above 0.

    Source: the limits in LIMITS, each with how far it can be trusted.
    """
    return tuple(
        (substance, check_dose(substance, mass, product_g, limit))
        for substance, mass in sorted(substance_totals(scents).items())
        if (limit := strictest_limit(substance))
    )


def largest_share_of_oil(substance: str, share_in_oil: float) -> float:
    """Return the most of one oil, per cent of the finished product, that keeps the substance's limit by itself.

    Raises:
        OutOfRange: no limit is known for the substance, or its share is not above 0 and at most 1.

    Source: limit of the substance by its share in the oil.
    """
    limit = strictest_limit(substance)
    if limit is None:
        raise OutOfRange(
            say(
                "No limit is known for “{substance}”. Ask the supplier for the certificate of the oil.",
                substance=substance,
            )
        )
    if fraction(share_in_oil, f"The {substance} in the oil") < SMALLEST:
        raise OutOfRange(say("An oil without {substance} is not limited by it.", substance=substance))
    return min(100.0, limit.max_percent / share_in_oil)


_TRUST: dict[str, Confidence] = {_READ: "published", _SECOND_HAND: "published", _MEMORY: "from memory"}


def _constant(substance: str, limit: Limit) -> Constant:
    source = Source("ifra-eu", limit.source, limit.confidence, _TRUST[limit.confidence])
    return Constant(f"highest share of {substance}", "", limit.max_percent, "% of the bar", source, "check_substances")


CONSTANTS = tuple(_constant(substance, limit) for substance, limits in LIMITS.items() for limit in limits)
_SUM = Source(
    "ifra-natural",
    "IFRA Standards, natural complex substances",
    "restricted parts of natural oils are added up; second-hand",
    "published",
)
_AT = "soapbench.science.restricted."
RELATIONS = (
    Relation("strictest limit", "the lowest of all known", "%", _SUM, _AT + "strictest_limit"),
    Relation("substance over all scents", "sum of oil x share", "g", _SUM, _AT + "substance_totals"),
    Relation("substance against its limit", "100 x sum / product <= limit", "%", _SUM, _AT + "check_substances"),
    Relation("most of one oil", "limit / share in the oil", "%", STOICHIOMETRY, _AT + "largest_share_of_oil"),
)
