"""The one error that the science raises on purpose, and the checks that raise it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from .words import say

LARGEST = 1e12  # no weight, time or temperature of a workshop comes near it; beyond it the sums would overflow
SMALLEST = 1e-12  # what is nearer to nought than this is nought: dividing by it would overflow


class OutOfRange(ValueError):
    """A value that the sums cannot stand for; str() of it is a sentence fit for the screen."""


def number(value: float, name: str, /, **values: object) -> float:
    """Return the value when it is a finite number; the name opens the sentence raised otherwise.

    As in every check here, the name is a message, said only when it is needed; values fill it in.

    Raises:
        OutOfRange: the value is not a number, is infinite, or is larger than anything in a workshop.
    """
    if not math.isfinite(value):
        raise OutOfRange(say("{name} must be a plain number.", name=say(name, **values)))
    if abs(value) > LARGEST:
        raise OutOfRange(
            say("{name} cannot be {value:g}. Look at the decimal mark.", name=say(name, **values), value=value)
        )
    return value


def positive(value: float, name: str, unit: str = "g", /, **values: object) -> float:
    """Return the value when it is above zero.

    Raises:
        OutOfRange: the value is zero, negative or not a number.
    """
    if number(value, name, **values) < SMALLEST:
        asked = {"name": say(name, **values), "unit": say(unit), "value": value}
        raise OutOfRange(say("{name} must be more than 0 {unit}, not {value:g}.", **asked).replace(" ,", ","))
    return value


def not_negative(value: float, name: str, unit: str = "g", /, **values: object) -> float:
    """Return the value when it is zero or more.

    Raises:
        OutOfRange: the value is negative or not a number.
    """
    if number(value, name, **values) < 0:
        asked = {"name": say(name, **values), "unit": say(unit), "value": value}
        raise OutOfRange(say("{name} cannot be less than 0 {unit}, but it is {value:g}.", **asked).replace(" ,", ","))
    return value


def fraction(value: float, name: str, /, **values: object) -> float:
    """Return the value when it lies from 0 to 1; the sentence speaks in per cent.

    Raises:
        OutOfRange: the value is outside 0 to 1 or not a number.
    """
    if not 0 <= number(value, name, **values) <= 1:
        asked = {"name": say(name, **values), "percent": 100 * value}
        raise OutOfRange(say("{name} must be between 0 % and 100 %, not {percent:g} %.", **asked))
    return value


def between(value: float, low: float, high: float, name: str, unit: str = "", /, **values: object) -> float:
    """Return the value when it lies from low to high.

    Raises:
        OutOfRange: the value is outside or not a number.
    """
    if not low <= number(value, name, **values) <= high:
        asked = {"name": say(name, **values), "low": low, "high": high, "unit": say(unit), "value": value}
        sentence = say("{name} must be between {low:g} and {high:g} {unit}, not {value:g}.", **asked)
        raise OutOfRange(sentence.replace(" ,", ","))
    return value


def a_temperature(value: float, name: str = "The temperature", /) -> float:
    """Return the value when something in a workshop can have this temperature in C, -80 (dry ice) to 400.

    Raises:
        OutOfRange: the value is outside or not a number.
    """
    if not -80 <= number(value, name) <= 400:
        raise OutOfRange(
            say("{name} cannot be {value:g} °C. Is the thermometer set to °C?", name=say(name), value=value)
        )
    return value


def chosen(word: str, words: Iterable[str], what: str) -> str:
    """Return the word when it is one of the words; what says what it should have been.

    Raises:
        OutOfRange: it is none of them.
    """
    known = tuple(words)
    if word not in known:
        raise OutOfRange(
            say("“{word}” is not {what}. Choose one of: {known}.", word=word, what=say(what), known=", ".join(known))
        )
    return word
