"""Whether another size of the batch has room in the mould and enough on the shelf, in words."""

from __future__ import annotations

from soapbench.bars.to_science import USUAL_FAT_DENSITY, solute_of
from soapbench.bench.folding.pot import mass_of
from soapbench.bench.folding.tally import Tally
from soapbench.bench.words import grams, listed
from soapbench.science.batter import batter_volume_ml
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould, fits
from soapbench.science.words import say


def room_words(tally: Tally, factor: float) -> str:
    """Return what the mould and the shelf say to the batch as planned times a factor."""
    return " ".join(part for part in (_mould(tally, factor), _stock(tally, factor)) if part)


def _mould(tally: Tally, factor: float) -> str:
    plan = tally.plan
    lines = plan.lines
    fats = []
    for line in tally.book.fat_lines:
        fact = plan.materials.get(line.material)
        fats.append((line.planned_g * factor, (fact and fact.density_g_per_ml) or USUAL_FAT_DENSITY))
    wet = sum(line.planned_g for line in lines if line.group in ("water", "liquid")) * factor
    others = sum(mass_of(tally, line) for line in lines if line.group in ("colourant", "scent", "addition"))
    try:
        volume = batter_volume_ml(
            fats, tally.book.planned_alkali_g * factor, wet, others * factor, solute_of(plan.formula)
        )
        return fits(Mould(**plan.mould_shape), volume).sentence
    except OutOfRange:
        return ""


def _stock(tally: Tally, factor: float) -> str:
    short = []
    for line in tally.book.fat_lines:
        fact = tally.facts_of(line)
        missing = line.planned_g * factor - fact.left_g if fact is not None and fact.left_g is not None else 0.0
        if missing > 0 and line.key not in tally.weights:
            short.append(say("{missing} of {name}", missing=grams(round(missing, 1)), name=tally.name_of(line)))
    return say("The shelf is short of {short}.", short=listed(short)) if short else ""
