"""What a formula is checked against in a workshop: its shelf, its scale, its tools, and the usual batch."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bars.check import Check, check
from soapbench.bars.formula import Formula, FormulaError
from soapbench.bars.sizing import fats_for_mould
from soapbench.bars.to_science import KOH, NAOH, WATER, Facts
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould
from soapbench.shelf.acids import other_form
from soapbench.shelf.facts import facts_for
from soapbench.shelf.stock import used_by_lot
from soapbench.workshop.models import Workshop

KITCHEN_STEP_G = 1.0  # where no scale is named
USUAL_FATS_G = 1000.0  # where no mould is named


@dataclass(frozen=True)
class Conditions:
    """The shelf, the scale and the tools that a formula meets, and the batch that it is checked for."""

    facts: Facts
    resolution_g: float
    tools: frozenset[str]
    mould: Mould | None
    mould_name: str

    def usual_fats_g(self, formula: Formula) -> float:
        """Return the fats that fill the usual mould, or 1 kg without one."""
        if not self.mould:
            return USUAL_FATS_G
        try:
            return fats_for_mould(formula, self.facts, self.mould, resolution_g=self.resolution_g) or USUAL_FATS_G
        except (FormulaError, OutOfRange):
            return USUAL_FATS_G  # the check says what is wrong

    def check(self, formula: Formula) -> Check:
        return check(formula, self.facts, self.usual_fats_g(formula), self.resolution_g, self.mould, tools=self.tools)


def conditions_for(workshop: Workshop, formula: Formula) -> Conditions:
    """Return what this workshop has for a formula; the number of queries does not grow with it."""
    mould = workshop.moulds.filter(key=formula.mould, is_here=True).first() if formula.mould else None
    steps = workshop.scales.filter(is_here=True).order_by("resolution_g").values_list("resolution_g", flat=True)
    return Conditions(
        facts=facts_for(workshop, _keys(formula), used_by_lot(workshop)),
        resolution_g=steps.first() or KITCHEN_STEP_G,
        tools=frozenset(workshop.tools.filter(is_here=True).values_list("key", flat=True)),
        mould=mould.as_shape if mould else None,
        mould_name=mould.name if mould else "",
    )


def _keys(formula: Formula) -> set[str]:
    """Return what the formula names, what every bar needs, and the other form of an acid, which the jar may hold."""
    others = {other for key in formula.material_keys if (other := other_form(key))}
    return {*formula.material_keys, *others, NAOH, KOH, WATER}
