"""Before the alkali goes in: how cold the water must be, or how much of it ice, so that the lye stays cool enough."""

from __future__ import annotations

import math
from dataclasses import dataclass

from soapbench.science.errors import a_temperature, positive
from soapbench.science.lye import concentration
from soapbench.science.lye_heat import BALANCE, WARN_START, ice_for_peak, peak_temperature
from soapbench.science.lye_properties import Solute, boiling_point_c
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation

from .words import say

UNDER_BOILING = Constant(
    "Kept under the boiling point of the lye",
    "",
    5.0,
    "K",
    OWN_CHOICE,
    "hottest_allowed",
    why="The boiling point is known within 1.5 K, and a clump of alkali boils before the jug does.",
)
FRIDGE = Constant("Coldest water without ice", "T", 5.0, "C", COMMON_PRACTICE, "lye_start: a night in the fridge")


@dataclass(frozen=True, slots=True)
class LyeStart:
    """How to start a lye. warmest_c: the warmest water; ice_g: how much of the water may be frozen instead, 0 for none.

    needs_cold: water as warm as the room will not do. only_ice: no water without ice is cold enough.
    limit_c: what the lye must stay under; sentence: all of it for the screen; short: the same beside a figure.
    """

    warmest_c: float
    ice_g: float
    limit_c: float
    needs_cold: bool
    only_ice: bool
    sentence: str
    short: str = ""


def hottest_allowed(w: float, jug_c: float | None = None) -> float:
    """Return what a lye of mass fraction w must stay under in C: what its jug stands, and well under its boiling.

    Raises:
        OutOfRange: the lye is too strong to be made, or no jug can be as hot as that.

    Source: the boiling point less a margin of our own choice, and the jug's own limit.
    """
    boiling = boiling_point_c(w) - UNDER_BOILING.value
    return boiling if jug_c is None else min(boiling, a_temperature(jug_c, "The limit of the jug"))


def start_for_peak(
    alkali_g: float, water_g: float, limit_c: float, *, solute: Solute = "NaOH", purity: float = 1
) -> float | None:
    """Return the warmest water in C that keeps a lye under a temperature; None when even water at 0 C does not.

    No loss is counted, so the real lye stays lower still.

    Raises:
        OutOfRange: a mass is not above zero, the lye is too strong, or the limit cannot be.

    Source: the balance of peak_temperature, solved for the start by bisection.
    """
    a_temperature(limit_c, "The limit")

    def peak(start_c: float) -> float:
        return peak_temperature(alkali_g, water_g, start_c, solute=solute, purity=purity).no_loss_c

    low, high = 0.0, 60.0
    if peak(low) > limit_c:
        return None
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if peak(middle) > limit_c else (middle, high)
    return low


def lye_start(
    alkali_g: float,
    water_g: float,
    room_c: float,
    step_g: float,
    *,
    jug_c: float | None = None,
    solute: Solute = "NaOH",
    purity: float = 1,
) -> LyeStart:
    """Return how cold the water of a lye has to be, and how many grams of it may be ice instead.

    Args:
        alkali_g, water_g: as they will be weighed; water_g holds everything of the jug that is not alkali.
        room_c: what water from the tap or the shelf is taken to have.
        step_g: the step of the scale; the ice is rounded up to it and stays a part of the water.
        jug_c: the hottest that the jug stands, None when nothing is known of it.
        solute, purity: of the alkali.

    Raises:
        OutOfRange: a mass is impossible, or not even frozen water keeps this lye cool enough.

    Source: the balance of peak_temperature; the limits on the start are those of start_warning.
    """
    positive(step_g, "The step of the scale")
    a_temperature(room_c, "The room")
    limit = hottest_allowed(concentration(alkali_g, water_g), jug_c)
    start = start_for_peak(alkali_g, water_g, limit, solute=solute, purity=purity)
    warmest = min(WARN_START.value, -1.0 if start is None else start)
    if room_c <= warmest:
        return LyeStart(
            warmest,
            0.0,
            limit,
            False,
            False,
            _cold_enough(warmest, limit),
            say("{warmest:.0f} °C or colder", warmest=warmest),
        )
    ice = _ice(alkali_g, water_g, max(room_c, 0.0), limit, step_g, solute, purity)
    only_ice = warmest < FRIDGE.value
    return LyeStart(warmest, ice, limit, True, only_ice, _too_warm(warmest, ice, limit, step_g, only_ice))


def _ice(
    alkali_g: float, water_g: float, room_c: float, limit_c: float, step_g: float, solute: Solute, purity: float
) -> float:
    """Return the ice rounded up to the scale: enough for the limit, and for a start no warmer than the warning."""
    needed = ice_for_peak(alkali_g, water_g, room_c, limit_c, solute=solute, purity=purity)
    as_cold = peak_temperature(alkali_g, water_g, WARN_START.value, solute=solute, purity=purity).no_loss_c
    needed = max(needed, ice_for_peak(alkali_g, water_g, room_c, as_cold, solute=solute, purity=purity))
    return min(water_g, round(math.ceil(needed / step_g - 1e-9) * step_g, 6))


def _cold_enough(warmest_c: float, limit_c: float) -> str:
    return say(
        "Start with water at {warmest:.0f} °C or colder: then the lye stays under {limit:.0f} °C.",
        warmest=warmest_c,
        limit=limit_c,
    )


def _too_warm(warmest_c: float, ice_g: float, limit_c: float, step_g: float, only_ice: bool) -> str:
    grams = f"{ice_g:.{max(0, -math.floor(math.log10(step_g)))}f} g"
    part = say("Ice is a part of the water, never added to it.")
    if only_ice:
        return say(
            "Weigh {grams} of the water as ice, or the lye can pass {limit:.0f} °C. {part}",
            grams=grams,
            limit=limit_c,
            part=part,
        )
    why = say(", or the lye can pass {limit:.0f} °C", limit=limit_c) if warmest_c < WARN_START.value else ""
    return say(
        "Chill the water to {warmest:.0f} °C or colder, or weigh {grams} of it as ice{why}. {part}",
        warmest=warmest_c,
        grams=grams,
        why=why,
        part=part,
    )


CONSTANTS = (UNDER_BOILING, FRIDGE)
_HERE = "soapbench.science.lye_start."
RELATIONS = (
    Relation("Hottest lye allowed", "min(jug, boiling - 5 K)", "C", OWN_CHOICE, _HERE + "hottest_allowed"),
    Relation(
        "Warmest water for a peak", "the balance of the lye, solved for T0", "C", BALANCE, _HERE + "start_for_peak"
    ),
    Relation("Start of a lye", "T0 ≤ min(25, T0 for the limit), or ice", "C, g", BALANCE, _HERE + "lye_start"),
)
