"""What is still possible when a portion thickened early, or waits beyond its working time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from soapbench.science.errors import OutOfRange, number, positive
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.working_time import ScentedPortion, schedule

from .words import say

LateAct = Literal["", "pour", "spoon"]

SPOON_AFTER = Constant(
    "Overdue by this share of its working time: spoon",
    "",
    0.25,
    "",
    OWN_CHOICE,
    "spoon_after_minutes",
    why="A portion planned with little time gets stiff sooner after it than one with much.",
)
STILL_POURS = Constant(
    "Time left to a portion that thickens",
    "",
    2.0,
    "min",
    OWN_CHOICE,
    "pours_left",
    why="Batter that is seen to thicken still runs for a pour or two.",
)


@dataclass(frozen=True, slots=True)
class PoursLeft:
    """The order of the pours that are left; keeps_plan says whether it is the drawing's own."""

    order: tuple[str, ...]
    keeps_plan: bool
    sentence: str


def spoon_after_minutes(working_minutes: float) -> float:
    """Return how long after the end of its working time a portion is spooned rather than poured, min.

    Raises:
        OutOfRange: the working time is not above zero.

    Source: own choice.
    """
    return SPOON_AFTER.value * positive(working_minutes, "A working time", "min")


def late_act(working_minutes: float, over_minutes: float) -> LateAct:
    """Return what to do with a portion whose working time ended so long ago: pour it next, or spoon it in.

    Raises:
        OutOfRange: the working time is not above zero, or the time over is no number.

    Source: common practice; when the one becomes the other is our own choice.
    """
    spoon_after = spoon_after_minutes(working_minutes)
    if number(over_minutes, "The time over") < 0:
        return ""
    return "spoon" if over_minutes >= spoon_after else "pour"


def pours_left(portions: Sequence[ScentedPortion], thickened: str, *, scent_all_first: bool = True) -> PoursLeft:
    """Return the order that is still possible for the portions not poured yet, and say it.

    Args:
        portions: those not poured yet, with the working time that each has left; pour_order as the drawing fixes it.
        thickened: letter of the one that thickens; whatever it had left, a couple of minutes are counted.
        scent_all_first: as schedule.

    Raises:
        OutOfRange: the thickened portion is not among them, or as schedule.

    Source: as schedule; the time left to the thick one is our own choice.
    """
    if thickened not in {one.letter for one in portions}:
        raise OutOfRange(say("Portion {thickened} is poured already.", thickened=thickened))
    hurried = [_hurried(one, thickened) for one in portions]
    planned = _order(hurried, scent_all_first)
    if planned is not None:
        return PoursLeft(planned, True, say("Pour {listed}, in this order.", listed=_listed(planned)))
    freed = _order([replace(one, pour_order=None) for one in hurried], scent_all_first)
    if freed is not None and freed[0] == thickened:
        sentence = say(
            "Pour {listed}, in this order: {thickened} changes its place in the drawing.",
            listed=_listed(freed),
            thickened=thickened,
        )
        return PoursLeft(freed, False, sentence)
    rest = _in_place(portions)
    sentence = say(
        "No order leaves {thickened} fluid. Keep {listed}, and spoon {thickened} in when its turn comes.",
        thickened=thickened,
        listed=_listed(rest),
    )
    return PoursLeft(rest, True, sentence)


def _hurried(portion: ScentedPortion, thickened: str) -> ScentedPortion:
    if portion.letter != thickened:
        return portion
    return replace(portion, working_minutes=min(portion.working_minutes, STILL_POURS.value), scent_minutes=0.0)


def _order(portions: Sequence[ScentedPortion], scent_all_first: bool) -> tuple[str, ...] | None:
    try:
        found = schedule(portions, scent_all_first=scent_all_first)
    except OutOfRange:  # too many to try
        return None
    return found.order if found.ok else None


def _in_place(portions: Sequence[ScentedPortion]) -> tuple[str, ...]:
    return tuple(one.letter for one in sorted(portions, key=lambda one: one.pour_order or math.inf))


def _listed(letters: Sequence[str]) -> str:
    return ", ".join(letters)


CONSTANTS = (SPOON_AFTER, STILL_POURS)
_HERE = "soapbench.science.late_pour."
RELATIONS = (
    Relation("When to spoon instead of pour", "a quarter of t over", "min", OWN_CHOICE, _HERE + "spoon_after_minutes"),
    Relation("What to do with a late portion", "pour it next, then spoon it", "", COMMON_PRACTICE, _HERE + "late_act"),
    Relation("Order of the pours that are left", "as the schedule, 2 min left", "", OWN_CHOICE, _HERE + "pours_left"),
)
