"""How far each weighing may be off: fats and alkali by what they do to the superfat, the rest by its kind."""

from __future__ import annotations

from soapbench.bars.to_science import science_fat
from soapbench.bench.folding.book import is_fat
from soapbench.bench.folding.pot import alkali_in_use, fats_in_pot
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line
from soapbench.science.effect import alkali_slope, fat_slope, tolerance_by_effect
from soapbench.science.errors import OutOfRange
from soapbench.science.rounding import Kind, tolerance_g

KIND: dict[str, Kind] = {
    "fat": "fat",
    "carrier": "fat",
    "water": "water",
    "liquid": "water",
    "alkali": "alkali",
    "colourant": "colour",
    "scent": "scent",
    "addition": "addition",
}


def slope_of(tally: Tally, line: Line) -> float | None:
    """Return what a gram more of a line does to the superfat, a fraction; None of what neither takes nor gives alkali.

    Raises:
        OutOfRange: no fat is left in the pot.
    """
    if line.group == "alkali":
        return alkali_slope("NaOH" if line.key == "alkali:naoh" else "KOH", fats_in_pot(tally), alkali_in_use(tally))
    fact = tally.facts_of(line) if is_fat(line) else None
    if fact is None:
        return None
    fat = science_fat(fact.key, 1.0, {fact.key: fact})
    return fat_slope(fat, fats_in_pot(tally), tally.plan.formula.superfat)


def tolerance_of(tally: Tally, line: Line, target_g: float) -> float:
    """Return how far the weight of a line may be from its target, g."""
    step = tally.plan.resolution_g
    try:
        slope = slope_of(tally, line)
    except OutOfRange:
        slope = None
    return (
        tolerance_g(KIND[line.group], target_g, step) if slope is None else tolerance_by_effect(slope, target_g, step)
    )
