"""The heat of dissolving: how hot the lye can get, with a warm start or with ice, and in which jug."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from soapbench.science.arithmetic import interpolate
from soapbench.science.atoms import KOH, NAOH, WATER
from soapbench.science.errors import OutOfRange, a_temperature, fraction, not_negative, number, positive
from soapbench.science.jug import heat_capacity_of
from soapbench.science.lye_properties import (
    Solute,
    boiling_point_c,
    check_solute,
    check_strength,
    enthalpy_kj_per_kg,
    heat_capacity,
    solubility_limit,
)
from soapbench.science.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_CHOICE, Constant, Relation, Source, Table

from .words import say

PARKER = Source(
    "parker-1965",
    "V. B. Parker, Thermal Properties of Aqueous Uni-univalent Electrolytes, NSRDS-NBS 2, 1965",
    "enthalpy of solution at infinite dilution, as reprinted in the CRC Handbook",
    "published",
)
HEAT_LOST_TO_STRENGTH = Source(
    "relative-enthalpy",
    "Relative enthalpy of NaOH lyes",
    "open table of integral heats of solution below 20 %, Olsson 1997 above; the two agree within 0.1 kJ/mol",
    "computed",
)
CRC = Source("crc", "CRC Handbook of Chemistry and Physics", "as carried in the Python package chemicals", "published")
BALANCE = Source("lye-balance", "Heat balance of a lye without loss to the air", "within 3 K", "computed")

NAOH_HEAT = Constant("Heat of solution of NaOH", "-ΔH∞", 44.51, "kJ/mol", PARKER, "heat_of_solution")
KOH_HEAT = Constant("Heat of solution of KOH", "-ΔH∞", 57.61, "kJ/mol", PARKER, "heat_of_solution")
HYDRATE_HEAT = Constant("Heat of solution of KOH·H2O", "-ΔH∞", 14.64, "kJ/mol", PARKER, "heat_of_solution")
NAOH_SOLID_C = Constant("Heat capacity of solid NaOH", "c", 1.488, "J/(g K)", CRC, "peak_temperature")
KOH_SOLID_C = Constant("Heat capacity of solid KOH", "c", 1.228, "J/(g K)", CRC, "peak_temperature")
WATER_C = Constant("Heat capacity of water", "c", 4.18, "J/(g K)", CRC, "peak_temperature")
ICE_C = Constant("Heat capacity of ice", "c", 2.1, "J/(g K)", FROM_MEMORY, "peak_temperature")
FREEZER = Constant("Temperature of ice from a freezer", "T", -18.0, "C", COMMON_PRACTICE, "peak_temperature")
FUSION = Constant("Heat that melts ice", "L", 333.6, "J/g", CRC, "peak_temperature")
REFUSE_START = Constant(
    "Water too warm to start",
    "T",
    30.0,
    "C",
    OWN_CHOICE,
    "start_warning: 33 % from 34 C boils",
    why="A 33 % lye that starts at 34 C boils when nothing is lost.",
)
WARN_START = Constant(
    "Water warm enough to warn", "T", 25.0, "C", OWN_CHOICE, "start_warning", why="Five degrees before that."
)
TOO_COLD = Constant("Lye too cold to dissolve all alkali", "T", 15.0, "C", FROM_MEMORY, "peak_temperature")
USUALLY_LESS = Constant("Least that a real jug stays under it", "ΔT", 5.0, "K", COMMON_PRACTICE, "peak_temperature")
AT_MOST_LESS = Constant("Most that a real jug stays under it", "ΔT", 25.0, "K", COMMON_PRACTICE, "peak_temperature")

# kJ per mole of NaOH that a lye of mass fraction w gives off less than a very weak one.
LOST_TO_STRENGTH = (
    *((0.0, 0.0), (0.0217, 0.535), (0.0425, 0.343), (0.10, 0.0), (0.182, 0.37), (0.20, 0.73), (0.25, 2.29)),
    *((0.28, 3.59), (0.30, 4.64), (0.33, 6.49), (0.35, 7.89), (0.38, 10.20), (0.40, 11.85), (0.45, 16.21)),
    (0.50, 20.60),
)


@dataclass(frozen=True, slots=True)
class PeakTemperature:
    """How hot a lye can get, in C: with no loss at all, less the warming of the jug, and what is usually read."""

    no_loss_c: float
    with_jug_c: float
    usual_low_c: float
    usual_high_c: float
    sentence: str
    boils: bool = False
    too_cold: bool = False


@dataclass(frozen=True, slots=True)
class StartWarning:
    """Why the water is too warm; stops says that the alkali must not go in."""

    stops: bool
    sentence: str


def heat_of_solution(solute: Solute, w: float, purity: float = 1) -> float:
    """Return the heat in kJ that one mole of alkali gives off when it dissolves to a lye of mass fraction w.

    KOH: an upper bound, the heat at infinite dilution; what a purity below 1 leaves is taken as water bound in
    KOH·H2O, which gives off less.

    Raises:
        OutOfRange: the lye is stronger than 50 %, the purity is not above 0 and up to 1, or an unknown alkali.

    Source: Parker 1965; for NaOH less what strength takes away (open table of heats of solution, Olsson 1997).
    """
    check_solute(solute)
    check_strength(w)
    positive(fraction(purity, "The purity of the alkali"), "The purity of the alkali", "")
    if solute == "NaOH":
        return NAOH_HEAT.value - interpolate(w, LOST_TO_STRENGTH)
    hydrate = min(1.0, (1 - purity) / WATER / (purity / KOH))
    return KOH_HEAT.value * (1 - hydrate) + HYDRATE_HEAT.value * hydrate


def peak_temperature(
    alkali_g: float,
    water_g: float,
    start_c: float,
    *,
    solute: Solute = "NaOH",
    ice_g: float = 0,
    ice_c: float = FREEZER.value,
    jug_g: float = 0,
    jug_material: str = "polypropylene",
    purity: float = 1,
) -> PeakTemperature:
    """Return how hot the lye can get when all alkali goes in at once and nothing is lost to the air.

    Args:
        alkali_g: alkali as weighed.
        water_g: all the water, frozen or not; for milk and the like its mass, taken as water.
        start_c: temperature of what is not frozen, and of the alkali and the jug.
        solute: "NaOH" or "KOH"; for KOH the figure is an upper bound.
        ice_g: the part of water_g that is frozen.
        ice_c: its temperature, 0 or below.
        jug_g, jug_material: the jug that warms up with it; 0 g leaves it out.
        purity: pure alkali by alkali as weighed.

    Raises:
        OutOfRange: a mass or the purity is impossible, the lye is too strong, there is more ice than water, or the
            alkali or the material is unknown.

    Source: heat balance with the heats named beside the constants.
    """
    positive(alkali_g, "The alkali")
    _check_ice(water_g, ice_g, ice_c)
    total = alkali_g + water_g
    w = alkali_g * purity / total
    check_strength(w)
    mole = NAOH if solute == "NaOH" else KOH
    given = 1000 * alkali_g * purity / mole * heat_of_solution(solute, w, purity)
    given += _warmth_at_start(solute, alkali_g, water_g - ice_g, start_c)
    given -= ice_g * (FUSION.value - ICE_C.value * ice_c + WATER_C.value * 25)

    def spent(temperature_c: float, jug: float) -> float:
        return total * _warmth(solute, w, temperature_c) + jug * (temperature_c - start_c)

    jug = not_negative(jug_g, "The jug") * heat_capacity_of(jug_material)
    no_loss = _solve(lambda t: spent(t, 0) - given)
    return _described(solute, w, start_c, no_loss, _solve(lambda t: spent(t, jug) - given))


def start_warning(start_c: float) -> StartWarning | None:
    """Return why the water is too warm for the alkali, or None when it is cold enough.

    Above 30 C the alkali must stay out (a 33 % lye started at 34 C reaches its boiling point when nothing is
    lost); above 25 C there is a warning. Both limits are our own choice, on that reckoning.

    Raises:
        OutOfRange: no water has that temperature.

    Source: own choice on the worked table of peak temperatures.
    """
    if not -30 <= number(start_c, "The temperature of the water") <= 105:
        raise OutOfRange(
            say("{start:g} °C cannot be the temperature of the water. Is the thermometer set to °C?", start=start_c)
        )
    if start_c > REFUSE_START.value:
        return StartWarning(
            True,
            say(
                "The water is at {start:.0f} °C. The lye could boil and spit. Cool it below 25 °C before you start.",
                start=start_c,
            ),
        )
    if start_c > WARN_START.value:
        return StartWarning(
            False,
            say(
                "The water is at {start:.0f} °C, which is warm. Colder is safer. Add the alkali very slowly.",
                start=start_c,
            ),
        )
    return None


def ice_for_peak(
    alkali_g: float, water_g: float, start_c: float, limit_c: float, *, solute: Solute = "NaOH", purity: float = 1
) -> float:
    """Return the grams of the water to freeze (at -18 C) so that a lye stays under a temperature.

    0 when it does so anyway. No loss is counted, so the real lye stays lower still.

    Raises:
        OutOfRange: not even frozen whole does the water keep the lye that cool, or an input is impossible.

    Source: the balance of peak_temperature, solved for the ice by bisection.
    """
    a_temperature(limit_c, "The highest temperature")

    def peak(ice_g: float) -> float:
        return peak_temperature(alkali_g, water_g, start_c, ice_g=ice_g, solute=solute, purity=purity).no_loss_c

    if peak(0) <= limit_c:
        return 0.0
    if peak(water_g) > limit_c:
        raise OutOfRange(
            say("Even with all water frozen the lye can pass {limit:.0f} °C. Use more water.", limit=limit_c)
        )
    low, high = 0.0, water_g
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if peak(middle) > limit_c else (low, middle)
    return high


def _check_ice(water_g: float, ice_g: float, ice_c: float) -> None:
    positive(water_g, "The water")
    if not_negative(ice_g, "The ice") > water_g + 1e-9:
        raise OutOfRange(
            say(
                "The ice is a part of the water: {ice:g} g of ice cannot be more than {water:g} g.",
                ice=ice_g,
                water=water_g,
            )
        )
    if not -60 <= number(ice_c, "The temperature of the ice") <= 0:
        raise OutOfRange(say("Ice at {ice:g} °C cannot be. A freezer is near -18 °C.", ice=ice_c))


def _warmth_at_start(solute: Solute, alkali_g: float, liquid_g: float, start_c: float) -> float:
    if not -5 <= number(start_c, "The temperature of the water") <= 100:
        raise OutOfRange(
            say("{start:g} °C cannot be the temperature of the water. Is the thermometer set to °C?", start=start_c)
        )
    solid = NAOH_SOLID_C if solute == "NaOH" else KOH_SOLID_C
    return (alkali_g * solid.value + liquid_g * WATER_C.value) * (start_c - 25)


def _warmth(solute: Solute, w: float, temperature_c: float) -> float:
    """Return the heat in J/g that brings a lye from 25 C to a temperature."""
    if solute == "NaOH" and w >= 0.20:  # below, the enthalpy of Olsson is not to be differentiated
        return enthalpy_kj_per_kg(w, temperature_c) - enthalpy_kj_per_kg(w, 25)
    cool, warm = heat_capacity(solute, w, 25), heat_capacity(solute, w, 60)
    rise = min(max(temperature_c - 25, 0.0), 35.0)
    bent = cool * rise + (warm - cool) * rise**2 / 70
    return bent + cool * min(temperature_c - 25, 0.0) + warm * max(temperature_c - 60, 0.0)


def _solve(missing: Callable[[float], float]) -> float:
    low, high = -40.0, 300.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if missing(middle) < 0 else (low, middle)
    return (low + high) / 2


def _described(solute: Solute, w: float, start_c: float, no_loss: float, with_jug: float) -> PeakTemperature:
    no_loss, with_jug = max(0.0, no_loss), max(0.0, with_jug)
    low = max(min(start_c, with_jug), with_jug - AT_MOST_LESS.value)
    high = max(low, with_jug - USUALLY_LESS.value)
    boils = no_loss >= boiling_point_c(w)
    too_cold = with_jug < TOO_COLD.value or solubility_limit(solute, with_jug) < w
    told = {"peak": with_jug, "low": low, "high": high}
    if solute == "NaOH":
        sentence = say("The lye can rise to about {peak:.0f} °C, usually {low:.0f} to {high:.0f} °C.", **told)
    else:
        sentence = say("The lye can rise up to {peak:.0f} °C, usually {low:.0f} to {high:.0f} °C.", **told)
    if boils:
        sentence += " " + say("It could boil: start colder, or with ice, and add the alkali in small portions.")
    if too_cold:
        sentence += " " + say(
            "So cold, some alkali may stay undissolved: stir until it is clear, warm it if it is not."
        )
    return PeakTemperature(no_loss, with_jug, low, high, sentence, boils, too_cold)


CONSTANTS = (
    *(NAOH_HEAT, KOH_HEAT, HYDRATE_HEAT, NAOH_SOLID_C, KOH_SOLID_C, WATER_C, ICE_C, FREEZER, FUSION),
    *(REFUSE_START, WARN_START, TOO_COLD, USUALLY_LESS, AT_MOST_LESS),
)
TABLES = (
    Table(
        "Heat that a strong NaOH lye gives off less than a weak one",
        ("g/g", "kJ/mol"),
        LOST_TO_STRENGTH,
        HEAT_LOST_TO_STRENGTH,
        "heat_of_solution",
    ),
)
_HERE = "soapbench.science.lye_heat."
RELATIONS = (
    Relation("Heat of solution", "-ΔH(w) = -ΔH∞ - L(w)", "kJ/mol", HEAT_LOST_TO_STRENGTH, _HERE + "heat_of_solution"),
    Relation(
        "Peak temperature of the lye",
        "n·(-ΔH) + start heat - ice·(333.6 - 2.1 T_ice + 4.18·25) = m·∫c dT + jug·(T - T0)",
        "C",
        BALANCE,
        _HERE + "peak_temperature",
    ),
    Relation("Water too warm", "warn above 25 C, stop above 30 C", "C", OWN_CHOICE, _HERE + "start_warning"),
    Relation("Ice for a peak", "the same balance, solved for the ice", "g", BALANCE, _HERE + "ice_for_peak"),
)
