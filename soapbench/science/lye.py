"""The lye: how much water, how strong; its properties and its heat by way of the modules beside this one."""

from __future__ import annotations

from typing import Literal, get_args

from soapbench.science.errors import OutOfRange, chosen, not_negative, positive
from soapbench.science.jug import JugCheck, jug_check
from soapbench.science.lye_heat import (
    PeakTemperature,
    StartWarning,
    heat_of_solution,
    ice_for_peak,
    peak_temperature,
    start_warning,
)
from soapbench.science.lye_properties import (
    STRONGEST,
    Solute,
    boiling_point_c,
    density_g_per_ml,
    heat_capacity,
    solubility_limit,
)
from soapbench.science.sources import STOICHIOMETRY, Constant, Relation

from .words import say

__all__ = [
    "JugCheck",
    "PeakTemperature",
    "Solute",
    "StartWarning",
    "WaterBy",
    "boiling_point_c",
    "concentration",
    "density_g_per_ml",
    "heat_capacity",
    "heat_of_solution",
    "ice_for_peak",
    "jug_check",
    "lye_volume_ml",
    "peak_temperature",
    "solubility_limit",
    "start_warning",
    "water_g",
    "water_to_alkali",
]

WaterBy = Literal["lye concentration", "water to alkali ratio", "percent of fats"]


def water_g(by: WaterBy, value: float, alkali_g: float, fats_g: float) -> float:
    """Return the grams of water for a lye, by any of the three ways that makers write it down.

    Args:
        by: what the value means.
        value: a share from 0 to 1 for "lye concentration" (0.33) and "percent of fats" (0.30, thirty per cent);
            grams of water per gram of alkali for "water to alkali ratio" (2.0).
        alkali_g: alkali as weighed.
        fats_g: all fats; used by "percent of fats" only.

    Raises:
        OutOfRange: a mass is not above zero, the water would weigh less than the alkali, or an unknown way.

    Source: definitions; mass of alkali by mass of lye.
    """
    chosen(by, get_args(WaterBy), "a way to say how much water")
    positive(alkali_g, "The alkali")
    positive(value, "The amount of water", "")
    if by == "water to alkali ratio":
        water = value * alkali_g
    elif by == "lye concentration":
        if value > 1:
            raise OutOfRange(
                say("A lye of {value:g} % cannot be: the alkali is a part of it. Give 25 to 40 %.", value=100 * value)
            )
        water = alkali_g * (1 - value) / value
    else:
        water = value * positive(fats_g, "The fats")
    concentration(alkali_g, water)
    return water


def concentration(alkali_g: float, water_g: float) -> float:
    """Return the strength of a lye: alkali by alkali and water, a mass fraction from 0 to 0.50.

    Raises:
        OutOfRange: there is less water than alkali, so that not all of it would stay dissolved.

    Source: definition; the limit is the solubility at 20 C.
    """
    positive(alkali_g, "The alkali")
    not_negative(water_g, "The water")
    strength = alkali_g / (alkali_g + water_g)
    if strength > STRONGEST.value + 1e-9:
        raise OutOfRange(
            say(
                "{water:.4g} g of water is less than the {alkali:.4g} g of alkali: it would not all dissolve. Use at "
                "least as much water as alkali.",
                water=water_g,
                alkali=alkali_g,
            )
        )
    return strength


def water_to_alkali(strength: float) -> float:
    """Return grams of water per gram of alkali in a lye of a given strength (0.25 gives 3.0).

    Raises:
        OutOfRange: the strength is not above 0, or is above 0.50.

    Source: definition.
    """
    positive(strength, "The strength of the lye", "")
    if strength > STRONGEST.value + 1e-9:
        raise OutOfRange(say("The strongest lye in use is 50 %: as much water as alkali."))
    return (1 - strength) / strength


def lye_volume_ml(alkali_g: float, water_g: float, solute: Solute = "NaOH", temperature_c: float = 60) -> float:
    """Return the volume of a lye in ml, warm by default as it is when the jug is fullest.

    Raises:
        OutOfRange: as concentration and density_g_per_ml do.

    Source: mass over the density of lye_properties.
    """
    strength = concentration(alkali_g, water_g)
    return (alkali_g + water_g) / density_g_per_ml(solute, strength, temperature_c)


CONSTANTS: tuple[Constant, ...] = ()
_HERE = "soapbench.science.lye."
RELATIONS = (
    Relation("Strength of a lye", "c = N/(N + W)", "g/g", STOICHIOMETRY, _HERE + "concentration"),
    Relation("Water for a strength", "W = N (1 - c)/c", "g", STOICHIOMETRY, _HERE + "water_g"),
    Relation("Water to alkali", "W/N = (1 - c)/c", "g/g", STOICHIOMETRY, _HERE + "water_to_alkali"),
    Relation("Volume of a lye", "V = (N + W)/ρ(c, T)", "ml", STOICHIOMETRY, _HERE + "lye_volume_ml"),
)
