"""Did everything go in? The filled pot on the scale, against the sum of what was weighed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from .errors import OutOfRange, not_negative, positive
from .sources import OWN_CHOICE, Constant, Relation
from .words import say

POT_SHARE = Constant(
    "gap at the pot check that is still believed",
    "",
    0.003,
    "share of the sum",
    OWN_CHOICE,
    "pot_check",
    why="Three grams in a kilogram: less than the smallest fat of a recipe.",
)
POT_STEPS = Constant(
    "gap at the pot check in scale steps, times the root of the number of weighings",
    "",
    2.0,
    "scale steps",
    OWN_CHOICE,
    "pot_check",
    why="Two steps for each weighing, which add up as the root of their number.",
)


@dataclass(frozen=True, slots=True)
class PotCheck:
    """Whether the pot agrees; the gap (pot less sum), what is allowed, g; the suspect by name; and the sentence."""

    ok: bool
    gap_g: float
    allowed_g: float
    suspect: str | None
    sentence: str


def pot_check(
    expected_g: float,
    read_g: float,
    weighings: int,
    resolution_g: float,
    parts: Mapping[str, float],
    tare_g: float = 0.0,
) -> PotCheck:
    """Compare the pot, its tare taken off, with the sum of the weighings.

    Doubt when the gap is more than max(2 d sqrt(n), 0.3 % of the sum); a gap the size of one part names it, and one
    the size of the empty pot (tare_g) says so.

    Raises:
        OutOfRange: an expected mass or step that is not above 0, a negative reading or part, or no weighing.

    Source: own choice.
    """
    positive(expected_g, "The sum of the weighings")
    not_negative(read_g, "The pot without its tare")
    positive(resolution_g, "The step of the scale")
    for name, mass in parts.items():
        not_negative(mass, "The weight of {name}", name=name)
    if weighings < 1:
        raise OutOfRange(say("There is nothing in the pot yet. Weigh the first fat."))
    allowed = max(POT_STEPS.value * resolution_g * sqrt(weighings), POT_SHARE.value * expected_g)
    gap = round(read_g - expected_g, 9)
    if abs(gap) <= allowed:
        return PotCheck(True, gap, allowed, None, say("The pot weighs what it should."))
    suspect = _suspect(abs(gap), allowed, parts)
    sentence = _sentence(gap, suspect)
    if tare_g > 0 and abs(gap - tare_g) <= allowed:
        sentence += " " + say("Or is it the pot's own weight ({tare:g} g), not taken off?", tare=tare_g)
    return PotCheck(False, gap, allowed, suspect, sentence)


def _suspect(gap_g: float, allowed_g: float, parts: Mapping[str, float]) -> str | None:
    nearest = min(parts, key=lambda name: abs(parts[name] - gap_g), default=None)
    return nearest if nearest is not None and abs(parts[nearest] - gap_g) <= allowed_g else None


def _sentence(gap_g: float, suspect: str | None) -> str:
    short = gap_g < 0
    amount = (
        say("The pot is {gap:g} g too light.", gap=-gap_g)
        if short
        else say("The pot is {gap:g} g too heavy.", gap=gap_g)
    )
    if suspect and short:
        return say("{amount} {suspect}: is it really in the pot?", amount=amount, suspect=suspect)
    if suspect:
        return say("{amount} {suspect}: is it in the pot twice?", amount=amount, suspect=suspect)
    return say("{amount} Check each weight and the tare of the pot before the lye goes in.", amount=amount)


CONSTANTS = (POT_SHARE, POT_STEPS)
RELATIONS = (
    Relation(
        "pot check", "doubt if gap > max(2 d sqrt(n), 0.003 x sum)", "g", OWN_CHOICE, "soapbench.science.pot.pot_check"
    ),
)
