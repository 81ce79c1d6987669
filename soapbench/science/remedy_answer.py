"""The shape of an answer to something that went differently from the plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .errors import positive
from .fats import Fat


@dataclass(frozen=True, slots=True)
class Remedy:
    """One way out: a code for the record, a title, the sentence for the screen, and what it costs and gives.

    grams is the mass to weigh, pour or add, or None; superfat is what the batch then has, a fraction, or None.
    """

    code: str
    title: str
    sentence: str
    grams: float | None = None
    superfat: float | None = None


def percent(share: float) -> str:
    """Return a fraction as a per cent for a sentence, one decimal. Source: own wording."""
    return f"{100 * share:.1f} %"


def scaled(fats: Sequence[Fat], factor: float) -> list[Fat]:
    """Return the fats times a factor.

    Raises:
        OutOfRange: a factor that is not above 0.

    Source: proportion.
    """
    positive(factor, "The factor", "")
    return [replace(fat, mass_g=fat.mass_g * factor) for fat in fats]
