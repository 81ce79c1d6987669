"""What a fitted cooling curve tells: the time to a temperature, both pots in one window, what a jug teaches."""

from __future__ import annotations

from soapbench.science.cooling_fit import GRID, HORIZON, CoolingFit, CurveRow, fit
from soapbench.science.cooling_law import (
    LearntRate,
    Prior,
    Reading,
    check_temperature,
    learn_rate,
    minutes_between,
    pot_heat_capacity,
    prior_for,
    temperature_after,
)
from soapbench.science.cooling_window import (
    Pot,
    PotTimes,
    Window,
    below_window_advice,
    check_window,
    reading_doubt,
    ways_into_window,
    window,
)
from soapbench.science.errors import OutOfRange, number
from soapbench.science.interval import Interval
from soapbench.science.sources import Constant, Relation

from .words import say

__all__ = [
    "CoolingFit",
    "LearntRate",
    "Prior",
    "Reading",
    "Window",
    "below_window_advice",
    "both_in_window",
    "check_temperature",
    "curve_until",
    "fit",
    "learn",
    "learn_rate",
    "minutes_between",
    "minutes_to",
    "pot_heat_capacity",
    "prior_for",
    "rate_of",
    "reading_doubt",
    "temperature_after",
    "ways_into_window",
]


def learn(learnt: LearntRate | None, fit: CoolingFit, heat_capacity_kj_per_k: float) -> LearntRate | None:
    """Return what is known of a jug after one more run; unchanged when the run had fewer than two good readings.

    Raises:
        OutOfRange: the heat capacity is not above zero.

    Source: mean weighted by precision, see learn_rate.
    """
    rate = rate_of(fit)
    return learn_rate(learnt, *rate, heat_capacity_kj_per_k) if rate else learnt


def rate_of(fit: CoolingFit) -> tuple[float, float] | None:
    """Return mean and spread of ln k, k per minute at 30 K above the room; None from fewer than two good readings.

    Source: the posterior of the fit.
    """
    if fit.readings_used < 2 or fit.draws is None:
        return None
    import numpy as np

    ln_k = np.log(fit.draws.k)
    return float(ln_k.mean()), float(ln_k.std())


def minutes_to(fit: CoolingFit, target_c: float) -> Interval | None:
    """Return when the pot comes to a temperature, on the clock of the readings, with its 95 % band.

    The start of the curve when it is past that already; None when it will not get there, or not within a day.

    Raises:
        OutOfRange: a temperature that no pot can have.

    Source: 2.5, 50 and 97.5 % of the times over the posterior of the fit.
    """
    check_temperature(target_c)
    if fit.draws is None:
        return None
    import numpy as np

    from soapbench.science.posterior import quantiles

    minutes = np.minimum(fit.draws.minutes_to(target_c), 1e9)
    low, central, high = (float(value) for value in quantiles(minutes))
    if central > HORIZON.value:
        return None
    return Interval(low, central, min(high, HORIZON.value)).shifted(fit.start_minutes)


def curve_until(fit: CoolingFit, until_minutes: float, points: int = 31) -> tuple[CurveRow, ...]:
    """Return rows of (minutes, low, central, high) from the first reading used to a later time, 95 % band.

    Empty when the fit carries no draws, or when that time is not after its start.

    Raises:
        OutOfRange: the time is no number, or there are fewer than 2 points or more than 1000.

    Source: 2.5, 50 and 97.5 % of the temperatures over the posterior of the fit.
    """
    if not 2 <= number(points, "The points of the curve") <= 1000:
        raise OutOfRange(say("A curve needs 2 to 1000 points, not {points}.", points=points))
    span = number(until_minutes, "The end of the curve") - fit.start_minutes
    if fit.draws is None or span <= 0:
        return ()
    from soapbench.science.cooling_grid import rows

    return rows(fit.draws, fit.start_minutes, min(HORIZON.value, span), points)


def both_in_window(fit_lye: CoolingFit, fit_fats: CoolingFit, low_c: float, high_c: float) -> Window:
    """Return when lye and fats are both between two temperatures; both fits must be on one clock.

    Raises:
        OutOfRange: the low end is not under the high one.

    Source: the two fits; see cooling_window.window.
    """
    check_window(low_c, high_c)
    return window(_pot_times("lye", fit_lye, low_c, high_c), _pot_times("fats", fit_fats, low_c, high_c), low_c, high_c)


def _pot_times(pot: Pot, fit: CoolingFit, low_c: float, high_c: float) -> PotTimes:
    cools = fit.start_c >= fit.room_c.central
    near, far = (high_c, low_c) if cools else (low_c, high_c)
    inside_or_past = fit.start_c <= high_c if cools else fit.start_c >= low_c
    enters = Interval.exact(fit.start_minutes) if inside_or_past else minutes_to(fit, near)
    leaves = minutes_to(fit, far)
    return PotTimes(pot, enters, leaves, cools)


CONSTANTS: tuple[Constant, ...] = ()
_HERE = "soapbench.science.cooling."
RELATIONS = (
    Relation("Curve to a later time", "2.5, 50, 97.5 % of T over the posterior", "C", GRID, _HERE + "curve_until"),
    Relation("Time to a temperature", "2.5, 50, 97.5 % of t over the posterior", "min", GRID, _HERE + "minutes_to"),
    Relation("What a run teaches", "mean and spread of ln k of the fit", "", GRID, _HERE + "learn"),
    Relation("Rate of a fit", "mean and spread of ln k over the posterior", "", GRID, _HERE + "rate_of"),
    Relation("Both pots in the window", "latest entry to first leaving", "min", GRID, _HERE + "both_in_window"),
)
