"""The law by which a pot comes to the temperature of its room, and what is known of its rate beforehand.

dθ/dt = -k θ (θ/30)^(p-1) with θ = T - room. p = 1 is Newton's law; still air and steam make p larger.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from soapbench.science.errors import OutOfRange, between, not_negative, number, positive
from soapbench.science.jug import heat_capacity_of
from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source

from .words import say

COOLING_LAW = Source(
    "cooling-law",
    "Newton's law of cooling with a free exponent",
    "5/4 for free convection in still air; printed coffee and water curves (Gould and Tobochnik; mosaicData "
    "CoolingWater) need 1.3 to 1.7 in open cups",
    "published",
)
PRECISION = Source("precision-weighting", "Mean weighted by precision", "standard normal updating", "computed")

RATE = Constant("Rate of a quarter-litre mug 30 K above the room", "k0", 0.025, "1/min", COOLING_LAW, "prior_for")
REFERENCE = Constant(
    "Distance from the room at which k is the rate",
    "",
    30.0,
    "K",
    OWN_CHOICE,
    "cooling law",
    why="Half way down from a usual lye to the room.",
)
MUG = Constant("Heat capacity of that mug of water", "C0", 1.05, "kJ/K", COOLING_LAW, "prior_for: 250 g of water")
RATE_SD = Constant(
    "Spread of ln k before a jug is known",
    "s",
    0.6,
    "",
    OWN_CHOICE,
    "prior_for",
    why="A lid, a wide pot or a box change the rate by half or twice.",
)
COLDEST = Constant(
    "Coldest pot, lye or room believed", "", -20.0, "C", OWN_CHOICE, "check_temperature", why="A freezer."
)
HOTTEST = Constant(
    "Hottest pot, lye or room believed",
    "",
    130.0,
    "C",
    OWN_CHOICE,
    "check_temperature",
    why="The strongest lye in use boils above it, and no pot here does.",
)
NEWTON = 1e-6  # so near to p = 1 that the general form would lose its digits
AT_ROOM = 1e-6  # K; so near to the room that nothing moves any more
STEEPEST = 5.0  # no curve of a pot has an exponent above 2
RUN_SD = Constant(
    "Spread of ln k of one jug from run to run",
    "s",
    0.15,
    "",
    OWN_CHOICE,
    "prior_for",
    why="The same jug, fuller or by an open window.",
)


@dataclass(frozen=True, slots=True)
class Reading:
    """A temperature in C at a time in minutes on the maker's clock."""

    minutes: float
    temp_c: float


@dataclass(frozen=True, slots=True)
class Prior:
    """What is known of the rate before the readings: normal in ln k, k per minute at 30 K above the room."""

    ln_k_mean: float
    ln_k_sd: float


@dataclass(frozen=True, slots=True)
class LearntRate:
    """What earlier runs taught of one jug: mean and spread of ln(k·C^(1/3)), C in kJ/K, and from how many runs."""

    mean: float
    sd: float
    runs: int


def pot_heat_capacity(liquid_g: float, kj_per_kg_k: float, jug_g: float = 0, material: str = "polypropylene") -> float:
    """Return the heat capacity of a liquid and its jug in kJ/K.

    Raises:
        OutOfRange: the mass of the liquid is not above zero, or the material is unknown.

    Source: heat capacities added up.
    """
    liquid = positive(liquid_g, "The liquid") * positive(kj_per_kg_k, "The heat capacity", "kJ/(kg K)")
    return (liquid + not_negative(jug_g, "The jug") * heat_capacity_of(material)) / 1000


def prior_for(heat_capacity_kj_per_k: float, learnt: LearntRate | None = None) -> Prior:
    """Return the prior of the rate for a pot: from what its jug taught, else scaled from a mug by area to volume.

    Raises:
        OutOfRange: the heat capacity is not above zero, or what was learnt is no number.

    Source: the printed curves of open cups named beside COOLING_LAW; area goes with volume to the power 2/3.
    """
    size = math.log(positive(heat_capacity_kj_per_k, "The heat capacity of the pot", "kJ/K")) / 3
    if learnt is not None:
        sd = not_negative(learnt.sd, "The spread of the learnt rate", "")
        return Prior(number(learnt.mean, "The learnt rate") - size, math.hypot(sd, RUN_SD.value))
    return Prior(math.log(RATE.value) + math.log(MUG.value) / 3 - size, RATE_SD.value)


