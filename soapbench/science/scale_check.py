"""A scale tried with something of known mass: how far off it may be, and whether it may weigh the lye."""

from __future__ import annotations

from dataclasses import dataclass

from .errors import positive
from .scale import permissible_error_g
from .sources import OWN_CHOICE, Constant, Relation
from .units import OUNCE, POUND
from .words import say

CLASS = "III"
LARGEST_STEPS = Constant(
    "load above which class III sets no error; heavier ones keep its last error",
    "n",
    10_000,
    "scale steps",
    OWN_CHOICE,
    "limit when a scale is tried",
    "The class ends at 10 000 steps, and a heavier known mass should not be allowed a larger error than its last.",
)
_SLACK = 0.01
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class ScaleCheck:
    """Whether the scale may be used, how far it was off and how far it might have been, g, and what to do."""

    ok: bool
    off_g: float
    limit_g: float
    sentence: str


def check_limit_g(known_g: float, resolution_g: float) -> float:
    """Return how far off a scale may read a known mass, g.

    A bench scale without papers is held to class III, its step taken as the verification interval, in service.
    Source: as scale.permissible_error_g; taking class III for it is our own choice.

    Raises:
        OutOfRange: a mass or a step that is not above 0.
    """
    load = min(positive(known_g, "The known mass"), LARGEST_STEPS.value * positive(resolution_g, "The step"))
    return round(permissible_error_g(load, resolution_g, CLASS), 9)


def scale_check(known_g: float, read_g: float, resolution_g: float) -> ScaleCheck:
    """Return whether a scale that shows `read_g` for `known_g` may weigh the batch.

    Source: as check_limit_g; telling ounces and pounds by their ratio is our own choice.

    Raises:
        OutOfRange: a mass or a step that is not above 0.
    """
    limit = check_limit_g(known_g, resolution_g)
    off = round(read_g - known_g, 9)
    if abs(off) <= limit + _HAIR:
        return ScaleCheck(
            True,
            off,
            limit,
            say("The scale is {off:g} g off, {limit:g} g are allowed. It may be used.", off=abs(off), limit=limit),
        )
    return ScaleCheck(False, off, limit, _why(known_g, read_g, off, limit))


def _why(known_g: float, read_g: float, off_g: float, limit_g: float) -> str:
    if any(abs(read_g * unit / known_g - 1) <= _SLACK for unit in (OUNCE.value, POUND.value)):
        return say("The scale shows ounces or pounds. Set it to g, then try it again.")
    which = "over" if off_g > 0 else "short"
    return say(
        "The scale is {off:g} g {which}; {limit:g} g are allowed. Level it, change its battery, try another "
        "known thing or another scale.",
        off=abs(off_g),
        which=which,
        limit=limit_g,
    )


CONSTANTS = (LARGEST_STEPS,)
RELATIONS = (
    Relation(
        "whether a scale may weigh the batch",
        "|shown - known| <= limit",
        "g",
        OWN_CHOICE,
        "soapbench.science.scale_check.scale_check",
    ),
    Relation(
        "limit when a scale is tried with a known mass",
        "class III in service, e = d",
        "g",
        OWN_CHOICE,
        "soapbench.science.scale_check.check_limit_g",
    ),
)
