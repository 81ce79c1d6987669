"""Both pots on one picture: curves with their bands, the window, and the axes, as parts of an SVG.

The server draws; the phone only moves the line of now and puts its own readings in, along the same two scales.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from soapbench.bench.cooling import Cooling, CurveRow
from soapbench.bench.state import TemperatureReading

LEFT, RIGHT, TOP, BOTTOM = 50.0, 308.0, 12.0, 122.0  # in the view box of templates/bench/_picture.html, 322 by 150
STEPS_MINUTES = (5, 10, 15, 20, 30, 60, 120)
MOST_TICKS = 5
STEP_C = 20


@dataclass(frozen=True)
class Tick:
    at: float
    label: str


@dataclass(frozen=True)
class CurvePaths:
    """One pot: its band as a closed path, its middle as an open one."""

    pot: str
    band: str
    middle: str


@dataclass(frozen=True)
class Mark:
    """One reading; an odd one has another shape and says so."""

    event: str
    pot: str
    x: float
    y: float
    is_odd: bool


@dataclass(frozen=True)
class Picture:
    """Minutes run from `first` to `last`, degrees from `cold` to `hot`, over the plot between the four edges."""

    first: float
    last: float
    cold: float
    hot: float
    window_y: float
    window_height: float
    window_words: str
    curves: tuple[CurvePaths, ...]
    minutes: tuple[Tick, ...]
    degrees: tuple[Tick, ...]
    marks: tuple[Mark, ...] = ()
    left: float = LEFT
    right: float = RIGHT
    top: float = TOP
    bottom: float = BOTTOM

    def x(self, minutes: float) -> float:
        share = (minutes - self.first) / (self.last - self.first)
        return round(LEFT + min(max(share, 0.0), 1.0) * (RIGHT - LEFT), 1)

    def y(self, temp_c: float) -> float:
        share = (self.hot - temp_c) / (self.hot - self.cold)
        return round(TOP + min(max(share, 0.0), 1.0) * (BOTTOM - TOP), 1)


def picture_of(cooling: Cooling, readings: Sequence[TemperatureReading]) -> Picture | None:
    """Return the picture, or None until a pot was read."""
    rows = [row for pot in cooling.pots for row in pot.curve]
    if not rows:
        return None
    first, last = min(0.0, *(row[0] for row in rows)), max(row[0] for row in rows)
    cold = 10 * math.floor((min(cooling.room_c, cooling.low_c) - 2) / 10)
    hot = 10 * math.ceil(max(cooling.high_c + 5, *(row[2] for row in rows)) / 10)
    frame = Picture(first, last, cold, hot, 0, 0, "", (), (), ())
    top, bottom = frame.y(cooling.high_c), frame.y(cooling.low_c)
    return Picture(
        first,
        last,
        cold,
        hot,
        window_y=top,
        window_height=round(bottom - top, 1),
        window_words=f"{cooling.low_c:g}–{cooling.high_c:g} °C",
        curves=tuple(_paths(frame, pot.pot, pot.curve) for pot in cooling.pots),
        minutes=_minutes(frame),
        degrees=_degrees(frame),
        marks=_marks(frame, cooling, readings),
    )


def _paths(frame: Picture, pot: str, rows: tuple[CurveRow, ...]) -> CurvePaths:
    middle = " ".join(f"{frame.x(t)},{frame.y(central)}" for t, _low, central, _high in rows)
    upper = " ".join(f"{frame.x(t)},{frame.y(high)}" for t, _low, _central, high in rows)
    lower = " ".join(f"{frame.x(t)},{frame.y(low)}" for t, low, _central, _high in reversed(rows))
    return CurvePaths(pot, f"M{upper} L{lower}Z", f"M{middle}")


def _marks(frame: Picture, cooling: Cooling, readings: Sequence[TemperatureReading]) -> tuple[Mark, ...]:
    odd = {event for pot in cooling.pots for event in pot.odd}
    pots = {pot.pot for pot in cooling.pots}
    shown = [one for one in readings if one.pot in pots and one.at >= cooling.began]
    times = [(one.at - cooling.began).total_seconds() / 60 for one in shown]
    return tuple(
        Mark(one.event, one.pot, frame.x(time), frame.y(one.temp_c), one.event in odd)
        for one, time in zip(shown, times, strict=True)
    )


def _minutes(frame: Picture) -> tuple[Tick, ...]:
    span = frame.last - frame.first
    step = next((step for step in STEPS_MINUTES if span / step <= MOST_TICKS), STEPS_MINUTES[-1])
    times = range(step * math.ceil(frame.first / step), math.floor(frame.last) + 1, step)
    return tuple(Tick(frame.x(time), str(time)) for time in times)


def _degrees(frame: Picture) -> tuple[Tick, ...]:
    values = range(STEP_C * math.ceil(frame.cold / STEP_C), int(frame.hot) + 1, STEP_C)
    return tuple(Tick(frame.y(value), f"{value}°C" if value == values[-1] else str(value)) for value in values)
