"""Whatever is put in, an answer is a number or the one documented refusal."""

import math
import re
from dataclasses import fields, is_dataclass
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from tests.science.calls import CALLS, WITHOUT_SUMS, Choice, Made, public_functions

FUNCTIONS = {name: one for name, one in public_functions().items() if name.rpartition(".")[0] not in WITHOUT_SUMS}
WILD = (
    *(math.nan, math.inf, -math.inf, 0.0, -0.0, -1.0, -273.16, 1e300, -1e300),
    *(1e9, 1e-9, 1e-300, -1e-300, 5e-324, 1.7976931348623157e308),
)
SLOW = ("cooling.", "cooling_fit.", "cure.", "pattern.")  # each call fits a curve, or makes faces
A_SENTENCE = re.compile(r"[A-Z“\d+-].*[.?]$", re.DOTALL)


class Spoilt(Exception):
    """The thing to hand over could not even be made: it was refused before."""


def spoilt(draw: st.DataObject, value: Any) -> Any:
    """Return the value with some of its numbers and words replaced by wild ones."""
    if isinstance(value, bool):
        return value
    if isinstance(value, float):
        return draw.draw(st.sampled_from((value,) * 2 * len(WILD) + WILD))  # two of three stay as they are
    if isinstance(value, int):
        return draw.draw(st.sampled_from((value, value, 0, -1, 10**9)))
    if isinstance(value, Choice):
        return draw.draw(st.sampled_from((value.word, value.word, value.word, "unheard of")))
    if isinstance(value, Made):
        return made(value.how, spoilt(draw, value.given))
    if isinstance(value, dict):
        return {key: spoilt(draw, each) for key, each in value.items()}
    if isinstance(value, tuple):
        return tuple(spoilt(draw, each) for each in value)
    return value


def made(how: Any, given: dict[str, Any]) -> Any:
    try:
        return how(**given)
    except OutOfRange as refusal:
        assert A_SENTENCE.match(str(refusal)), str(refusal)
        raise Spoilt from refusal


def numbers_in(value: Any) -> list[float]:
    if isinstance(value, float):
        return [value]
    if isinstance(value, dict):
        return [number for each in value.values() for number in numbers_in(each)]
    if isinstance(value, list | tuple):
        return [number for each in value for number in numbers_in(each)]
    if is_dataclass(value):
        return [number for field in fields(value) for number in numbers_in(getattr(value, field.name))]
    return []


def plain(value: Any) -> Any:
    """Return the value as it is, its words and things made."""
    if isinstance(value, Choice):
        return value.word
    if isinstance(value, Made):
        return value.how(**plain(dict(value.given)))
    if isinstance(value, dict):
        return {key: plain(each) for key, each in value.items()}
    return tuple(plain(each) for each in value) if isinstance(value, tuple) else value


def test_every_public_function_is_called_here():
    assert set(FUNCTIONS) == set(CALLS)


@pytest.mark.parametrize("name", CALLS)
def test_a_sensible_call_gives_finite_numbers(name):
    answer = FUNCTIONS[name](**plain(CALLS[name]))

    assert all(map(math.isfinite, numbers_in(answer)))


@pytest.mark.parametrize("name", CALLS)
def test_wild_input_is_answered_with_numbers_or_refused_with_a_sentence(name):
    @settings(max_examples=3 if name.startswith(SLOW) else 30, deadline=None, derandomize=True)
    @given(st.data())
    def holds(draw):
        try:
            given_ = spoilt(draw, CALLS[name])
        except Spoilt:
            return
        try:
            answer = FUNCTIONS[name](**given_)
        except OutOfRange as refusal:
            assert A_SENTENCE.match(str(refusal)), str(refusal)
            assert "OutOfRange" in (FUNCTIONS[name].__doc__ or ""), "the docstring does not tell of the refusal"
        else:
            assert not any(map(math.isnan, numbers_in(answer)))

    holds()
