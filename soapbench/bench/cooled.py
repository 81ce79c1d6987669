"""What the pots read by now: the curve through their readings, as rows that the phone can look up without a network."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState

Row = tuple[float, float]  # minutes since the alkali met the water, °C


@dataclass(frozen=True)
class Cooled:
    """One pot: its latest reading, and the temperatures to expect after it."""

    pot: str
    last_c: float
    last_at: datetime
    began: datetime  # the nought of the curve's minutes
    curve: tuple[Row, ...]

    def at(self, now: datetime) -> float:
        """Return the temperature to expect, °C."""
        return looked_up(self.curve, (now - self.began) / timedelta(minutes=1))


def looked_up(curve: tuple[Row, ...], minutes: float) -> float:
    """Return the temperature on a curve, straight between its rows, level before and after them."""
    after = next((n for n, row in enumerate(curve) if row[0] >= minutes), len(curve) - 1)
    (later, warm_later), (earlier, warm_earlier) = curve[after], curve[max(0, after - 1)]
    if minutes >= later or later == earlier:
        return warm_later
    return warm_earlier + (warm_later - warm_earlier) * (minutes - earlier) / (later - earlier)


def cooled(plan: Plan, state: RunState) -> tuple[Cooled, ...]:
    """Return the pots that cool and were read, from the lye until lye meets fats."""
    found = state.cooling
    if found is None:
        return ()
    return tuple(
        Cooled(
            pot.pot,
            pot.last_c,
            found.began + timedelta(minutes=pot.last_minutes),
            found.began,
            tuple((round(row[0], 1), round(row[2], 1)) for row in pot.curve),
        )
        for pot in found.pots
        if pot.curve
    )
