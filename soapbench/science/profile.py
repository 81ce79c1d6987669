"""The fatty acids of a blend of fats, and the values that they let us calculate."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from operator import eq

from .atoms import KOH
from .errors import SMALLEST, OutOfRange, not_negative, number
from .fats import Kind
from .fatty_acids import acid_molar_mass, carbon_atoms, double_bonds, free_acid_iodine_factor, iodine_factor
from .interval import Interval
from .profile_words import compare_with_published, sentences
from .sources import OWN_CHOICE, Constant, Relation, Source
from .words import say

__all__ = [
    "Composition",
    "FatProfile",
    "Profile",
    "calculated_iodine_value",
    "calculated_saponification_value",
    "compare_with_published",
    "profile_of",
    "sentences",
]

Composition = Mapping[str, tuple[float, float]]

_SAPONIFICATION = Source(
    "aocs-cd-3a-94",
    "AOCS Cd 3a-94, calculated saponification value",
    "SV = 3 x 56.1 x 1000 / (3 A + 92.09 - 3 x 18); not for fats with much unsaponifiable matter",
    "published",
)
_IODINE = Source(
    "aocs-cd-1c-85",
    "AOCS Recommended Practice Cd 1c-85, calculated iodine value",
    "sum of per cent x factor of the triglyceride",
    "published",
)

KOH_AOCS = Constant(
    "potassium hydroxide in the AOCS formula",
    "",
    56.1,
    "g/mol",
    _SAPONIFICATION,
    "calculated_saponification_value",
)
GLYCEROL_AOCS = Constant(
    "glycerol in the AOCS formula", "", 92.09, "g/mol", _SAPONIFICATION, "calculated_saponification_value"
)
WATER_AOCS = Constant(
    "three waters in the AOCS formula", "", 54.0, "g/mol", _SAPONIFICATION, "calculated_saponification_value"
)


@dataclass(frozen=True, slots=True)
class FatProfile:
    """A mass of one fat with the published ranges of its fatty acids, per cent of fatty acids; empty when unknown.

    Raises:
        OutOfRange: a negative mass, an unknown short name, or a range upside down or outside 0 to 100.
    """

    name: str
    mass_g: float
    composition: Composition
    kind: Kind = "triglyceride"

    def __post_init__(self) -> None:
        not_negative(self.mass_g, "The mass of {name}", name=self.name)
        check_composition(self.composition, self.name)

    @property
    def is_known(self) -> bool:
        """Return whether the acids tell about this fat: not for a wax, half of which is alcohols."""
        listed = sum(high for _, high in self.composition.values())
        return self.mass_g > 0 and listed > 0 and self.kind in ("triglyceride", "fatty acid")


@dataclass(frozen=True, slots=True)
class Profile:
    """The blend: each acid and each group in per cent of fatty acids, and the two calculated values.

    Every interval is what the published ranges allow, not 95 %. known_share is the mass share of the fats whose
    composition is known; all else counts on those only.
    """

    acids: tuple[tuple[str, Interval], ...]
    saponification_value: Interval
    iodine_value: Interval
    saturated: Interval
    monounsaturated: Interval
    polyunsaturated: Interval
    known_share: float

    def acid(self, *codes: str) -> float:
        """Return the central per cent of these acids together."""
        return sum(interval.central for code, interval in self.acids if code in codes)


def check_composition(composition: Composition, name: str = "this fat") -> None:
    """Raise OutOfRange unless each acid is known and runs from a smaller to a larger per cent, 0 to 100."""
    for code, (low, high) in composition.items():
        acid_molar_mass(code)
        if not 0 <= number(low, code) <= number(high, code) <= 100:
            raise OutOfRange(
                say("{code} of {name} must run from a smaller to a larger per cent, 0 to 100.", code=code, name=name)
            )


def profile_of(fats: Sequence[FatProfile]) -> Profile:
    """Return the profile of a blend, mixed by mass.

    Raises:
        OutOfRange: no fat has a mass, or none of them has a known composition.

    Source: AOCS Cd 3a-94 and Cd 1c-85 for the values; the ranges are those of the compositions given.
    """
    total = sum(fat.mass_g for fat in fats)
    if total < SMALLEST:
        raise OutOfRange(say("There is no fat here yet. Add a fat with its weight."))
    known = [fat for fat in fats if fat.is_known]
    if not known:
        raise OutOfRange(say("The fatty acids of these fats are not known, so nothing can be said about the blend."))
    codes = sorted({code for fat in known for code in fat.composition}, key=_order)
    return Profile(
        acids=tuple((code, _blend(known, _share_of(partial(eq, code)))) for code in codes),
        saponification_value=_blend(known, lambda fat: calculated_saponification_value(fat.composition, fat.kind)),
        iodine_value=_blend(known, lambda fat: calculated_iodine_value(fat.composition, fat.kind)),
        saturated=_bonds(known, lambda bonds: bonds == 0),
        monounsaturated=_bonds(known, lambda bonds: bonds == 1),
        polyunsaturated=_bonds(known, lambda bonds: bonds > 1),
        known_share=sum(fat.mass_g for fat in known) / total,
    )


def calculated_saponification_value(composition: Composition, kind: Kind = "triglyceride") -> Interval:
    """Return the saponification value, mg KOH/g, that a composition allows: of its middle, and its extremes.

    Raises:
        OutOfRange: the composition is empty, or the fat is neither a triglyceride nor a fatty acid.

    Source: AOCS Cd 3a-94; for split fatty acids 56.105 x 1000 / mean molar mass. Not for waxes, nor for fats with
    much unsaponifiable matter or free acid.
    """
    check_composition(composition)
    finish = {"triglyceride": _glyceride_value, "fatty acid": _acid_value}[_reckonable(kind)]
    return _of_mixture(composition, lambda code: 100 / acid_molar_mass(code), finish)


def _glyceride_value(reciprocal: float) -> float:
    mean_acid = 100 / reciprocal
    return 3 * KOH_AOCS.value * 1000 / (3 * mean_acid + GLYCEROL_AOCS.value - WATER_AOCS.value)


def _acid_value(reciprocal: float) -> float:
    return KOH * 1000 * reciprocal / 100


def calculated_iodine_value(composition: Composition, kind: Kind = "triglyceride") -> Interval:
    """Return the iodine value, g per 100 g, that a composition allows: of its middle, and its extremes.

    Raises:
        OutOfRange: the composition is empty, or the fat is neither a triglyceride nor a fatty acid.

    Source: AOCS Cd 1c-85, factors of triglycerides or of free acids; not exact for acids with a hydroxyl group.
    """
    check_composition(composition)
    factor = {"triglyceride": iodine_factor, "fatty acid": free_acid_iodine_factor}[_reckonable(kind)]
    return _of_mixture(composition, lambda code: 100 * factor(code), lambda value: value)


def _reckonable(kind: Kind) -> str:
    if kind not in ("triglyceride", "fatty acid"):
        raise OutOfRange(say("The acids alone do not tell the values of a wax. Use its published ones."))
    return kind


def _of_mixture(composition: Composition, weight: Callable[[str], float], finish: Callable[[float], float]) -> Interval:
    ends = (_extreme(composition, weight, -1), _middle(composition, weight), _extreme(composition, weight, 1))
    low, central, high = (finish(value) for value in ends)
    return Interval(min(low, central), central, max(high, central))


def _middle(composition: Composition, weight: Callable[[str], float]) -> float:
    middles = {code: (low + high) / 2 for code, (low, high) in composition.items()}
    return _mean(middles, weight)


def _extreme(composition: Composition, weight: Callable[[str], float], sign: int) -> float:
    # All at their minimum, then what is missing to 100 % from the acids that push the mean farthest.
    amounts = {code: low for code, (low, _) in composition.items()}
    missing = 100 - sum(amounts.values())
    for code in sorted(composition, key=lambda code: -sign * weight(code)):
        low, high = composition[code]
        added = max(0.0, min(high - low, missing))
        amounts[code] += added
        missing -= added
    return _mean(amounts, weight)


def _mean(amounts: Mapping[str, float], weight: Callable[[str], float]) -> float:
    # Published tables leave out traces, so what they list counts as the whole.
    total = sum(amounts.values())
    if total < SMALLEST:
        raise OutOfRange(say("Enter the per cent of at least one fatty acid."))
    return sum(amount * weight(code) for code, amount in amounts.items()) / total


def _share_of(wanted: Callable[[str], bool]) -> Callable[[FatProfile], Interval]:
    def share(fat: FatProfile) -> Interval:
        return _of_mixture(fat.composition, lambda code: 100.0 if wanted(code) else 0.0, lambda value: value)

    return share


def _bonds(fats: Sequence[FatProfile], wanted: Callable[[int], bool]) -> Interval:
    return _blend(fats, _share_of(lambda code: wanted(double_bonds(code))))


def _blend(fats: Sequence[FatProfile], of: Callable[[FatProfile], Interval]) -> Interval:
    total = sum(fat.mass_g for fat in fats)
    parts = [of(fat).scaled(fat.mass_g / total) for fat in fats]
    return Interval(
        sum(part.low for part in parts), sum(part.central for part in parts), sum(part.high for part in parts)
    )


def _order(code: str) -> tuple[int, float]:
    return carbon_atoms(code), acid_molar_mass(code)


CONSTANTS = (KOH_AOCS, GLYCEROL_AOCS, WATER_AOCS)
_AT = "soapbench.science.profile."
RELATIONS = (
    Relation(
        "calculated saponification value",
        "SV = 3 x 56.1 x 1000 / (3 A + 92.09 - 54), A = 100 / sum(w/M)",
        "mg KOH/g",
        _SAPONIFICATION,
        _AT + "calculated_saponification_value",
    ),
    Relation(
        "calculated iodine value", "IV = sum of per cent x factor", "g/100 g", _IODINE, _AT + "calculated_iodine_value"
    ),
    Relation(
        "profile of a blend", "mixed by mass; ends by filling each range to 100 %", "%", OWN_CHOICE, _AT + "profile_of"
    ),
)
