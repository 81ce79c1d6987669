"""The shape of an answer to something that went differently from the plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .errors import positive
from .fats import Fat
from .superfat import SuperfatInterval
from .words import say


@dataclass(frozen=True, slots=True)
class Remedy:
    """One way out: a code for the record, a title, the sentence for the screen, and what it costs and gives.

    grams is the mass to weigh, pour or add, or None; superfat is what the batch then has, a fraction, or None, and
    interval its 95 % interval. What is to be done, for a machine: adds names what is weighed in and how much of it, g
    (a fat by its name, the alkalis as "NaOH" and "KOH", "water"; below nought it is so much less than was asked for);
    lye_share is the share of the made lye to pour; factor is what every amount still open is multiplied by.
    """

    code: str
    title: str
    sentence: str
    grams: float | None = None
    superfat: float | None = None
    interval: SuperfatInterval | None = None
    adds: tuple[tuple[str, float], ...] = ()
    lye_share: float | None = None
    factor: float | None = None


def percent(share: float) -> str:
    """Return a fraction as a per cent for a sentence, one decimal. Source: own wording."""
    return say("{share:.1f} %", share=100 * share)


def scaled(fats: Sequence[Fat], factor: float) -> list[Fat]:
    """Return the fats times a factor.

    Raises:
        OutOfRange: a factor that is not above 0.

    Source: proportion.
    """
    positive(factor, "The factor", "")
    return [replace(fat, mass_g=fat.mass_g * factor) for fat in fats]
