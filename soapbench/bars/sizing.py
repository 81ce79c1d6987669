"""From a number of bars, or from a mould, to the grams of fats of a batch."""

from __future__ import annotations

from math import floor

from soapbench.bars.amounts import Amounts, amounts
from soapbench.bars.formula import Formula
from soapbench.bars.to_science import Facts
from soapbench.science.cut import CutPlan, CutYield, cast_into, cut_into, cut_yield, mass_to_pour
from soapbench.science.errors import OutOfRange, fraction, positive
from soapbench.science.mould import HEADROOM, POT_LOSS, Mould, fill_height_mm
from soapbench.science.words import say

FIRST_GUESS_G = 1000.0
PASSES = 6  # only additions in plain grams keep the batter from being proportional to the fats
FINE_G = 0.001  # a scale that rounds nothing worth naming


def fats_for_batter(formula: Formula, facts: Facts, batter_g: float) -> float:
    """Return the grams of fats that make this much batter.

    Raises:
        FormulaError, OutOfRange: as amounts does, or the additions alone are more than the batter.
    """
    positive(batter_g, "The batter")
    return _solve(formula, facts, batter_g, of_volume=False)


def fats_for_bars(
    formula: Formula, facts: Facts, mould: Mould, bars: int, bar_g: float, loss_g: float = POT_LOSS.value
) -> float:
    """Return the grams of fats for so many bars of this fresh mass, with what is trimmed and what stays in the pots.

    Raises:
        FormulaError, OutOfRange: as amounts does, there is not one bar, or the trims eat the loaf.
    """
    positive(bars, "The number of bars", "")
    made = amounts(formula, facts, FIRST_GUESS_G, FINE_G)
    bars_g = bars * positive(bar_g, "A bar")
    return fats_for_batter(formula, facts, mass_to_pour(mould, bars_g, cut_of(formula), _density(made)) + loss_g)


def fats_for_mould(
    formula: Formula,
    facts: Facts,
    mould: Mould,
    fill: float = 1.0,
    resolution_g: float = 1.0,
    loss_g: float = POT_LOSS.value,
) -> float:
    """Return the grams of fats, in whole steps of the scale, whose batter fills a share of the mould's room.

    The room ends 3 mm under the rim, so that the mould can be carried; cavities are filled to the brim.

    Raises:
        FormulaError, OutOfRange: as amounts does, or the mould has no room.
    """
    room = usable_ml(mould) * positive(fraction(fill, "The fill of the mould"), "The fill of the mould", "")
    exact = _solve(formula, facts, room, of_volume=True, loss_g=loss_g)
    fats = floor(exact / resolution_g + 1e-9) * resolution_g
    # Alkali and water are rounded as well, and may come out a step above their exact mass.
    while fats > resolution_g and poured_ml(amounts(formula, facts, fats, resolution_g), loss_g) > room:
        fats -= resolution_g
    return round(fats, 9)


def poured_ml(made: Amounts, loss_g: float = POT_LOSS.value) -> float:
    """Return the volume that reaches the mould, ml: the batter less what stays in the pots."""
    return max(0.0, made.volume_ml * (1 - loss_g / made.batter_g))


def usable_ml(mould: Mould) -> float:
    """Return the room of a mould up to the headroom under its rim, ml.

    Raises:
        OutOfRange: a measure is missing.
    """
    if mould.shape == "cavities":
        return mould.volume_ml
    return mould.volume_ml * max(0.0, 1 - HEADROOM.value / mould.depth_mm)


def yield_of(formula: Formula, made: Amounts, mould: Mould, bars: int = 0, loss_g: float = POT_LOSS.value) -> CutYield:
    """Return what this batch in this mould gives by the planned thickness, or shared out among so many bars.

    Raises:
        OutOfRange: the cut does not suit the mould, or not one bar comes out of it.
    """
    poured = poured_ml(made, loss_g)
    if not bars:
        return cut_yield(mould, _height_mm(mould, poured), cut_of(formula), _density(made))
    if mould.shape == "cavities":
        return cast_into(mould, poured, bars, _density(made))
    return cut_into(mould, _height_mm(mould, poured), cut_of(formula), bars, _density(made))


def cut_of(formula: Formula) -> CutPlan:
    return CutPlan(formula.cut.way, formula.cut.thickness_mm, formula.cut.trim_mm)


def _density(made: Amounts) -> float:
    return made.batter_g / made.volume_ml


def _height_mm(mould: Mould, volume_ml: float) -> float:
    if mould.shape == "cavities":
        return mould.height_mm  # full cavities; how many of them is the mould's own answer
    return min(fill_height_mm(mould, volume_ml), mould.depth_mm)


def _solve(formula: Formula, facts: Facts, wanted: float, *, of_volume: bool, loss_g: float = 0.0) -> float:
    # The batter is a straight line of the fats: a secant from two points finds it at once, and rounding is fine here.
    def made(fats_g: float) -> float:
        batch = amounts(formula, facts, fats_g, FINE_G)
        if not of_volume:
            return batch.batter_g
        return batch.volume_ml * (1 - loss_g / batch.batter_g)

    at, beyond = FIRST_GUESS_G, 2 * FIRST_GUESS_G
    slope = (made(beyond) - made(at)) / (beyond - at)
    for _ in range(PASSES):
        at += (wanted - made(at)) / slope
        if at <= 0:
            raise OutOfRange(say("The additions alone are more than that. Make a bigger batch."))
    return at
