"""Colours, scents and other additions by portion, and the fat or water that they are dispersed in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from soapbench.bars.amount import ALL, Amount, Group, on_the_scale
from soapbench.bars.formula import Additive, Formula, FormulaError
from soapbench.bars.to_science import WATER, Facts, known, portion_shares
from soapbench.science.doses import dose_g
from soapbench.science.rounding import round_to
from soapbench.science.words import say

GROUPS: dict[str, Group] = {"colourant": "colourant", "scent": "scent", "addition": "addition"}


def dosed(formula: Formula, facts: Facts, fats_g: float, batter_g: float, resolution_g: float) -> tuple[Amount, ...]:
    """Return the additions in grams; a rate counts on the portion's share, plain grams are for the portion itself.

    Raises:
        FormulaError: an addition goes to a portion that is not there, or its material is of the wrong kind.
        OutOfRange: a negative dose, or more than 100 %.
    """
    shares = {**portion_shares(formula), ALL: 1.0}
    return tuple(_dosed(line, facts, shares, fats_g, batter_g, resolution_g) for line in formula.additives)


def _dosed(
    line: Additive, facts: Facts, shares: dict[str, float], fats_g: float, batter_g: float, resolution_g: float
) -> Amount:
    fact = known(facts, line.material)
    if line.goes_to not in shares:
        raise FormulaError(
            say(
                "{name} goes to portion {goes_to}, which is not there. Choose another portion.",
                name=fact.name,
                goes_to=line.goes_to,
            )
        )
    if fact.kind not in GROUPS:
        raise FormulaError(say("{name} is a {kind}. It cannot be an addition.", name=fact.name, kind=fact.kind))
    share = shares[line.goes_to]
    mass = on_the_scale(dose_g(line.dose, line.basis, share * fats_g, share * batter_g), resolution_g)
    group = GROUPS[fact.kind]
    key = f"{group}:{line.goes_to}:{line.material}"
    return Amount(key, line.material, fact.name, group, mass, line.goes_to, line.dose, line.basis)


def carriers_of(formula: Formula, facts: Facts, additives: Sequence[Amount], resolution_g: float) -> tuple[Amount, ...]:
    """Return the fat or water that the additions are dispersed in; it comes out of the recipe, never on top of it.

    Raises:
        FormulaError: the carrier is not in the recipe.
    """
    pairs = zip(formula.additives, additives, strict=True)
    carried = (_carrier(formula, facts, line, amount, resolution_g) for line, amount in pairs if line.disperse_in)
    return tuple(carrier for carrier in carried if carrier.mass_g > 0)


def _carrier(formula: Formula, facts: Facts, line: Additive, amount: Amount, resolution_g: float) -> Amount:
    key = line.disperse_in
    source = _source(formula, key)
    name = facts[key].name if key in facts else ("Water" if key == WATER else key)
    if not source:
        raise FormulaError(
            say("{name} is dispersed in {name_2}, which is not in the recipe.", name=amount.name, name_2=name)
        )
    mass = round_to(max(0.0, line.disperse_ratio) * amount.mass_g, resolution_g)
    line_key = f"carrier:{amount.portion}:{amount.material}:{key}"
    return Amount(line_key, key, name, "carrier", mass, amount.portion, line.disperse_ratio, source)


def _source(formula: Formula, key: str) -> str:
    if any(line.material == key for line in formula.fats):
        return "fat"
    if any(line.material == key for line in formula.liquids):
        return "liquid"
    return "water" if key == WATER else ""


def without_carriers(lines: Sequence[Amount], carriers: Sequence[Amount]) -> tuple[Amount, ...]:
    """Return the lines less what was taken out of them to disperse colours and scents.

    Raises:
        FormulaError: more is taken than there is.
    """
    return tuple(_less(line, [c for c in carriers if c.material == line.material]) for line in lines)


def _less(line: Amount, carriers: Sequence[Amount]) -> Amount:
    left = round(line.mass_g - sum(carrier.mass_g for carrier in carriers), 9)
    if left < 0:
        wanted = sum(carrier.mass_g for carrier in carriers)
        raise FormulaError(
            say(
                "The colours and scents take {wanted:g} g of {name}; the recipe has {mass:g} g. Disperse them in "
                "less, or in another fat.",
                wanted=wanted,
                name=line.name,
                mass=line.mass_g,
            )
        )
    return replace(line, mass_g=left)
