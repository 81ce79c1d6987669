"""In which order to scent and to pour so that no portion is too thick when its turn comes.

One pair of hands: one act at a time. A portion's time runs from the first drop of its scent to the end of its pour.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from soapbench.science.errors import OutOfRange, not_negative, positive
from soapbench.science.scent_time import Behaviour, cooler_by_k, planning_minutes, working_minutes
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import say

__all__ = [
    "Behaviour",
    "LatestStart",
    "Schedule",
    "ScentedPortion",
    "cooler_by_k",
    "planning_minutes",
    "schedule",
    "working_minutes",
]

ONE_HAND = Source(
    "one-machine",
    "Scheduling on one machine with due dates",
    "earliest due date first has the smallest greatest lateness (J. R. Jackson 1955); every pour order is tried",
    "from memory",
)
POUR_MINUTES = Constant(
    "Pouring one portion",
    "",
    1.5,
    "min",
    OWN_CHOICE,
    "ScentedPortion, until measured",
    why="A jug of batter in a thin stream.",
)
MOST_ORDERS = Constant(
    "Most pour orders tried",
    "",
    5040,
    "",
    OWN_CHOICE,
    "schedule: seven free portions",
    why="All orders of seven portions; eight would take eight times as long.",
)
COOLEST = Constant(
    "Most that cooler mixing is offered for", "", 10.0, "K", OWN_CHOICE, "schedule", why="Cooler still, hard fats set."
)


@dataclass(frozen=True, slots=True)
class ScentedPortion:
    """A portion of batter.

    working_minutes: pourable for so long once scented (math.inf where it does not matter).
    scent_minutes: hands-on time of scenting; 0 is a portion without scent, whose time runs from the start.
    pour_order: its place among the portions whose order the drawing fixes; None is free.
    """

    letter: str
    working_minutes: float
    scent_minutes: float
    pour_order: int | None = None
    pour_minutes: float = POUR_MINUTES.value


@dataclass(frozen=True, slots=True)
class LatestStart:
    """One act, when it is planned and the latest time at which none is late for it, in minutes from the start.

    latest_minutes is None when nothing presses.
    """

    letter: str
    act: Literal["scent", "pour"]
    planned_minutes: float
    latest_minutes: float | None


@dataclass(frozen=True, slots=True)
class Schedule:
    """The order of pours and of scents, every act with its latest start, and what would help where nothing works."""

    order: tuple[str, ...]
    latest_starts: tuple[LatestStart, ...]
    ok: bool
    sentence: str
    scent_order: tuple[str, ...] = ()
    spare_minutes: float | None = None
    ways_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Act:
    portion: ScentedPortion
    act: Literal["scent", "pour"]
    start: float

    @property
    def end(self) -> float:
        return self.start + (self.portion.scent_minutes if self.act == "scent" else self.portion.pour_minutes)


def schedule(
    portions: Sequence[ScentedPortion], *, batter_minutes: float = math.inf, scent_all_first: bool = True
) -> Schedule:
    """Return the order of scenting and pouring with the most spare time.

    Args:
        portions: each with a letter of its own.
        batter_minutes: time from the start until the unscented batter itself is too thick.
        scent_all_first: the drawing needs every portion ready before the first pour (drops, one after the other);
            False: each is scented just before its own pour (layers).

    Raises:
        OutOfRange: there is no portion, two share a letter, a time is negative, or there are too many to try.

    Source: one machine with due dates, J. R. Jackson 1955, from memory; every pour order is tried.
    """
    _check(portions, batter_minutes)
    acts = _best(portions, batter_minutes, scent_all_first)
    spare = _spare(acts, batter_minutes)
    ok = spare >= -1e-9
    ways = () if ok else _ways_out(portions, batter_minutes, scent_all_first)
    order, scents = (tuple(a.portion.letter for a in acts if a.act == act) for act in ("pour", "scent"))
    return Schedule(
        order=order,
        latest_starts=tuple(_latest(acts, i, batter_minutes) for i in range(len(acts))),
        ok=ok,
        sentence=_sentence(order, scents, spare, scent_all_first) if ok else _late_sentence(acts, batter_minutes, ways),
        scent_order=scents,
        spare_minutes=None if math.isinf(spare) else spare,
        ways_out=ways,
    )


def _check(portions: Sequence[ScentedPortion], batter_minutes: float) -> None:
    if not portions:
        raise OutOfRange(say("There is no portion to pour."))
    if len({portion.letter for portion in portions}) < len(portions):
        raise OutOfRange(say("Two portions have the same letter. Give each its own."))
    if not batter_minutes > 0:
        raise OutOfRange(say("The batter's own working time must be more than 0 min."))
    for portion in portions:
        not_negative(portion.scent_minutes, "The scenting time of {letter}", "min", letter=portion.letter)
        positive(portion.pour_minutes, "The pouring time of {letter}", "min", letter=portion.letter)
        if not portion.working_minutes > 0:
            raise OutOfRange(say("The working time of {letter} must be more than 0 min.", letter=portion.letter))


def _orders(portions: Sequence[ScentedPortion]) -> list[list[ScentedPortion]]:
    """Return every pour order that keeps the fixed portions in their order; quick free ones first."""
    fixed = [p for p in portions if p.pour_order is not None]
    free = sorted((p for p in portions if p.pour_order is None), key=lambda p: -p.working_minutes)
    if math.factorial(len(portions)) / math.factorial(len(fixed)) > MOST_ORDERS.value:
        raise OutOfRange(say("More than seven portions in free order cannot be planned. Fix the order of some."))
    orders = [sorted(fixed, key=lambda p: p.pour_order or 0)]
    for portion in free:
        orders = [[*order[:i], portion, *order[i:]] for order in orders for i in range(len(order) + 1)]
    return orders


def _best(portions: Sequence[ScentedPortion], batter_minutes: float, scent_all_first: bool) -> list[_Act]:
    lay_out = _scents_then_pours if scent_all_first else _turn_by_turn
    candidates = [lay_out(order) for order in _orders(portions)]
    return max(candidates, key=lambda acts: _spare(acts, batter_minutes))


def _scents_then_pours(order: Sequence[ScentedPortion]) -> list[_Act]:
    poured_by, end = {}, 0.0
    for portion in order:
        end += portion.pour_minutes
        poured_by[portion.letter] = end
    scented = [p for p in order if p.scent_minutes > 0]
    # Seen backwards from the first pour, the portion that may wait least must be scented last.
    scented.sort(key=lambda p: p.working_minutes - poured_by[p.letter], reverse=True)
    return _timed([*((p, "scent") for p in scented), *((p, "pour") for p in order)])


def _turn_by_turn(order: Sequence[ScentedPortion]) -> list[_Act]:
    steps: list[tuple[ScentedPortion, Literal["scent", "pour"]]] = []
    for portion in order:
        steps += [(portion, "scent")] if portion.scent_minutes > 0 else []
        steps.append((portion, "pour"))
    return _timed(steps)


def _timed(steps: Sequence[tuple[ScentedPortion, Literal["scent", "pour"]]]) -> list[_Act]:
    acts: list[_Act] = []
    for portion, act in steps:
        acts.append(_Act(portion, act, acts[-1].end if acts else 0.0))
    return acts


def _scented_at(acts: Sequence[_Act]) -> dict[str, float]:
    return {a.portion.letter: a.start for a in acts if a.act == "scent"}


def _spares(acts: Sequence[_Act]) -> dict[str, float]:
    """Return for each portion the minutes left when its pour ends; negative is late."""
    began = _scented_at(acts)
    return {
        a.portion.letter: a.portion.working_minutes - (a.end - began.get(a.portion.letter, 0.0))
        for a in acts
        if a.act == "pour"
    }


def _spare(acts: Sequence[_Act], batter_minutes: float) -> float:
    return min(*_spares(acts).values(), batter_minutes - acts[-1].end)


def _latest(acts: Sequence[_Act], at: int, batter_minutes: float) -> LatestStart:
    """Return the latest start of one act: those scented before and poured after it must bear the delay."""
    spares, began = _spares(acts), _scented_at(acts)
    later = {a.portion.letter for a in acts[at:] if a.act == "pour"}
    scented_now = {a.portion.letter for a in acts[at:] if a.act == "scent"}
    waiting = [spares[letter] for letter in later - scented_now if letter in began or spares[letter] < math.inf]
    delay = min([*waiting, batter_minutes - acts[-1].end])
    latest = None if math.isinf(delay) else acts[at].start + delay
    return LatestStart(acts[at].portion.letter, acts[at].act, acts[at].start, latest)


def _works(portions: Sequence[ScentedPortion], batter_minutes: float, scent_all_first: bool) -> bool:
    return bool(portions) and _spare(_best(portions, batter_minutes, scent_all_first), batter_minutes) >= -1e-9


def _ways_out(portions: Sequence[ScentedPortion], batter_minutes: float, scent_all_first: bool) -> tuple[str, ...]:
    """Return what would make it work, the least painful first; each was tried."""
    ways = []
    free = [replace(p, pour_order=None) for p in portions]
    if len(portions) <= 7 and _works(free, batter_minutes, scent_all_first):
        order = [a.portion.letter for a in _best(free, batter_minutes, scent_all_first) if a.act == "pour"]
        ways.append(say("Pour in the order {order}.", order=", ".join(order)))
    if scent_all_first and _works(portions, batter_minutes, False):
        ways.append(say("Scent each portion just before its own pour, if the drawing allows it."))
    factor = _factor(portions, batter_minutes, scent_all_first)
    if factor is not None and cooler_by_k(factor) <= COOLEST.value:
        kelvin = max(1, math.ceil(cooler_by_k(factor)))
        ways.append(
            say(
                "Gain {factor:.0f} % of working time: mix about {kelvin} °C cooler, or use more water.",
                factor=100 * (factor - 1),
                kelvin=kelvin,
            )
        )
    for index, portion in enumerate(portions):
        plain = replace(portion, scent_minutes=0.0, working_minutes=math.inf)
        others = [*portions[:index], *portions[index + 1 :]]
        if portion.scent_minutes > 0 and _works([*others, plain], batter_minutes, scent_all_first):
            ways.append(say("Scent {letter} less, or leave it unscented.", letter=portion.letter))
        elif _works(others, batter_minutes, scent_all_first):
            ways.append(say("Choose a simpler drawing, without portion {letter}.", letter=portion.letter))
    return tuple(ways) or (say("Choose a simpler drawing with fewer portions, a calmer scent, or more water."),)


def _factor(portions: Sequence[ScentedPortion], batter_minutes: float, scent_all_first: bool) -> float | None:
    def works(factor: float) -> bool:
        longer = [replace(p, working_minutes=p.working_minutes * factor) for p in portions]
        return _works(longer, batter_minutes * factor, scent_all_first)

    low, high = 1.0, 2.0
    if not works(high):
        return None
    for _ in range(7):  # to 1 %
        middle = (low + high) / 2
        low, high = (low, middle) if works(middle) else (middle, high)
    return high


def _sentence(order: Sequence[str], scents: Sequence[str], spare: float, scent_all_first: bool) -> str:
    rest = "" if math.isinf(spare) else " " + say("{spare:.1f} min to spare.", spare=spare)
    if not scents:
        return say("Pour {order}.{rest}", order=", ".join(order), rest=rest)
    if scent_all_first:
        return say(
            "Scent {scents}, then pour {order}.{rest}", scents=", ".join(scents), order=", ".join(order), rest=rest
        )
    return say("Scent and pour one at a time: {order}.{rest}", order=", ".join(order), rest=rest)


def _late_sentence(acts: Sequence[_Act], batter_minutes: float, ways: Sequence[str]) -> str:
    letter, spare = min(_spares(acts).items(), key=lambda item: item[1])
    batter = batter_minutes - acts[-1].end
    if batter < spare:
        return say(
            "No order works: the batter is too thick {batter:.1f} min before the end. {ways}",
            batter=-batter,
            ways=ways[0],
        )
    return say(
        "No order works: {letter} would be {spare:.1f} min late. {ways}", letter=letter, spare=-spare, ways=ways[0]
    )


CONSTANTS = (POUR_MINUTES, MOST_ORDERS, COOLEST)
RELATIONS = (
    Relation(
        "Order of scenting and pouring",
        "greatest least spare time over all pour orders; earliest due date for the scents",
        "min",
        ONE_HAND,
        "soapbench.science.working_time.schedule",
    ),
    Relation(
        "What would help",
        "each way tried in the same plan",
        "",
        COMMON_PRACTICE,
        "soapbench.science.working_time.schedule",
    ),
)
