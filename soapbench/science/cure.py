"""The cure: a drying curve through the maker's weighings, the day it levels off, the mass at the sale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from soapbench.science.drying import LEVEL, LONGEST, THIN_LAYER, WEEK, Settled, settled, water_at_pour, water_left
from soapbench.science.errors import OutOfRange, fraction, not_negative, positive
from soapbench.science.interval import Interval
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import plural, say

if TYPE_CHECKING:
    from soapbench.science.posterior import Array

__all__ = [
    "CureFit",
    "Settled",
    "Weighed",
    "day_loss_below",
    "expected_mass",
    "fit_drying",
    "label_mass_g",
    "loss_per_week",
    "settled",
    "water_at_pour",
    "water_left",
]

GRID = Source("grid-posterior", "Posterior on a grid, Student t residuals", "checked on printed curves", "computed")

TAU = Constant("Drying time expected of a 25 mm bar", "τ", 30.0, "d", COMMON_PRACTICE, "fit_drying")
TAU_SD = Constant("Spread of ln τ", "s", 0.7, "", OWN_CHOICE, "fit_drying", why="Rooms and recipes halve or double it.")
USUAL_THICKNESS = Constant("Thickness of that bar", "T", 25.0, "mm", COMMON_PRACTICE, "fit_drying")
THICKNESS_POWER = Constant("τ grows with thickness to the power", "", 1.5, "", COMMON_PRACTICE, "fit_drying: 1 to 2")
EXPONENT = Constant("Exponent expected", "n", 0.8, "", COMMON_PRACTICE, "fit_drying: fast start, long tail")
EXPONENT_SD = Constant(
    "Spread of the exponent",
    "s",
    0.15,
    "",
    OWN_CHOICE,
    "fit_drying: cut at 0.35 and 1",
    why="So that it stays between a curve with a long tail and Newton's.",
)
FINAL_WATER = Constant("Water left in the end, per dry mass", "Xe", 0.05, "g/g", COMMON_PRACTICE, "fit_drying")
FINAL_WATER_SD = Constant(
    "Spread of it", "s", 0.03, "g/g", OWN_CHOICE, "fit_drying: cut at 0", why="A dry room leaves 2 %, a damp one 8 %."
)
HUMIDITY = Constant(
    "Spread of a weighing from the day's humidity",
    "s",
    0.001,
    "g/g",
    OWN_CHOICE,
    "fit_drying",
    why="A tenth of a per cent, as bars take up and give off on a damp day.",
)
ODD = Constant(
    "A weighing is odd when it is off by",
    "",
    0.02,
    "g/g",
    OWN_CHOICE,
    "fit_drying",
    why="More than any day's humidity: another bar, or a slip.",
)


@dataclass(frozen=True, slots=True)
class Weighed:
    """The mass in g of a bar, or of the same bars together, on a day counted from the cut."""

    day: float
    mass_g: float


@dataclass(frozen=True, slots=True)
class CureFit:
    """A drying curve with its 95 % band.

    curve: rows of (day, low, central, high) in g. final_g: mass when it loses no more. odd_weighings: positions of
    weighings that do not lie on any likely curve.
    """

    curve: tuple[tuple[float, float, float, float], ...]
    final_g: Interval
    tau_days: Interval
    exponent: Interval
    start_day: float
    start_g: float
    weighings_used: int
    odd_weighings: tuple[int, ...]
    sentence: str
    draws: tuple[Array, Array, Array, Array] | None = field(default=None, repr=False, compare=False)


def fit_drying(
    weighings: Sequence[Weighed], water_fraction: float, resolution_g: float = 1, thickness_mm: float = 25
) -> CureFit:
    """Return the drying curve (Page) that the weighings and the priors make likely.

    Args:
        weighings: in any order, of the same bar or bars; the first one is taken as fresh.
        water_fraction: water by mass at the first weighing (water_at_pour of the batch).
        resolution_g: step of the scale.
        thickness_mm: of the bar; thick bars are expected to dry more slowly.

    Raises:
        OutOfRange: there is no weighing, a mass is not above zero, the scale shows steps larger than the bar, or the
            bar grew heavier by more than 2 %.

    Source: Page's model of thin-layer drying; grid posterior, checked against scipy where the data are plenty.
    """
    if not weighings:
        raise OutOfRange(say("Weigh a bar once; then its cure can be followed."))
    ordered = sorted(range(len(weighings)), key=lambda i: weighings[i].day)
    first = weighings[ordered[0]]
    for weighed in weighings:
        not_negative(weighed.day, "The day", "")
        if positive(weighed.mass_g, "The bar") > first.mass_g * (1 + ODD.value):
            raise OutOfRange(
                say(
                    "{mass:g} g is more than the fresh {first_mass:g} g. Is it the same bar?",
                    mass=weighed.mass_g,
                    first_mass=first.mass_g,
                )
            )
    fraction(water_fraction, "The water in the fresh bar")
    if positive(resolution_g, "The step of the scale") > first.mass_g:
        raise OutOfRange(
            say(
                "A scale with steps of {resolution:g} g cannot weigh a bar of {mass:g} g.",
                resolution=resolution_g,
                mass=first.mass_g,
            )
        )
    positive(thickness_mm, "The thickness of the bar", "mm")
    return _fitted(weighings, ordered, water_fraction, resolution_g, thickness_mm)


def expected_mass(fit: CureFit, day: float) -> Interval:
    """Return the mass in g expected on a day, with its 95 % band: what the bars will weigh when they are sold.

    The net weight on a label is set from bars weighed at the sale; this only says what to expect.

    Raises:
        OutOfRange: the day lies before the first weighing.

    Source: 2.5, 50 and 97.5 % over the posterior of the fit.
    """
    import numpy as np

    from soapbench.science.posterior import quantiles

    since = not_negative(day - fit.start_day, "The days since the first weighing", "")
    return Interval(*map(float, quantiles(_masses(fit.draws, np.array([since]))[:, 0])))


def label_mass_g(fit: CureFit, day: float) -> int:
    """Return a net mass in whole grams that the bar should still have on a day: the low end, rounded down.

    It knows of the drying only, not of bars cut thinner than the others: weigh before printing.

    Raises:
        OutOfRange: the day lies before the first weighing.

    Source: the low end of expected_mass.
    """
    return math.floor(expected_mass(fit, day).low)


def loss_per_week(fit: CureFit, day: float) -> Interval:
    """Return what is lost in the seven days that begin on a day, in g, with its 95 % band.

    Raises:
        OutOfRange: the day lies before the first weighing.

    Source: Page's model over the posterior of the fit.
    """
    import numpy as np

    from soapbench.science.posterior import quantiles

    since = not_negative(day - fit.start_day, "The days since the first weighing", "")
    masses = _masses(fit.draws, np.array([since, since + WEEK]))
    return Interval(*map(float, quantiles(masses[:, 0] - masses[:, 1])))


def day_loss_below(fit: CureFit, threshold_g: float | None = None) -> Interval | None:
    """Return the day from which the loss in a week stays under a threshold, with its 95 % band.

    Args:
        fit: see fit_drying.
        threshold_g: grams in a week; half a per cent of the fresh mass where it is not given.

    None while there is only one good weighing: not yet to be said.

    Raises:
        OutOfRange: the threshold is not above zero.

    Source: Page's model over the posterior of the fit, solved by bisection.
    """
    threshold = LEVEL.value * fit.start_g if threshold_g is None else positive(threshold_g, "The loss per week")
    if fit.weighings_used < 2:
        return None
    import numpy as np

    from soapbench.science.posterior import quantiles

    assert fit.draws is not None
    low = np.zeros_like(fit.draws[0])
    high = np.full_like(low, LONGEST.value)
    for _ in range(20):  # to a thousandth of a day
        middle = (low + high) / 2
        over = _mass(fit.draws, middle) - _mass(fit.draws, middle + WEEK) > threshold
        low, high = np.where(over, middle, low), np.where(over, high, middle)
    return Interval(*map(float, quantiles(high))).shifted(fit.start_day)


def _fitted(
    weighings: Sequence[Weighed], ordered: Sequence[int], water: float, resolution_g: float, thickness_mm: float
) -> CureFit:
    import numpy as np

    from soapbench.science.posterior import quantiles

    start = weighings[ordered[0]]
    days = np.array([weighings[i].day - start.day for i in ordered])
    masses = np.array([weighings[i].mass_g for i in ordered])
    scale = math.hypot(resolution_g / math.sqrt(12), HUMIDITY.value * start.mass_g)
    draws = _draws(days[1:], masses[1:], start.mass_g, water, scale, thickness_mm)
    gaps = np.abs(quantiles(_masses(draws, days))[1] - masses)
    odd = tuple(sorted(i for i, gap in zip(ordered, gaps, strict=True) if gap > ODD.value * start.mass_g))
    used = len(weighings) - len(odd)
    times = np.linspace(0.0, max(56.0, 1.5 * float(days[-1])), 31)
    rows = zip(times + start.day, *quantiles(_masses(draws, times)), strict=True)
    final, tau, exponent = (Interval(*map(float, quantiles(x))) for x in (draws[1], draws[2], draws[3]))
    return CureFit(
        curve=tuple((float(t), float(low), float(central), float(high)) for t, low, central, high in rows),
        final_g=final,
        tau_days=tau,
        exponent=exponent,
        start_day=start.day,
        start_g=start.mass_g,
        weighings_used=used,
        odd_weighings=odd,
        sentence=_sentence(used, odd),
        draws=draws,
    )


def _draws(
    days: Array, masses: Array, start_g: float, water: float, scale: float, thickness_mm: float
) -> tuple[Array, Array, Array, Array]:
    """Return equally likely (start mass, final mass, τ, n)."""
    import numpy as np

    from soapbench.science import posterior
    from soapbench.science.posterior import Normal

    def curves(nodes: Sequence[Array]) -> tuple[Array, Array, Array, Array]:
        ln_tau, exponent, final_water, start = nodes
        return start, start * (1 - water) * (1 + final_water), np.exp(ln_tau), exponent

    def log_likelihood(nodes: Sequence[Array]) -> Array:
        parameters = curves(nodes)
        total = np.zeros_like(nodes[0])
        for day, mass in zip(days, masses, strict=True):
            total += posterior.student_t((_mass(parameters, day) - mass) / scale)
        return total

    ln_tau = math.log(TAU.value * (thickness_mm / USUAL_THICKNESS.value) ** THICKNESS_POWER.value)
    xe, xe_sd = FINAL_WATER.value, FINAL_WATER_SD.value
    priors = (
        Normal(ln_tau, TAU_SD.value, ln_tau - 3 * TAU_SD.value, ln_tau + 3 * TAU_SD.value),
        Normal(EXPONENT.value, EXPONENT_SD.value, 0.35, 1.0),
        Normal(xe, xe_sd, 0.0, xe + 3 * xe_sd),
        Normal(start_g, scale, start_g - 2.5 * scale, start_g + 2.5 * scale),
    )
    return curves(posterior.draws(priors, log_likelihood, ((31, 9, 9, 5), (41, 13, 13, 5))))


def _mass(draws: tuple[Array, Array, Array, Array], days: Array) -> Array:
    import numpy as np

    start, final, tau, n = draws
    return np.asarray(final + (start - final) * np.exp(-((days / tau) ** n)), dtype=np.float64)


def _masses(draws: tuple[Array, Array, Array, Array] | None, days: Array) -> Array:
    """Return one row per draw and one column per day."""
    assert draws is not None
    start, final, tau, n = (values[:, None] for values in draws)
    return _mass((start, final, tau, n), days[None, :])


def _sentence(used: int, odd: tuple[int, ...]) -> str:
    if odd:
        return say("One weighing does not fit the others. Was it the same bar? It hardly counts.")
    if used == 1:
        return say("One weighing: not yet to be said when it levels off. Weigh again in a week.")
    return plural("From {count} weighing.", "From {count} weighings.", used)


CONSTANTS = (
    *(TAU, TAU_SD, USUAL_THICKNESS, THICKNESS_POWER, EXPONENT, EXPONENT_SD),
    *(FINAL_WATER, FINAL_WATER_SD, HUMIDITY, ODD),
)
_HERE = "soapbench.science.cure."
RELATIONS = (
    Relation("Curve through the weighings", "posterior of ln τ, n, Xe and W0", "g, d", GRID, _HERE + "fit_drying"),
    Relation("Mass at the sale", "2.5, 50, 97.5 % of W(t)", "g", GRID, _HERE + "expected_mass"),
    Relation("Mass for a label", "⌊2.5 % of W(t)⌋", "g", GRID, _HERE + "label_mass_g"),
    Relation("Loss in a week", "W(t) - W(t + 7)", "g", THIN_LAYER, _HERE + "loss_per_week"),
    Relation("Day it levels off", "W(t) - W(t + 7) = threshold", "d", GRID, _HERE + "day_loss_below"),
)
