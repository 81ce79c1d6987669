"""How long a scented portion stays pourable: a first guess from the scent's note, then the maker's own times."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from soapbench.science.errors import OutOfRange, a_temperature, chosen, positive
from soapbench.science.interval import Interval
from soapbench.science.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_CHOICE, Constant, Relation, Source

from .words import say

Behaviour = Literal["calm", "slight", "speeds up", "seizes", "unknown"]

LEARNT = Source(
    "learnt-times", "Normal updating of the logarithm of the time", "prior and records weighted", "computed"
)


def _guess(behaviour: str, minutes: float) -> Constant:
    return Constant(f"Working time, scent that is {behaviour}", "t", minutes, "min", COMMON_PRACTICE, "working_minutes")


# Thin to thick trace takes 5 to 30 minutes; a seizing scent acts within seconds to a minute.
GUESSES = {
    "calm": _guess("calm", 20.0),
    "slight": _guess("slightly fast", 10.0),
    "speeds up": _guess("fast", 4.0),
    "seizes": _guess("seizing", 1.0),
    "unknown": _guess("not known", 8.0),
}
GUESS_SD = Constant(
    "Spread of ln t of a first guess",
    "s",
    0.6,
    "",
    OWN_CHOICE,
    "working_minutes",
    why="Makers' words for a scent cover a factor of two either way.",
)
RECORD_SD = Constant(
    "Spread of ln t from batch to batch",
    "s",
    0.25,
    "",
    OWN_CHOICE,
    "working_minutes",
    why="The same scent on a warm and on a cool day.",
)
TRACE_GUESS = Constant("Minutes of blending to trace", "t", 4.0, "min", COMMON_PRACTICE, "usual_trace_minutes")
DOUBLING = Constant("Cooling that doubles a working time", "", 10.0, "K", FROM_MEMORY, "cooler_by_k: rule of thumb")


def working_minutes(behaviour: Behaviour, records: Sequence[float] = ()) -> Interval:
    """Return how many minutes a portion stays pourable once the scent is in, with the 95 % band of the next time.

    Args:
        behaviour: the note kept with the scent.
        records: minutes from earlier batches of this maker with this scent.

    Raises:
        OutOfRange: the note is unknown, or a recorded time is not above zero.

    Source: common practice for the first guess; normal updating of the logarithm of the time.
    """
    chosen(behaviour, GUESSES, "a note on a scent")
    return learnt_minutes(GUESSES[behaviour].value, records)


def learnt_minutes(guess: float, records: Sequence[float]) -> Interval:
    """Return how long something takes, in min, from a first guess and the maker's own times, with the next one's band.

    The logarithms of the times are averaged, each record weighing some six times as much as the guess.

    Args:
        guess: minutes, before any record.
        records: minutes from earlier batches.

    Raises:
        OutOfRange: the guess or a record is not above zero.

    Source: normal-normal updating of ln t; the band is ± 2 standard deviations.
    """
    logs = [math.log(positive(minutes, "A recorded time", "min")) for minutes in records]
    weight, each = 1 / GUESS_SD.value**2, 1 / RECORD_SD.value**2
    total = weight + each * len(logs)
    mean = (weight * math.log(positive(guess, "A first guess", "min")) + each * sum(logs)) / total
    spread = 2 * math.sqrt(1 / total + RECORD_SD.value**2)
    return Interval(math.exp(mean - spread), math.exp(mean), math.exp(mean + spread))


def usual_trace_minutes(records: Sequence[float]) -> Interval:
    """Return the minutes from lye into fats to the planned trace, with the 95 % band of the next batch.

    Args:
        records: minutes from earlier batches of this bar.

    Raises:
        OutOfRange: a record is not above zero.

    Source: as learnt_minutes; the first guess is common practice.
    """
    return learnt_minutes(TRACE_GUESS.value, records)


def at_temperature(minutes: float, measured_c: float, wanted_c: float) -> float:
    """Return a working time measured at one temperature as it would be at another; a doubling for each 10 K cooler.

    It gives a size, not a promise.

    Raises:
        OutOfRange: the time is not above zero, or a temperature that cannot be.

    Source: a rule of thumb for reactions, from memory.
    """
    warmer = a_temperature(measured_c) - a_temperature(wanted_c)
    return positive(minutes, "A working time", "min") * math.pow(2, warmer / DOUBLING.value)


def planning_minutes(working: Interval) -> float:
    """Return the working time to plan with: half way, on the log scale, from the central to the low end.

    About five times in six the portion stays pourable for longer.

    Raises:
        OutOfRange: a time that is not above zero.

    Source: own choice.
    """
    return math.sqrt(
        positive(working.low, "A working time", "min") * positive(working.central, "A working time", "min")
    )


def cooler_by_k(factor: float) -> float:
    """Return by how many K to mix cooler so that working times grow by a factor; a doubling for each 10 K.

    It gives a size, not a promise.

    Raises:
        OutOfRange: the factor is below 1.

    Source: a rule of thumb for reactions, from memory.
    """
    if positive(factor, "The factor", "") < 1:
        raise OutOfRange(say("Cooler batter gives more time, never less."))
    return DOUBLING.value * math.log2(factor)


CONSTANTS = (*GUESSES.values(), GUESS_SD, RECORD_SD, TRACE_GUESS, DOUBLING)
_HERE = "soapbench.science.scent_time."
RELATIONS = (
    Relation("Working time", "weighted mean of ln t, ± 2 sd", "min", LEARNT, _HERE + "working_minutes"),
    Relation("Time learnt from records", "weighted mean of ln t, ± 2 sd", "min", LEARNT, _HERE + "learnt_minutes"),
    Relation("Time to trace", "weighted mean of ln t, ± 2 sd", "min", LEARNT, _HERE + "usual_trace_minutes"),
    Relation("Time at another temperature", "t·2^((T - T')/10 K)", "min", FROM_MEMORY, _HERE + "at_temperature"),
    Relation("Time to plan with", "√(low · central)", "min", OWN_CHOICE, _HERE + "planning_minutes"),
    Relation("Cooler for more time", "ΔT = 10 K·log2(factor)", "K", FROM_MEMORY, _HERE + "cooler_by_k"),
)
