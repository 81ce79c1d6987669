"""From the readings of both pots to the time at which both are in the window."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache

from soapbench.bench.cooling import Cooling, CurveRow, PotCooling
from soapbench.bench.folding.book import COOL, MELT
from soapbench.bench.folding.tally import Tally
from soapbench.bench.pots import POTS, Pot, heat_capacity_of
from soapbench.bench.state import Change, RunningTimer, TemperatureReading
from soapbench.science.cooling import (
    CoolingFit,
    Prior,
    Reading,
    Window,
    both_in_window,
    curve_until,
    fit,
    minutes_to,
    prior_for,
    ways_into_window,
)
from soapbench.science.errors import OutOfRange
from soapbench.science.interval import Interval
from soapbench.science.remedy_answer import Remedy
from soapbench.science.words import say

MINUTE = 60.0
OPENS, CLOSES = "lye-cooling", "window-closes"  # keys of the timers; the first takes the place of the planned one
BEFORE_CLOSING = 5.0  # min of warning before the window closes; own choice: pot check and lye into fats take them
SHORTEST, LONGEST, BEYOND = 60.0, 360.0, 15.0  # min of curve to show, and how far past the last thing of interest
KEPT = 64  # fits kept in memory: the log is folded again and again with the same readings


def cooling(tally: Tally) -> Cooling | None:
    """Return both curves and their shared window, or None before the alkali is in and after the lye met the fats."""
    prompt, began = tally.book.prompts.get(COOL), tally.lye_at
    if prompt is None or prompt.low_c is None or prompt.high_c is None or began is None:
        return None
    if tally.is_combined or tally.ended is not None:
        return None
    room, was_read = _room(tally)
    fits = {pot: found for pot in POTS if (found := _fit(tally, pot, began, room, was_read)) is not None}
    shared = _shared(fits, prompt.low_c, prompt.high_c)
    until = _until(fits, shared, prompt.low_c, prompt.high_c)
    pots = tuple(_pot(tally, pot, fits[pot], prompt.high_c, prompt.low_c, until) for pot in fits)
    last = {each.pot: each.last_c for each in pots}
    decided = _decided(tally, began, pots)
    ways: tuple[Remedy, ...] = ()
    if shared is not None and not decided:
        ways = ways_into_window(shared, last["lye"], last["fats"], prompt.low_c, prompt.high_c)
    return Cooling(began, prompt.low_c, prompt.high_c, room, was_read, pots, shared, ways, decided)


def _room(tally: Tally) -> tuple[float, bool]:
    read = [reading.temp_c for reading in tally.readings if reading.pot == "room"]
    return (read[-1], True) if read else (tally.plan.room_c, False)


def readings_of(tally: Tally, pot: Pot, began: datetime) -> list[TemperatureReading]:
    """Return the readings of a pot that cools; what was read in the jug before the alkali is its water."""
    return [one for one in tally.readings if one.pot == pot and (pot != "lye" or one.at >= began)]


def _fit(tally: Tally, pot: Pot, began: datetime, room_c: float, was_read: bool) -> CoolingFit | None:
    readings = tuple(Reading(_minutes(one.at, began), one.temp_c) for one in readings_of(tally, pot, began))
    if not readings:
        return None
    try:
        found = _fitted(readings, room_c, _prior(tally, pot), was_read, _peak(tally, pot, began))
        # Something was changed that nobody spoke of: the last two readings are the new curve.
        return _fitted(readings[-2:], room_c, _prior(tally, pot), was_read, 0.0) if found.conditions_changed else found
    except OutOfRange:  # a reading that no curve can hold
        return None


@lru_cache(maxsize=KEPT)
def _fitted(readings: tuple[Reading, ...], room_c: float, prior: Prior, measured: bool, peak: float) -> CoolingFit:
    return fit(readings, room_c, prior, room_measured=measured, peak_minutes=peak)


@lru_cache(maxsize=KEPT)
def _curve(found: CoolingFit, until: float) -> tuple[CurveRow, ...]:
    return curve_until(found, until)


def _prior(tally: Tally, pot: Pot) -> Prior:
    return prior_for(heat_capacity_of(tally.plan, pot), tally.plan.cooling_learnt.get(pot))


def _peak(tally: Tally, pot: Pot, began: datetime) -> float:
    """Return the minute from which a pot was left alone: since it was hottest, or since somebody did something."""
    hottest = began if pot == "lye" else tally.done.get(MELT, began)
    return _minutes(max([hottest, *(change.at for change in _moved(tally))]), began)


def _moved(tally: Tally) -> list[Change]:
    """Return the changes that say that somebody warmed or cooled a pot."""
    return [change for change in tally.changes if change.what == "temperature off" and change.prompt == COOL]


def _decided(tally: Tally, began: datetime, pots: tuple[PotCooling, ...]) -> str:
    last = max(
        (pot.last_minutes for pot in pots), default=0.0
    )  # one that was written down ahead waits for its readings
    return next((change.decision for change in _moved(tally) if _minutes(change.at, began) > last), "")


def _minutes(at: datetime, began: datetime) -> float:
    return (at - began).total_seconds() / MINUTE


def _shared(fits: dict[Pot, CoolingFit], low_c: float, high_c: float) -> Window | None:
    if len(fits) < len(POTS):
        return None
    try:
        return both_in_window(fits["lye"], fits["fats"], low_c, high_c)
    except OutOfRange:
        return None


def _until(fits: dict[Pot, CoolingFit], shared: Window | None, low_c: float, high_c: float) -> float:
    """Return the minute to which the curves are worth showing."""
    times = [found.start_minutes + SHORTEST / 2 for found in fits.values()]
    times += [entry.high for found in fits.values() if (entry := _enters(found, low_c, high_c))]
    times += [shared.closes] if shared is not None and shared.closes is not None else []
    return min(LONGEST, max(SHORTEST, *times) + BEYOND) if times else SHORTEST


def _enters(found: CoolingFit, low_c: float, high_c: float) -> Interval | None:
    cools = found.start_c >= found.room_c.central
    is_inside = found.start_c <= high_c if cools else found.start_c >= low_c
    return Interval.exact(found.start_minutes) if is_inside else minutes_to(found, high_c if cools else low_c)


def _pot(tally: Tally, pot: Pot, found: CoolingFit, high_c: float, low_c: float, until: float) -> PotCooling:
    began = tally.lye_at
    assert began is not None
    readings = readings_of(tally, pot, began)
    learnt = tally.plan.cooling_learnt.get(pot)
    return PotCooling(
        pot=pot,
        curve=_curve(found, until),
        last_c=readings[-1].temp_c,
        last_minutes=_minutes(readings[-1].at, began),
        enters=_enters(found, low_c, high_c),
        odd=tuple(readings[at].event for at in found.odd_readings) if not found.conditions_changed else (),
        sentence=found.sentence,
        runs=learnt.runs if learnt else 0,
    )


def with_cooling(tally: Tally, running: tuple[RunningTimer, ...], found: Cooling | None) -> tuple[RunningTimer, ...]:
    """Return the timers with those of the window: set by the last fit, in place of the planned one."""
    if found is None or not found.pots:
        return running
    fitted = tuple(_timers(tally, found))
    if COOL in tally.done:
        return (*running, *[timer for timer in fitted if timer.key == CLOSES])
    return (*[timer for timer in running if timer.key != OPENS], *fitted)


def _timers(tally: Tally, found: Cooling) -> list[RunningTimer]:
    shared = found.shared
    if shared is None:
        return [
            _timer(found, OPENS, say("{pot}: read both pots", pot=found.pots[0].pot.capitalize()), _first_entry(found))
        ]
    if shared.opens is None or not shared.ok:
        return [_timer(found, OPENS, say("Read both pots"), max(pot.last_minutes for pot in found.pots) + 10)]
    timers = []
    if any(pot.last_c > found.high_c for pot in found.pots) or any(pot.last_c < found.low_c for pot in found.pots):
        timers.append(_timer(found, OPENS, say("Both pots are in the window"), shared.opens))
    if shared.closes is not None:
        warned = max(shared.opens, shared.closes - BEFORE_CLOSING)
        timers.append(_timer(found, CLOSES, say("The window closes soon"), warned))
    return timers


def _first_entry(found: Cooling) -> float:
    pot = found.pots[0]
    return pot.enters.central if pot.enters else pot.last_minutes + 10


def _timer(found: Cooling, key: str, label: str, minutes: float) -> RunningTimer:
    # To the second: a sum of floats must not make another deadline of the same one.
    return RunningTimer(key, label, found.began, found.began + timedelta(seconds=round(minutes * MINUTE)))
