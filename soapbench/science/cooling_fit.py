"""The curve through the readings of a pot: a grid posterior, so it works with one reading as with ten.

Model: dθ/dt = -k θ (θ/30)^(p-1) with θ = T - room. p = 1 is Newton's law; still air and steam make p larger.
With one reading the prior speaks alone; each further one counts more; the fit brings its own band.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from soapbench.science.cooling_law import Prior, Reading, check_temperature
from soapbench.science.errors import OutOfRange, between, number
from soapbench.science.interval import Interval
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import plural, say

if TYPE_CHECKING:
    from soapbench.science.cooling_grid import Draws
    from soapbench.science.posterior import Normal

CurveRow = tuple[float, float, float, float]  # minutes, low, central, high in C

GRID = Source("grid-posterior", "Posterior on a grid, Student t residuals", "checked on printed curves", "computed")

# Strong lye steams little (1.1 to 1.3), printed curves of open cups need up to 1.75: the prior has to hold both.
EXPONENT = Constant(
    "Exponent expected",
    "p",
    1.4,
    "",
    OWN_CHOICE,
    "fit: 1.1 to 1.75 in printed curves",
    why="Half way between weak steam (1.1) and open cups (1.75).",
)
EXPONENT_SD = Constant(
    "Spread of the exponent",
    "s",
    0.3,
    "",
    OWN_CHOICE,
    "fit: cut at 1",
    why="So that all printed curves lie within two of them.",
)
ROOM_SD = Constant(
    "Spread of a room temperature that was measured",
    "s",
    1.0,
    "K",
    OWN_CHOICE,
    "fit",
    why="A wall thermometer is seldom nearer to the pot's own air.",
)
GUESSED_ROOM_SD = Constant(
    "Spread of a room temperature that was guessed",
    "s",
    2.0,
    "K",
    OWN_CHOICE,
    "fit",
    why="People are off by two or three degrees.",
)
READING_SD = Constant(
    "Scale of a reading",
    "s",
    0.5,
    "K",
    OWN_CHOICE,
    "fit: Student t, 4 degrees of freedom",
    why="A kitchen thermometer, and a pot not stirred through.",
)
ODD = Constant(
    "A reading is odd when it is off by",
    "",
    3.0,
    "K",
    OWN_CHOICE,
    "fit",
    why="Six times the scale of a reading: luck does not explain it.",
)
SETTLING = Constant("Minutes after the peak that do not lie on the curve", "", 3.0, "min", COMMON_PRACTICE, "fit")
SLOWEST = Constant(
    "Slowest cooling believed, ln k",
    "",
    -14.0,
    "",
    OWN_CHOICE,
    "fit: refusal of impossible priors",
    why="Slower than any vessel that a person can carry.",
)
FASTEST = Constant(
    "Fastest cooling believed, ln k",
    "",
    4.0,
    "",
    OWN_CHOICE,
    "fit: refusal of impossible priors",
    why="Quicker than a drop.",
)
HORIZON = Constant(
    "Longest time told", "", 1440.0, "min", OWN_CHOICE, "minutes_to", why="Beyond a day nobody waits for a pot."
)


@dataclass(frozen=True, slots=True)
class CoolingFit:
    """A cooling curve with its 95 % band.

    curve: rows of (minutes, low, central, high). odd_readings: positions in the readings given, of those that do not
    lie on any likely curve. conditions_changed: the last two do not, so something changed (lid, bath, other room).
    """

    curve: tuple[CurveRow, ...]
    odd_readings: tuple[int, ...]
    readings_used: int
    k: Interval
    exponent: Interval
    room_c: Interval
    start_minutes: float
    start_c: float
    sentence: str
    conditions_changed: bool = False
    draws: Draws | None = field(default=None, repr=False, compare=False)


def fit(
    readings: Sequence[Reading],
    room_c: float,
    prior: Prior,
    room_measured: bool = True,
    peak_minutes: float = 0,
) -> CoolingFit:
    """Return the cooling curve that the readings, the room and the prior make likely.

    Args:
        readings: in any order, on one clock.
        room_c: temperature round the pot, or of its bath.
        prior: see prior_for.
        room_measured: False widens the room's spread from 1 to 2 K.
        peak_minutes: when the pot was hottest, or when its surroundings last changed; readings from before that and
            from the 3 minutes after it are left out as long as later ones exist.

    Raises:
        OutOfRange: there is no reading, one is not a temperature that a pot can have, or the prior is none.

    Source: grid posterior with Student's t residuals, checked on printed cooling curves and against scipy.
    """
    if not readings:
        raise OutOfRange(say("Read the thermometer once; then a time can be told."))
    for reading in readings:
        check_temperature(reading.temp_c)
        number(reading.minutes, "The time of a reading")
    check_temperature(room_c)
    number(peak_minutes, "The time of the peak")
    _check_prior(prior)
    kept = _kept(readings, peak_minutes)
    room_sd = (ROOM_SD if room_measured else GUESSED_ROOM_SD).value
    first = _fit_kept(readings, kept, room_c, room_sd, prior)
    if not first.odd_readings or len(kept) < 3:
        return first
    # One wrong first reading would bend the whole curve, so the fit is tried without it.
    second = _fit_kept(readings, kept[1:], room_c, room_sd, prior, kept[:1])
    return second if len(second.odd_readings) < len(first.odd_readings) else first


def _check_prior(prior: Prior) -> None:
    between(prior.ln_k_mean, SLOWEST.value, FASTEST.value, "The logarithm of the rate")
    between(prior.ln_k_sd, 0.001, 3.0, "The spread of the rate")


def _kept(readings: Sequence[Reading], peak_minutes: float) -> tuple[int, ...]:
    """Return the positions of the readings to fit, in the order of time."""
    order = sorted(range(len(readings)), key=lambda i: readings[i].minutes)
    late = [i for i in order if readings[i].minutes >= peak_minutes + SETTLING.value]
    return tuple(late) if late else (order[-1],)


def _fit_kept(
    readings: Sequence[Reading],
    kept: tuple[int, ...],
    room_c: float,
    room_sd: float,
    prior: Prior,
    left_out: tuple[int, ...] = (),
) -> CoolingFit:
    import numpy as np

    from soapbench.science import cooling_grid as grid
    from soapbench.science.posterior import quantiles

    first = readings[kept[0]]
    minutes = np.array([readings[i].minutes - first.minutes for i in kept])
    temperatures = np.array([readings[i].temp_c for i in kept])
    priors = _priors(first.temp_c, room_c, room_sd, prior)
    draws = grid.draws(minutes[1:], temperatures[1:], priors, READING_SD.value)
    middle = quantiles(draws.temperatures(minutes))[1]
    wrong = [i for i, gap in zip(kept, np.abs(middle - temperatures), strict=True) if gap > ODD.value]
    odd = tuple(sorted((*left_out, *wrong)))
    k, exponent, room = (Interval(*map(float, quantiles(x))) for x in (draws.k, draws.q + 1, draws.room))
    used = len(kept) - len(wrong)
    changed = len(kept) > 3 and set(kept[-2:]) <= set(wrong)
    return CoolingFit(
        curve=grid.rows(draws, first.minutes, min(HORIZON.value, max(2 * float(minutes[-1]), 90.0)), 31),
        odd_readings=odd,
        readings_used=used,
        k=k,
        exponent=exponent,
        room_c=room,
        start_minutes=first.minutes,
        start_c=first.temp_c,
        sentence=_sentence(used, odd, changed),
        conditions_changed=changed,
        draws=draws,
    )


def _priors(start_c: float, room_c: float, room_sd: float, prior: Prior) -> tuple[Normal, ...]:
    from soapbench.science.posterior import Normal

    reach = 3 * prior.ln_k_sd
    p, sd, start_sd = EXPONENT.value, EXPONENT_SD.value, READING_SD.value
    return (
        Normal(prior.ln_k_mean, prior.ln_k_sd, prior.ln_k_mean - reach, prior.ln_k_mean + reach),
        Normal(p, sd, 1.0, p + 3 * sd),
        Normal(room_c, room_sd, room_c - 2.5 * room_sd, room_c + 2.5 * room_sd),
        Normal(start_c, start_sd, start_c - 2.5 * start_sd, start_c + 2.5 * start_sd),
    )


def _sentence(used: int, odd: tuple[int, ...], changed: bool) -> str:
    if changed:
        return say("The last readings leave the curve. Was a lid, a bath or the place changed? Then say so.")
    if odd:
        return say("One reading does not fit the others. It hardly counts; read again if you can.")
    if used == 1:
        return say("From one reading and what is known of the pot. A second reading makes it surer.")
    return plural("From {count} reading.", "From {count} readings.", used)


CONSTANTS = (EXPONENT, EXPONENT_SD, ROOM_SD, GUESSED_ROOM_SD, READING_SD, ODD, SETTLING, HORIZON, SLOWEST, FASTEST)
RELATIONS = (
    Relation(
        "Curve through the readings",
        "posterior of ln k, p, room and start",
        "C, min",
        GRID,
        "soapbench.science.cooling_fit.fit",
    ),
)
