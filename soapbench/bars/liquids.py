"""The lye of a batch, and milk and the like in place of part of its water."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from soapbench.bars.amount import Amount, on_the_scale
from soapbench.bars.formula import Formula, FormulaError
from soapbench.bars.to_science import WATER, Facts, known
from soapbench.science.alkali import Acid, Alkali, AlkaliMass, Fat, alkali_for
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import concentration, water_g
from soapbench.science.rounding import round_to
from soapbench.science.words import say

# Below this share of water a "liquid" would have to be weighed in several times the water's mass.
LEAST_WATER = 0.5


class NotEnoughWater(OutOfRange):
    """There is less water than alkali, so that not all of it would dissolve."""


@dataclass(frozen=True)
class Lye:
    """The alkali as weighed and all of the recipe's water, in g."""

    mass: AlkaliMass
    water_g: float


def lye_for(formula: Formula, fats: Sequence[Fat], acids: Sequence[Acid], alkali: Alkali, resolution_g: float) -> Lye:
    """Return the lye for fats as rounded, its alkali rounded to the scale.

    Raises:
        NotEnoughWater: there is less water than alkali.
        OutOfRange: the scale is too coarse for this little alkali, or a number is impossible.
    """
    exact = alkali_for(fats, formula.superfat, alkali, acids)
    mass = AlkaliMass(round_to(exact.naoh_g, resolution_g), round_to(exact.koh_g, resolution_g))
    if mass.total_g <= 0:
        raise OutOfRange(say("This batch is too small for the scale: the alkali is less than one of its steps."))
    return Lye(mass, _water_g(formula, mass.total_g, sum(fat.mass_g for fat in fats)))


def _water_g(formula: Formula, alkali_g: float, fats_g: float) -> float:
    water = formula.water
    value = water.value / 100 if water.by == "percent of fats" else water.value
    try:
        return water_g(water.by, value, alkali_g, fats_g)
    except OutOfRange as error:
        raise NotEnoughWater(str(error)) from error


def liquids_of(formula: Formula, facts: Facts, lye: Lye, resolution_g: float) -> tuple[tuple[Amount, ...], Amount]:
    """Return the liquids and the plain water that is left beside them.

    A liquid replaces its share of the water by the water that is in it: its mass is share · water / its own share of
    water. So the batter holds as much water as the formula says. What else is in it counts for nothing here.

    Raises:
        FormulaError: the shares come to more than all of the water, or a liquid is hardly water.
        NotEnoughWater: what goes into the jug cannot dissolve the alkali.
    """
    shares = sum(line.share for line in formula.liquids)
    if shares > 1 + 1e-9:
        raise FormulaError(
            say("The liquids replace {shares:.0f} % of the water. Make it 100 % or less.", shares=100 * shares)
        )
    liquids = tuple(
        Amount(
            f"liquid:{line.material}",
            line.material,
            known(facts, line.material).name,
            "liquid",
            on_the_scale(line.share * lye.water_g / _water_in(facts, line.material), resolution_g),
            rate=100 * line.share,
            basis="percent of water",
        )
        for line in formula.liquids
    )
    left = round_to(max(0.0, 1 - shares) * lye.water_g, resolution_g)
    _check_jug(formula, lye)
    return liquids, Amount("water", WATER, facts[WATER].name if WATER in facts else "Water", "water", left)


def _water_in(facts: Facts, key: str) -> float:
    fact = known(facts, key)
    if not LEAST_WATER <= fact.water_fraction <= 1:
        raise FormulaError(say("{name} is hardly water. Use it as an addition, not in place of water.", name=fact.name))
    return fact.water_fraction


def _check_jug(formula: Formula, lye: Lye) -> None:
    into_fats = sum(line.share for line in formula.liquids if line.goes_into == "fats")
    try:
        concentration(lye.mass.total_g, max(0.0, 1 - into_fats) * lye.water_g)
    except OutOfRange as error:
        raise NotEnoughWater(say("In the lye jug: {error}", error=error)) from error
