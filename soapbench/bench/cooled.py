"""What the pots read by now: the curve through their readings, as rows that the phone can look up without a network."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from soapbench.bench.folding.book import LYE
from soapbench.bench.plan import Plan
from soapbench.bench.pots import POTS as POTS_THAT_COOL
from soapbench.bench.reading_screen import fit_of
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
    began = state.done.get(LYE)
    if began is None or state.is_combined or state.ended is not None:
        return ()
    found = []
    for pot in POTS_THAT_COOL:
        readings = [reading for reading in state.readings if reading.pot == pot]
        fit = fit_of(plan, state, pot) if readings else None
        if fit is not None:
            rows = tuple((round(row[0], 1), round(row[2], 1)) for row in fit.curve)
            found.append(Cooled(pot, readings[-1].temp_c, readings[-1].at, began, rows))
    return tuple(found)
