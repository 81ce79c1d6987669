"""Questions that a typed weight raises: slips of the decimal mark, of the unit, of the row, of the tare."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from .errors import not_negative, positive
from .rounding import Kind, tolerance_g
from .sources import Constant, Relation, Source, Table
from .words import figure, mark, say

_RULES = Source(
    "ratio-tests",
    "Ratio tests on a typed weight",
    "entered / target against 10, 28.35, 453.6, 1000, 1.403 and so on; no outside source",
    "own choice",
)

_TENS = ((9.5, 10.5), (0.095, 0.105), (95, 105), (0.0095, 0.0105))
_UNITS = (
    (28.35, mark("grams and ounces")),
    (1000, mark("grams and kilograms")),
    (453.6, mark("grams and pounds")),
    (16, mark("ounces and pounds")),
    (2.205, mark("pounds and kilograms")),
)
_UNIT_SLACK = 0.01
_POTASSIUM = ((1.403, 0.01), (0.713, 0.005))
_FAR = (0.5, 1.5)
_HAIR = 1e-9  # 404.1 - 400 is a little more than 4.1 to a machine


@dataclass(frozen=True, slots=True)
class Doubt:
    """A question about a typed weight: a short code, the sentence to ask, and whether it must be settled first."""

    code: str
    sentence: str
    stops: bool


@dataclass(frozen=True, slots=True)
class _Entry:
    """A typed weight with all that it is held against, g."""

    entered_g: float
    target_g: float
    kind: Kind
    resolution_g: float
    tares: Mapping[str, float]
    running_total_g: float | None
    other_targets: Mapping[str, float]
    tolerance_g: float | None = None

    @property
    def ratio(self) -> float:
        return self.entered_g / self.target_g

    def is_near(self, mass_g: float) -> bool:
        allowed = self.tolerance_g
        if allowed is None:
            allowed = tolerance_g(self.kind, mass_g, self.resolution_g)
        return abs(self.entered_g - mass_g) <= allowed + _HAIR


def entry_doubts(
    entered_g: float,
    target_g: float,
    *,
    kind: Kind,
    resolution_g: float,
    tares: Mapping[str, float] | None = None,
    running_total_g: float | None = None,
    other_targets: Mapping[str, float] | None = None,
    tolerance_g: float | None = None,
) -> tuple[Doubt, ...]:
    """Return the questions that a typed weight raises, likeliest first; none when it is within tolerance.

    Each is a question, not a stop, except for alkali. Source: own choice of ratios.

    Args:
        tolerance_g: how far it may be off; None takes the share of its kind.

    Raises:
        OutOfRange: a negative entry, a target or step that is not above 0.
    """
    not_negative(entered_g, "The weight")
    positive(target_g, "The target")
    entry = _Entry(
        entered_g, target_g, kind, resolution_g, tares or {}, running_total_g, other_targets or {}, tolerance_g
    )
    if entry.is_near(target_g):
        return ()
    found = [(code, sentence) for code, test in _TESTS if (sentence := test(entry))]
    if not found and not _FAR[0] <= entry.ratio <= _FAR[1]:
        found = [
            (
                "far",
                say(
                    "{entered:g} g is far from {target:g} g. Read the scale once more.",
                    entered=entered_g,
                    target=target_g,
                ),
            )
        ]
    return tuple(Doubt(code, sentence, stops=kind == "alkali") for code, sentence in found)


def _decimal_slip(entry: _Entry) -> str | None:
    if any(low <= entry.ratio <= high for low, high in _TENS):
        told = {
            "times": 10 if 0.05 < entry.ratio < 20 else 100,
            "entered": entry.entered_g,
            "target": entry.target_g,
        }
        if entry.ratio > 1:
            return say(
                "{entered:g} g is {times} times more than {target:g} g. Is the decimal mark in its place?", **told
            )
        return say("{entered:g} g is {times} times less than {target:g} g. Is the decimal mark in its place?", **told)
    return None


def _unit_slip(entry: _Entry) -> str | None:
    for factor, pair in _UNITS:
        if any(abs(entry.ratio / goal - 1) <= _UNIT_SLACK for goal in (factor, 1 / factor)):
            return say("This looks like {pair} mixed up. Does the scale show g?", pair=say(pair))
    return None


def _tare_left(entry: _Entry) -> str | None:
    over = entry.entered_g - entry.target_g
    for name, tare in entry.tares.items():
        if tare > 0 and abs(over - tare) <= 2 * entry.resolution_g:
            return say(
                "This is over by the weight of {name} ({tare:g} g). Was the scale set to zero with it on?",
                name=name,
                tare=tare,
            )
    return None


def _running_total(entry: _Entry) -> str | None:
    total = entry.running_total_g
    if total and (entry.is_near(total) or entry.is_near(total + entry.target_g)):
        return say("This looks like everything in the pot so far. Was the scale set to zero before pouring?")
    return None


def _gross(entry: _Entry) -> str | None:
    total = entry.running_total_g
    for name, tare in entry.tares.items():
        if total and tare > 0 and entry.is_near(total + entry.target_g + tare):
            return say(
                "This looks like {name} with everything in it. Set the scale to zero, or take off what was there.",
                name=name,
            )
    return None


def _other_row(entry: _Entry) -> str | None:
    for name, mass in entry.other_targets.items():
        if mass > 0 and entry.is_near(mass):
            return say(
                "{mass:g} g is the weight for {name}. Is this the right jar and the right row?", mass=mass, name=name
            )
    return None


def _swapped_digits(entry: _Entry) -> str | None:
    entered, target = f"{entry.entered_g:.10g}", f"{entry.target_g:.10g}"
    differing = [index for index, (a, b) in enumerate(zip(entered, target, strict=False)) if a != b]
    if len(entered) == len(target) and len(differing) == 2 and sorted(entered) == sorted(target):
        return say(
            "{entered} and {target} have two digits swapped. Read the scale once more.",
            entered=figure(entry.entered_g, ".10g"),
            target=figure(entry.target_g, ".10g"),
        )
    return None


def _doubled_digit(entry: _Entry) -> str | None:
    entered, target = f"{entry.entered_g:.10g}", f"{entry.target_g:.10g}"
    for index in range(1, len(entered)):
        if entered[index] == entered[index - 1] and entered[:index] + entered[index + 1 :] == target:
            return say(
                "Did the {entered} go in twice? {target:.10g} g is asked for.",
                entered=entered[index],
                target=entry.target_g,
            )
    return None


def _other_alkali(entry: _Entry) -> str | None:
    if entry.kind == "alkali" and any(abs(entry.ratio - goal) <= slack for goal, slack in _POTASSIUM):
        return say("This is the weight for the other alkali. Sodium or potassium hydroxide: read the jar.")
    return None


_TESTS: tuple[tuple[str, Callable[[_Entry], str | None]], ...] = (
    ("decimal", _decimal_slip),
    ("unit", _unit_slip),
    ("tare", _tare_left),
    ("total", _running_total),
    ("gross", _gross),
    ("row", _other_row),
    ("swapped", _swapped_digits),
    ("doubled", _doubled_digit),
    ("other alkali", _other_alkali),
)

CONSTANTS: tuple[Constant, ...] = ()
TABLES = (
    Table(
        "Ratios of a typed weight to its target that raise a question",
        ("from", "to", "suspicion"),
        (
            *((low, high, "decimal mark") for low, high in _TENS),
            *(
                (f"{goal * (1 - _UNIT_SLACK):.4g}", f"{goal * (1 + _UNIT_SLACK):.4g}", pair)
                for factor, pair in _UNITS
                for goal in (factor, 1 / factor)
            ),
            *((f"{goal - slack:.4g}", f"{goal + slack:.4g}", "the other alkali") for goal, slack in _POTASSIUM),
            (0, _FAR[0], "far off"),
            (_FAR[1], "and more", "far off"),
        ),
        _RULES,
        "entry_doubts",
    ),
)
RELATIONS = (
    Relation(
        "questions on a typed weight",
        "ratio entered / target, differences with tares, totals and other rows",
        "g",
        _RULES,
        "soapbench.science.doubts.entry_doubts",
    ),
)
