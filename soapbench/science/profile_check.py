"""Whether the values that follow from the fatty acids agree with the published ones, of one fat or of a blend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .errors import OutOfRange, not_negative
from .interval import Interval
from .profile import FatProfile, profile_of
from .profile_words import Comparison, compare_with_published
from .sources import Relation, Source
from .words import say

_STANDARDS = Source(
    "aocs-calculated",
    "AOCS Cd 3a-94 and Cd 1c-85, calculated saponification and iodine values",
    "held against the ranges that the standards of the fats print",
    "published",
)
SAPONIFICATION = "saponification value (AOCS Cd 3a-94)"
IODINE = "iodine value (AOCS Cd 1c-85)"

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PublishedFat:
    """A fat with its fatty acids and the ranges of its values as published; None where none is printed.

    Raises:
        OutOfRange: a negative end, or a range upside down.
    """

    profile: FatProfile
    saponification_value: Range | None
    iodine_value: Range | None

    def __post_init__(self) -> None:
        for ends in (self.saponification_value, self.iodine_value):
            if ends is not None and not_negative(ends[0], "The low end") > not_negative(ends[1], "The high end"):
                raise OutOfRange(say("A published range of {name} is upside down.", name=self.profile.name))


def compare_values(fats: Sequence[PublishedFat]) -> tuple[Comparison, ...]:
    """Return how the calculated values stand to the published ones; fats of unknown composition are left out.

    Empty when no composition is known. A value is left out when one of the fats has none published.

    Raises:
        OutOfRange: as the calculated values do.

    Source: AOCS Cd 3a-94 and Cd 1c-85 for what is calculated; both values count on one gram, so they mix by mass.
    """
    known = [fat for fat in fats if fat.profile.is_known]
    if not known:
        return ()
    blend = profile_of([fat.profile for fat in known])
    pairs = (
        (SAPONIFICATION, blend.saponification_value, [fat.saponification_value for fat in known]),
        (IODINE, blend.iodine_value, [fat.iodine_value for fat in known]),
    )
    masses = [fat.profile.mass_g for fat in known]
    found = (_compared(what, calculated, masses, ranges) for what, calculated, ranges in pairs)
    return tuple(one for one in found if one)


def _compared(
    what: str, calculated: Interval, masses: Sequence[float], ranges: Sequence[Range | None]
) -> Comparison | None:
    parts = [(mass, ends) for mass, ends in zip(masses, ranges, strict=True) if ends is not None]
    if len(parts) < len(masses):
        return None
    low, high = (sum(mass * ends[end] for mass, ends in parts) / sum(masses) for end in (0, 1))
    return compare_with_published(what, calculated, round(low, 1), round(high, 1))


CONSTANTS = ()
RELATIONS = (
    Relation(
        "calculated against published values",
        "the ranges overlap; published ones mixed by mass",
        "",
        _STANDARDS,
        "soapbench.science.profile_check.compare_values",
    ),
)
