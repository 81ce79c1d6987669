"""The one error that the science raises on purpose."""

from __future__ import annotations

import math


class OutOfRange(ValueError):
    """A value that the sums cannot stand for; str() of it is a sentence fit for the screen."""


def number(value: float, name: str) -> float:
    """Return the value when it is a finite number; the name opens the sentence raised otherwise.

    Raises:
        OutOfRange: the value is not a number, or it is infinite.
    """
    if not math.isfinite(value):
        raise OutOfRange(f"{name} must be a plain number.")
    return value


def positive(value: float, name: str, unit: str = "g") -> float:
    """Return the value when it is above zero.

    Raises:
        OutOfRange: the value is zero, negative or not a number.
    """
    if number(value, name) <= 0:
        raise OutOfRange(f"{name} must be more than 0 {unit}, not {value:g}.".replace("  ", " "))
    return value


def not_negative(value: float, name: str, unit: str = "g") -> float:
    """Return the value when it is zero or more.

    Raises:
        OutOfRange: the value is negative or not a number.
    """
    if number(value, name) < 0:
        raise OutOfRange(f"{name} cannot be less than 0 {unit}, but it is {value:g}.")
    return value


def fraction(value: float, name: str) -> float:
    """Return the value when it lies from 0 to 1; the sentence speaks in per cent.

    Raises:
        OutOfRange: the value is outside 0 to 1 or not a number.
    """
    if not 0 <= number(value, name) <= 1:
        raise OutOfRange(f"{name} must be between 0 % and 100 %, not {100 * value:g} %.")
    return value
