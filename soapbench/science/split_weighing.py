"""A mass that the scale or the vessel cannot take at once: in which parts to weigh it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, inf
from typing import Literal

from .errors import OutOfRange, not_negative, positive
from .rounding import round_to
from .sources import OWN_CHOICE, Constant, Relation
from .words import say

HANDY = Constant(
    "steps in which a part of a weighing is cut off",
    "",
    50.0,
    "g",
    OWN_CHOICE,
    "split_weighing",
    why="A round figure is hit faster than an odd one; the last part carries the odd grams.",
)
MOST_PARTS = Constant(
    "parts in which one thing is weighed at most",
    "",
    12,
    "",
    OWN_CHOICE,
    "split_weighing",
    why="A dozen weighings of one thing add up a dozen errors; a larger scale is the answer.",
)
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class SplitWeighing:
    """The parts in their order, g, and why there is more than one, or why not in its own vessel.

    is_aside: the vessel with what is in it is too heavy for the scale; weigh in a cup and pour it in.
    """

    parts: tuple[float, ...]
    limit: Literal["", "scale", "vessel"] = ""
    is_aside: bool = False


def split_weighing(
    to_go_g: float,
    *,
    capacity_g: float,
    resolution_g: float,
    tare_g: float = 0.0,
    in_it_g: float = 0.0,
    room_g: float = inf,
    cup_tare_g: float = 0.0,
    cup_room_g: float = inf,
) -> SplitWeighing:
    """Return the parts in which to weigh what is still to go, g.

    Args:
        to_go_g: still to weigh.
        capacity_g: the most that the scale carries, vessel included.
        tare_g, in_it_g: the empty vessel, and what is in it already.
        room_g: what the vessel still holds.
        cup_tare_g, cup_room_g: of the cup that is used when the vessel cannot stay on the scale.

    Raises:
        OutOfRange: a negative mass, no step, or a scale that carries no more than the empty vessel.

    Source: own choice of round parts.
    """
    not_negative(to_go_g, "What is to weigh")
    positive(resolution_g, "The step of the scale")
    for mass, name in ((tare_g, "The vessel"), (in_it_g, "What is in it"), (cup_tare_g, "The cup")):
        not_negative(mass, name)
    if not (room_g >= 0 and cup_room_g >= 0):
        raise OutOfRange(say("What a vessel still holds cannot be less than nothing."))
    fits_scale = tare_g + in_it_g + to_go_g <= positive(capacity_g, "What the scale carries") + _HAIR
    if fits_scale and to_go_g <= room_g + _HAIR:
        return SplitWeighing((to_go_g,))
    limit: Literal["scale", "vessel"] = "vessel" if fits_scale else "scale"
    is_aside = in_it_g > 0 and not fits_scale
    free = min(capacity_g - cup_tare_g, cup_room_g) if is_aside else min(capacity_g - tare_g - in_it_g, room_g)
    return SplitWeighing(_parts(to_go_g, free, resolution_g), limit, is_aside)


def _parts(to_go_g: float, free_g: float, resolution_g: float) -> tuple[float, ...]:
    if free_g < resolution_g or to_go_g / free_g > MOST_PARTS.value:
        raise OutOfRange(say("This scale or vessel is too small for it. Take a larger one."))
    step = HANDY.value if free_g >= 2 * HANDY.value else resolution_g
    part = floor(free_g / step + _HAIR) * step
    count = ceil(to_go_g / part - _HAIR)
    return (*[round(part, 9)] * (count - 1), round_to(to_go_g - part * (count - 1), resolution_g))


CONSTANTS = (HANDY, MOST_PARTS)
RELATIONS = (
    Relation(
        "parts of a weighing",
        "as many full parts as the scale carries, rounded down to 50 g, then the rest",
        "g",
        OWN_CHOICE,
        "soapbench.science.split_weighing.split_weighing",
    ),
)
