"""The lines of a plan: every mass to weigh with its tolerance, vessel and lot, in the order of work."""

from __future__ import annotations

from soapbench.bars.amount import Amount
from soapbench.bars.to_science import science_alkali, science_fat, science_fats
from soapbench.bench.folding.tolerances import KIND
from soapbench.bench.plan import Line
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import lye_jug
from soapbench.science.effect import alkali_slope, fat_slope, tolerance_by_effect
from soapbench.science.errors import OutOfRange
from soapbench.science.rounding import tolerance_g
from soapbench.science.words import say

STATES = {"solid": 0, "soft": 1, "liquid": 2, "": 2}


def lines_of(batch: Batch) -> tuple[Line, ...]:
    """Return every line of the batch: solid fats first and liquid ones last, lye, then what goes into the batter."""
    made = batch.made
    fats = sorted(made.fats, key=lambda fat: _rank(batch, fat))
    into_jug, into_fats = _liquids(batch)
    wet = (made.water, *into_jug)
    ordered = (*fats, *wet, *made.alkali, *into_fats, *made.carriers, *_by_group(made.additives))
    return tuple(_line(batch, amount) for amount in ordered if amount.mass_g > 0)


def _rank(batch: Batch, fat: Amount) -> tuple[int, float]:
    # The last fat is the one that can be poured slowly and, once over, corrected: the most of what is liquid.
    fact = batch.fact(fat.material)
    return STATES.get(fact.state if fact else "", 2), fat.mass_g


def _liquids(batch: Batch) -> tuple[list[Amount], list[Amount]]:
    into_fats = {line.material for line in batch.formula.liquids if line.goes_into == "fats"}
    liquids = batch.made.liquids
    return [one for one in liquids if one.material not in into_fats], [
        one for one in liquids if one.material in into_fats
    ]


def _by_group(additives: tuple[Amount, ...]) -> list[Amount]:
    order = ("colourant", "addition", "scent")
    return sorted(additives, key=lambda one: order.index(one.group))


def _line(batch: Batch, amount: Amount) -> Line:
    fact = batch.fact(amount.material)
    return Line(
        key=amount.key,
        material=amount.material,
        name=amount.name,
        group=amount.group,
        planned_g=amount.mass_g,
        tolerance_g=_tolerance(batch, amount),
        portion=amount.portion,
        vessel=_vessel(batch, amount),
        lot=fact.lot if fact else None,
        lot_code=fact.lot_code if fact else "",
        rate=amount.rate,
        basis=amount.basis,
    )


def _tolerance(batch: Batch, amount: Amount) -> float:
    step = batch.bench.scale.resolution_g
    try:
        slope = _slope(batch, amount)
    except OutOfRange:  # the check of the formula has said what is wrong with the fats
        slope = None
    if slope is None:
        return tolerance_g(KIND[amount.group], amount.mass_g, step)
    return tolerance_by_effect(slope, amount.mass_g, step)


def _slope(batch: Batch, amount: Amount) -> float | None:
    """Return what a gram more does to the superfat; None of what neither takes nor gives alkali."""
    facts, formula = batch.order.facts, batch.formula
    fats = science_fats(batch.made.fat_masses, facts)
    if amount.group == "alkali":
        return alkali_slope("NaOH" if amount.key == "alkali:naoh" else "KOH", fats, science_alkali(formula, facts))
    if amount.group == "fat" or (amount.group == "carrier" and amount.basis == "fat"):
        return fat_slope(science_fat(amount.material, 1.0, facts), fats, formula.superfat)
    return None


def _vessel(batch: Batch, amount: Amount) -> str:
    bench = batch.bench
    if amount.group == "fat":
        return bench.vessel("pot", say("the mixing pot"))
    if amount.group in ("water", "liquid"):
        return lye_jug(batch)[0] if amount.group == "water" else say("a jug of its own")
    if amount.group == "alkali":
        return say("a dry cup with a lid")
    return say("a cup") if amount.portion in ("", "all") else say("cup {portion}", portion=amount.portion)
