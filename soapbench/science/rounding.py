"""Weights that the scale can show, and how near to them is near enough."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor
from typing import Literal

from .errors import chosen, not_negative, positive
from .sources import OWN_CHOICE, Constant, Relation, Source

Kind = Literal["alkali", "fat", "water", "scent", "colour", "addition"]

_RULES = Source(
    "entry-rules",
    "Rules for entering weights at the bench",
    "tolerance = max(one step, share of the target); no outside source",
    "own choice",
)


_MINIMUM = Source(
    "oiml-r76",
    "OIML R 76-1, Non-automatic weighing instruments",
    "minimum capacity of class III is 20 e; from memory",
    "from memory",
)


def _share(kind: str, value: float, why: str) -> Constant:
    name = f"tolerance when weighing: {kind}"
    return Constant(name, "p", value, "share of the target", _RULES, "tolerance_g", why)


# Fats and alkali have a tolerance by their effect on the superfat (see effect.py); these two stand in without a batch.
# Water: 2 % moves a lye of 33 % by less than half a point of strength. Scents and additions: 2 % keeps a dose inside
# what its limit leaves. Colours: 5 % is a shade that the eye does not tell apart.
TOLERANCE: dict[Kind, Constant] = {
    "alkali": _share("alkali", 0.005, "Half a per cent of the alkali is half a point of superfat."),
    "fat": _share("fat", 0.01, "A per cent of one fat among three is a third of a point of superfat."),
    "water": _share("water", 0.02, "Two per cent of the water move a 33 % lye by less than half a point."),
    "scent": _share("scent", 0.02, "Nobody smells it, and its limit is checked apart."),
    "colour": _share("colour", 0.05, "Nobody sees it."),
    "addition": _share("addition", 0.02, "As a scent; what takes alkali is counted as weighed."),
}
COARSE = Constant(
    "share of the alkali that one scale step may be",
    "d/N",
    0.005,
    "share",
    _RULES,
    "scale_too_coarse",
    why="One step is then half of what the tolerance allows.",
)
SMALLEST_STEPS = Constant(
    "steps below which a weighing means little",
    "n",
    20,
    "scale steps",
    _MINIMUM,
    "smallest_sensible_g",
    why="One step is then 5 % of the mass, the widest tolerance of all.",
)
_HAIR = 1e-9  # lifts 2.4999999999 that meant 2.5


def round_to(mass_g: float, resolution_g: float) -> float:
    """Return the mass rounded to the step of the scale, half a step upwards, g.

    Raises:
        OutOfRange: a negative mass or a step that is not above 0.

    Source: rule B of ISO 80000-1 (a half goes up), from memory.
    """
    not_negative(mass_g, "The mass")
    return _grams(floor(mass_g / positive(resolution_g, "The step of the scale") + 0.5 + _HAIR), resolution_g)


def _grams(steps: int, resolution_g: float) -> float:
    return round(steps * resolution_g, 9)


def round_keeping_total(masses: Sequence[float], resolution_g: float) -> tuple[float, ...]:
    """Return the masses rounded to the step so that they still add up to the rounded total, g.

    Each is cut down to a whole step; the steps left over go to the largest remainders, so none is off by a step or
    more. Source: method of largest remainders, common knowledge.

    Raises:
        OutOfRange: a negative mass or a step that is not above 0.
    """
    positive(resolution_g, "The step of the scale")
    shares = [not_negative(mass, "The mass") / resolution_g for mass in masses]
    total = round_to(sum(masses), resolution_g)
    steps = [floor(share + _HAIR) for share in shares]
    left_over = round(total / resolution_g) - sum(steps)
    by_remainder = sorted(range(len(steps)), key=lambda index: steps[index] - shares[index])
    for index in by_remainder[: max(left_over, 0)]:
        steps[index] += 1
    return tuple(_grams(step, resolution_g) for step in steps)


def tolerance_g(kind: Kind, target_g: float, resolution_g: float) -> float:
    """Return how far a reading may be from its target, g: one step, or the share of its kind if that is more.

    Raises:
        OutOfRange: an unknown kind, a negative target or a step that is not above 0.

    Source: own choice, no outside source.
    """
    chosen(kind, TOLERANCE, "a kind of weighing")
    positive(resolution_g, "The step of the scale")
    return max(resolution_g, TOLERANCE[kind].value * not_negative(target_g, "The target"))


def smallest_sensible_g(resolution_g: float) -> float:
    """Return the smallest mass worth weighing on a scale of this step, g: twenty steps.

    Raises:
        OutOfRange: a step that is not above 0.

    Source: OIML R 76-1, minimum capacity of class III, from memory.
    """
    return SMALLEST_STEPS.value * positive(resolution_g, "The step of the scale")


def scale_too_coarse(resolution_g: float, alkali_g: float) -> bool:
    """Return whether one step is more than 0.5 % of the alkali.

    Raises:
        OutOfRange: a step or an alkali that is not above 0.

    Source: own choice, no outside source.
    """
    return positive(resolution_g, "The step of the scale") / positive(alkali_g, "The alkali") > COARSE.value


CONSTANTS = (*TOLERANCE.values(), COARSE, SMALLEST_STEPS)
_AT = "soapbench.science.rounding."
RELATIONS = (
    Relation("rounding to the scale", "whole steps, half upwards", "g", OWN_CHOICE, _AT + "round_to"),
    Relation("rounding that keeps the total", "largest remainders", "g", OWN_CHOICE, _AT + "round_keeping_total"),
    Relation("tolerance", "T = max(d, p x target)", "g", _RULES, _AT + "tolerance_g"),
    Relation("smallest sensible mass", "20 d", "g", _MINIMUM, _AT + "smallest_sensible_g"),
    Relation("scale too coarse for the alkali", "d / N > 0.005", "", _RULES, _AT + "scale_too_coarse"),
)
