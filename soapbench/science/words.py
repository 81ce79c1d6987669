"""Sentences in the language of whoever reads them; the app lends its catalogue of messages, science keeps none."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from string import Formatter
from typing import Any

NARROW_SPACE = "\u202f"  # sets thousands apart where a comma is the decimal mark: a lone point could be read as one


@dataclass
class _Speech:
    """What the app lends: a message, one of two by number, a word in its context, the decimal mark."""

    one: Callable[[str], str]
    many: Callable[[str, str, int], str]
    word: Callable[[str, str], str]
    decimal_mark: Callable[[], str]


_speech = _Speech(
    one=str,
    many=lambda one, many, count: one if count == 1 else many,
    word=lambda context, word: word,
    decimal_mark=lambda: ".",
)


def speak_with(
    one: Callable[[str], str],
    many: Callable[[str, str, int], str],
    word: Callable[[str, str], str],
    decimal_mark: Callable[[], str],
) -> None:
    """Take the app's catalogue: from now on every sentence is said in the language of the request."""
    _speech.one, _speech.many, _speech.word, _speech.decimal_mark = one, many, word, decimal_mark


class _Sentences(Formatter):
    """str.format, with the numbers in it written as the language writes them, and {name!l} for a small first letter."""

    def convert_field(self, value: Any, conversion: str | None) -> Any:
        """Return a name in small letters for !l; each language says for itself whether a noun is written so."""
        return str(value).lower() if conversion == "l" else super().convert_field(value, conversion)

    def format_field(self, value: Any, format_spec: str) -> str:
        text = format(value, format_spec)
        return _marked(text) if isinstance(value, int | float) else text


def say(message: str, /, **values: object) -> str:
    """Return a whole sentence, its named places filled: say("Weigh {mass:.0f} g of {fat}.", mass=…, fat=…).

    Without values nothing is filled in, so that braces may stand in it.
    """
    said = _speech.one(message)
    return _FILL.vformat(said, (), values) if values else said


def plural(one: str, many: str, count: int, /, **values: object) -> str:
    """Return the sentence that fits the count, which stands in it as {count}."""
    return _FILL.vformat(_speech.many(one, many, count), (), {"count": count, **values})


def word(context: str, name: str) -> str:
    """Return a name of the reference data, such as a material, in the reader's language; a typed one as it is."""
    return _speech.word(context, name) if name else name


def mark(message: str) -> str:
    """Return the message as it is: for one that stands in a table and is said later, with say(message)."""
    return message


def figure(value: float, spec: str) -> str:
    """Return a number as format() does, with the decimal mark of the language."""
    return _marked(format(value, spec))


def listed(words: Sequence[str]) -> str:
    """Return "A", "A and B" or "A, B and C"."""
    if len(words) < 2:
        return "".join(words)
    return say("{first} and {last}", first=", ".join(words[:-1]), last=words[-1])


def _marked(text: str) -> str:
    if _speech.decimal_mark() == ".":
        return text
    return text.translate({ord("."): ",", ord(","): NARROW_SPACE})


_FILL = _Sentences()