def learn_rate(
    learnt: LearntRate | None, ln_k_mean: float, ln_k_sd: float, heat_capacity_kj_per_k: float
) -> LearntRate:
    """Return what is known of a jug after one more run in which ln k came out as given.

    The run counts with its own spread and the spread from run to run together.

    Raises:
        OutOfRange: the heat capacity or a spread learnt earlier is not above zero, or a rate is no number.

    Source: mean weighted by precision, standard normal updating.
    """
    size = math.log(positive(heat_capacity_kj_per_k, "The heat capacity of the pot", "kJ/K")) / 3
    mean = number(ln_k_mean, "The rate") + size
    sd = math.hypot(not_negative(ln_k_sd, "The spread of the rate", ""), RUN_SD.value)
    if learnt is None:
        return LearntRate(mean, sd, 1)
    weights = (1 / positive(learnt.sd, "The spread of the learnt rate", "") ** 2, 1 / sd**2)
    total = sum(weights)
    before = number(learnt.mean, "The learnt rate")
    return LearntRate((before * weights[0] + mean * weights[1]) / total, 1 / math.sqrt(total), learnt.runs + 1)


def temperature_after(minutes: float, start_c: float, room_c: float, k: float, exponent: float = 1) -> float:
    """Return the temperature in C after some minutes; k per minute at 30 K above the room, exponent 1 or more.

    Raises:
        OutOfRange: a temperature that no pot or room has, a negative time, or a rate or exponent out of range.

    Source: Newton's law of cooling with a free exponent, solved in closed form.
    """
    theta, q = _theta(start_c, room_c), _q(k, exponent)
    not_negative(minutes, "The time", "min")
    if abs(theta) < AT_ROOM:
        return room_c
    if q < NEWTON:
        return room_c + theta * math.exp(-k * minutes)
    away = math.pow(abs(theta) ** -q + q * k * minutes / REFERENCE.value**q, -1 / q)
    return room_c + math.copysign(away, theta)


def minutes_between(start_c: float, target_c: float, room_c: float, k: float, exponent: float = 1) -> float:
    """Return the minutes from one temperature to another by the same law.

    Raises:
        OutOfRange: the target does not lie between the start and the room, or as temperature_after does.

    Source: Newton's law of cooling with a free exponent, solved for the time.
    """
    begin, end, q = _theta(start_c, room_c), _theta(target_c, room_c), _q(k, exponent)
    if min(abs(begin), abs(end)) < AT_ROOM or begin * end < 0 or abs(end) > abs(begin):
        raise OutOfRange(
            say(
                "From {start:g} °C in a room of {room:g} °C it will not come to {target:g} °C.",
                start=start_c,
                room=room_c,
                target=target_c,
            )
        )
    if q < NEWTON:
        return math.log(begin / end) / k
    return (math.pow(abs(end), -q) - math.pow(abs(begin), -q)) * math.pow(REFERENCE.value, q) / (q * k)


def check_temperature(temp_c: float) -> None:
    """Raise OutOfRange unless a pot, a lye or a room can have this temperature; limits are an own choice."""
    if not COLDEST.value <= number(temp_c, "The temperature") <= HOTTEST.value:
        raise OutOfRange(say("{temp:g} °C cannot be right here. Is the thermometer set to °C?", temp=temp_c))


def _theta(temp_c: float, room_c: float) -> float:
    check_temperature(temp_c)
    check_temperature(room_c)
    return temp_c - room_c


def _q(k: float, exponent: float) -> float:
    positive(k, "The rate of cooling", "per minute")
    return between(exponent, 1, STEEPEST, "The exponent of the cooling") - 1


CONSTANTS = (RATE, MUG, REFERENCE, RATE_SD, RUN_SD, COLDEST, HOTTEST)
_HERE = "soapbench.science.cooling_law."
RELATIONS = (
    Relation(
        "Cooling curve",
        "θ(t) = (θ0^-q + q k t/30^q)^(-1/q), q = p - 1",
        "C, min",
        COOLING_LAW,
        _HERE + "temperature_after",
    ),
    Relation("Time to cool", "t = (θ^-q - θ0^-q)·30^q/(q k)", "min", COOLING_LAW, _HERE + "minutes_between"),
    Relation("Heat capacity of a pot", "C = m c + jug", "kJ/K", PRECISION, _HERE + "pot_heat_capacity"),
    Relation("Rate before any reading", "k0 = 0.025·(1.05/C)^(1/3)", "1/min", COOLING_LAW, _HERE + "prior_for"),
    Relation("What a jug teaches", "weighted mean of ln(k·C^(1/3))", "", PRECISION, _HERE + "learn_rate"),
)
