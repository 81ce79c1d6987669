"""What to weigh for a batch: a formula, what the shelf knows, and grams of fats become rounded masses.

Fats are rounded to the scale first, the alkali is worked out from the rounded fats, then rounded itself.
Pure: no database, no clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from soapbench.bars.additions import carriers_of, dosed, without_carriers
from soapbench.bars.amount import ALL, Amount, total_g
from soapbench.bars.formula import Formula, FormulaError
from soapbench.bars.liquids import Lye, NotEnoughWater, liquids_of, lye_for
from soapbench.bars.to_science import (
    KOH,
    NAOH,
    Facts,
    fat_density,
    known,
    portion_shares,
    science_acid,
    science_alkali,
    science_fats,
    solute_of,
)
from soapbench.science.alkali import Acid, AlkaliMass
from soapbench.science.batter import batter_volume_ml
from soapbench.science.errors import positive
from soapbench.science.rounding import round_keeping_total
from soapbench.science.words import say

__all__ = [
    "ALL",
    "Amount",
    "Amounts",
    "NotEnoughWater",
    "amounts",
    "fat_masses",
    "science_alkali",
    "science_fats",
]

# The dose of an acid may count on the batter, and the batter grows with the alkali that the acid takes.
# Each pass shrinks what is left of that circle at least twentyfold.
PASSES = 4

AlkaliKey = Literal["alkali:naoh", "alkali:koh"]


@dataclass(frozen=True)
class Amounts:
    """Every mass of a batch, rounded to the scale. `fats`, `water` and `liquids` are without the carriers."""

    fats: tuple[Amount, ...]
    water: Amount
    liquids: tuple[Amount, ...]
    alkali: tuple[Amount, ...]
    additives: tuple[Amount, ...]
    carriers: tuple[Amount, ...]  # fat or water of the recipe in which a colour or scent is dispersed
    fats_g: float  # all of the recipe's fats, carriers included
    batter_g: float  # everything that goes into the mould
    pot_g: float  # what is in the pot when the portions are weighed out
    portions: dict[str, float]  # grams to weigh out of the pot, by letter; together pot_g
    volume_ml: float
    alkali_mass: AlkaliMass
    acids: tuple[Acid, ...]
    water_g: float  # all water of the recipe, that of milk and the like included

    @property
    def fat_masses(self) -> dict[str, float]:
        """Return grams by material key of all the fats, those that carry a colour included."""
        carried = [carrier for carrier in self.carriers if carrier.basis == "fat"]
        masses: dict[str, float] = {}
        for amount in (*self.fats, *carried):
            masses[amount.material] = round(masses.get(amount.material, 0.0) + amount.mass_g, 9)
        return masses

    def of_portion(self, letter: str) -> float:
        """Return the grams of one portion with all that goes into it alone: what its bars are made of."""
        own = [amount for amount in (*self.additives, *self.carriers) if amount.portion == letter]
        return self.portions[letter] + total_g(own)

    @property
    def lines(self) -> tuple[Amount, ...]:
        """Return every mass to weigh, in no order of work."""
        return (*self.fats, self.water, *self.liquids, *self.alkali, *self.additives, *self.carriers)


def amounts(formula: Formula, facts: Facts, fats_g: float, resolution_g: float) -> Amounts:
    """Return the masses to weigh for a batch of this many grams of fats, on a scale of this step.

    "Percent of batter" counts on fats, lye and liquids before any addition.

    Raises:
        FormulaError: the formula names something that is not there, or a carrier that there is not enough of.
        NotEnoughWater: there is less water than alkali, in the batter or in the lye jug.
        OutOfRange: any other number that the sums cannot stand for.
    """
    masses = fat_masses(formula, fats_g, resolution_g)
    lye, additives = _settle(formula, facts, masses, resolution_g)
    liquids, water = liquids_of(formula, facts, lye, resolution_g)
    carriers = carriers_of(formula, facts, additives, resolution_g)
    fats = _fat_lines(formula, facts, masses)
    left_fats = without_carriers(fats, carriers)
    left_liquids = without_carriers((water, *liquids), carriers)
    alkali = _alkali_lines(lye.mass, facts)
    whole = (*left_fats, *left_liquids, *alkali, *additives, *carriers)
    pot = total_g([amount for amount in whole if amount.portion in ("", ALL)])
    return Amounts(
        fats=left_fats,
        water=left_liquids[0],
        liquids=left_liquids[1:],
        alkali=alkali,
        additives=additives,
        carriers=carriers,
        fats_g=total_g(fats),
        batter_g=total_g(whole),
        pot_g=pot,
        portions=_portions(formula, pot, resolution_g),
        volume_ml=_volume_ml(formula, facts, fats, lye, total_g(whole)),
        alkali_mass=lye.mass,
        acids=_acids(additives, facts),
        water_g=lye.water_g,
    )


def fat_masses(formula: Formula, fats_g: float, resolution_g: float) -> dict[str, float]:
    """Return grams of each fat by key, rounded to the scale so that the total stays.

    Raises:
        FormulaError: there are no fats, or they add up to nothing.
        OutOfRange: a mass that is not above 0.
    """
    positive(fats_g, "The fats of a batch")
    total = sum(line.amount for line in formula.fats)
    if total <= 0:
        raise FormulaError(say("Give the formula at least one fat, with an amount above 0."))
    rounded = round_keeping_total([line.amount / total * fats_g for line in formula.fats], resolution_g)
    masses: dict[str, float] = {}
    for line, mass in zip(formula.fats, rounded, strict=True):
        masses[line.material] = masses.get(line.material, 0.0) + mass
    return masses


def _settle(
    formula: Formula, facts: Facts, masses: dict[str, float], resolution_g: float
) -> tuple[Lye, tuple[Amount, ...]]:
    fats = science_fats(masses, facts)
    alkali = science_alkali(formula, facts)
    fats_g = sum(masses.values())
    lye = lye_for(formula, fats, (), alkali, resolution_g)
    additives: tuple[Amount, ...] = ()
    for _ in range(PASSES):
        liquids, water = liquids_of(formula, facts, lye, resolution_g)
        base = fats_g + lye.mass.total_g + total_g((water, *liquids))
        additives = dosed(formula, facts, fats_g, base, resolution_g)
        lye = lye_for(formula, fats, _acids(additives, facts), alkali, resolution_g)
    return lye, additives


def _acids(additives: Sequence[Amount], facts: Facts) -> tuple[Acid, ...]:
    found = (science_acid(amount.material, amount.mass_g, facts) for amount in additives)
    return tuple(acid for acid in found if acid)


def _fat_lines(formula: Formula, facts: Facts, masses: dict[str, float]) -> tuple[Amount, ...]:
    total = sum(line.amount for line in formula.fats)
    rates = {line.material: 100 * line.amount / total for line in formula.fats}
    return tuple(
        Amount(f"fat:{key}", key, known(facts, key).name, "fat", mass, rate=rates[key], basis="percent of fats")
        for key, mass in masses.items()
    )


def _alkali_lines(mass: AlkaliMass, facts: Facts) -> tuple[Amount, ...]:
    jars: tuple[tuple[AlkaliKey, str, str, float], ...] = (
        ("alkali:naoh", NAOH, say("Sodium hydroxide"), mass.naoh_g),
        ("alkali:koh", KOH, say("Potassium hydroxide"), mass.koh_g),
    )
    return tuple(
        Amount(key, material, facts[material].name if material in facts else name, "alkali", grams)
        for key, material, name, grams in jars
        if grams > 0
    )


def _portions(formula: Formula, pot_g: float, resolution_g: float) -> dict[str, float]:
    shares = portion_shares(formula)
    grams = list(round_keeping_total([share * pot_g for share in shares.values()], resolution_g))
    # The pot's own total may lie between two steps of the scale, where an addition is finer than a step.
    grams[-1] = round(grams[-1] + pot_g - sum(grams), 9)
    return dict(zip(shares, grams, strict=True))


def _volume_ml(formula: Formula, facts: Facts, fats: Sequence[Amount], lye: Lye, batter_g: float) -> float:
    others = batter_g - total_g(fats) - lye.mass.total_g - lye.water_g
    pairs = [(fat.mass_g, fat_density(known(facts, fat.material))) for fat in fats]
    return batter_volume_ml(pairs, lye.mass.total_g, lye.water_g, max(0.0, others), solute_of(formula))
