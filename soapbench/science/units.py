"""The maker's own units at the edge of the app: ounces and pounds, degrees Fahrenheit, inches.

Inside everything is g, C and mm. Fluid ounces, cups and spoons are volumes and never stand for a weight here.
"""

from __future__ import annotations

from typing import Literal

from .errors import OutOfRange, chosen, not_negative, number
from .sources import Constant, Relation, Source
from .words import say

MassUnit = Literal["g", "kg", "oz", "lb"]
TemperatureUnit = Literal["°C", "°F"]
LengthUnit = Literal["mm", "cm", "in"]

NIST = Source(
    "nist-sp-811",
    "NIST Special Publication 811, Guide for the Use of the SI, 2008",
    "appendix B.8: pound, ounce (avoirdupois) and inch are exact; B.8 and 4.2.1.1 for degrees Fahrenheit",
    "published",
)

OUNCE = Constant("avoirdupois ounce", "oz", 28.349523125, "g", NIST, "to_grams, exact: a sixteenth of a pound")
POUND = Constant("avoirdupois pound", "lb", 453.59237, "g", NIST, "to_grams, exact")
INCH = Constant("inch", "in", 25.4, "mm", NIST, "to_mm, exact")
FREEZING_F = Constant("water freezes at", "", 32.0, "°F", NIST, "to_celsius")
FAHRENHEIT_STEP = Constant("degrees Fahrenheit in one kelvin", "", 1.8, "°F/K", NIST, "to_celsius, exact")
ABSOLUTE_ZERO = Constant("absolute zero", "", -273.15, "°C", NIST, "to_celsius")

_GRAMS = {"g": 1.0, "kg": 1000.0, "oz": OUNCE.value, "lb": POUND.value}
_MM = {"mm": 1.0, "cm": 10.0, "in": INCH.value}
_NO_WEIGHT = {"fl oz", "ml", "cup", "tsp", "tbsp", "pint"}


def to_grams(value: float, unit: MassUnit) -> float:
    """Return a mass in g from the maker's own unit.

    Raises:
        OutOfRange: a negative mass, a unit of volume, or an unknown unit.

    Source: NIST SP 811, exact factors.
    """
    return not_negative(value, "The weight", unit) * _in_grams(unit)


def from_grams(grams: float, unit: MassUnit) -> float:
    """Return a mass of so many g in the maker's own unit.

    Raises:
        OutOfRange: a negative mass, a unit of volume, or an unknown unit.

    Source: NIST SP 811, exact factors.
    """
    return not_negative(grams, "The weight") / _in_grams(unit)


def pounds_and_ounces(grams: float) -> tuple[int, float]:
    """Return whole pounds and the ounces that are left, below 16, as scales in pounds show them.

    Raises:
        OutOfRange: a negative mass.

    Source: NIST SP 811; a pound has sixteen ounces.
    """
    pounds = int(from_grams(grams, "lb"))
    return pounds, max(0.0, (grams - pounds * POUND.value) / OUNCE.value)


def to_celsius(value: float, unit: TemperatureUnit) -> float:
    """Return a temperature in C: t = (f - 32) / 1.8.

    Raises:
        OutOfRange: below absolute zero, or an unknown unit.

    Source: NIST SP 811.
    """
    number(value, "The temperature")
    celsius = (value - FREEZING_F.value) / FAHRENHEIT_STEP.value if _is_fahrenheit(unit) else value
    return _above_zero(celsius)


def from_celsius(celsius: float, unit: TemperatureUnit) -> float:
    """Return a temperature of so many C in the maker's own unit: f = 1.8 t + 32.

    Raises:
        OutOfRange: below absolute zero, or an unknown unit.

    Source: NIST SP 811.
    """
    _above_zero(number(celsius, "The temperature"))
    return celsius * FAHRENHEIT_STEP.value + FREEZING_F.value if _is_fahrenheit(unit) else celsius


def to_mm(value: float, unit: LengthUnit) -> float:
    """Return a length in mm from the maker's own unit.

    Raises:
        OutOfRange: a negative length, or an unknown unit.

    Source: NIST SP 811, exact factors.
    """
    return not_negative(value, "The length", unit) * _in_mm(unit)


def from_mm(mm: float, unit: LengthUnit) -> float:
    """Return a length of so many mm in the maker's own unit.

    Raises:
        OutOfRange: a negative length, or an unknown unit.

    Source: NIST SP 811, exact factors.
    """
    return not_negative(mm, "The length", "mm") / _in_mm(unit)


def _in_grams(unit: str) -> float:
    if unit in _NO_WEIGHT:
        raise OutOfRange(say("“{unit}” is a volume, not a weight. Set the scale to g or oz and weigh it.", unit=unit))
    return _GRAMS[chosen(unit, _GRAMS, "a weight known here")]


def _in_mm(unit: str) -> float:
    return _MM[chosen(unit, _MM, "a length known here")]


def _is_fahrenheit(unit: str) -> bool:
    return chosen(unit, ("°C", "°F"), "a temperature known here") == "°F"


def _above_zero(celsius: float) -> float:
    if celsius < ABSOLUTE_ZERO.value:
        raise OutOfRange(
            say("Nothing is colder than {value:g} °C. Read the thermometer again.", value=ABSOLUTE_ZERO.value)
        )
    return celsius


CONSTANTS = (OUNCE, POUND, INCH, FREEZING_F, FAHRENHEIT_STEP, ABSOLUTE_ZERO)
_AT = "soapbench.science.units."
RELATIONS = (
    Relation("weight into grams", "oz x 28.349523125; lb x 453.59237", "g", NIST, _AT + "to_grams"),
    Relation("grams into another weight", "g / 28.349523125; g / 453.59237", "oz, lb", NIST, _AT + "from_grams"),
    Relation("pounds and ounces", "whole pounds, then sixteenths", "lb, oz", NIST, _AT + "pounds_and_ounces"),
    Relation("Fahrenheit into Celsius", "t = (f - 32) / 1.8", "°C", NIST, _AT + "to_celsius"),
    Relation("Celsius into Fahrenheit", "f = 1.8 t + 32", "°F", NIST, _AT + "from_celsius"),
    Relation("length into millimetres", "in x 25.4", "mm", NIST, _AT + "to_mm"),
    Relation("millimetres into another length", "mm / 25.4", "in", NIST, _AT + "from_mm"),
)
