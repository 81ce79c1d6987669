"""What a batch would be, before it is begun: weights, height in the mould, and what stands in the way."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils import timezone

from soapbench.bars.check import Check, check
from soapbench.bars.formula import FormulaError
from soapbench.bars.models import Revision
from soapbench.bench.folding.book import CUT
from soapbench.bench.plan import Plan
from soapbench.bench.planning import make_plan
from soapbench.bench.planning.given import Order
from soapbench.bench.planning.size import fats_wanted_g
from soapbench.bench.refusal import Refused
from soapbench.bench.size_form import SizeForm
from soapbench.bench.start import order_for
from soapbench.science.errors import OutOfRange
from soapbench.workshop.models import Person


@dataclass(frozen=True)
class Preview:
    """`plan` is None when something stands in the way; `trouble` says what."""

    plan: Plan | None = None
    check: Check | None = None
    trouble: str = ""

    @property
    def bars(self) -> str:
        """The bars in words: how many, how large, how heavy."""
        return self.plan.prompt(CUT).detail if self.plan else ""


def preview(revision: Revision, form: SizeForm, person: Person) -> Preview:
    """Return what the size on the form would give; nothing is written."""
    if form.is_bound and not form.is_valid() and set(form.errors) != {"cautions_read"}:
        return Preview()
    try:
        order = order_for(
            revision, form.size, person, mould=form.chosen_mould, scale=form.chosen_scale, at=timezone.now()
        )
        found = _check(order)
        return Preview(None if found.stops else make_plan(order), found)
    except Refused as error:
        return Preview(trouble=error.sentence)
    except (FormulaError, OutOfRange) as error:
        return Preview(trouble=str(error))


def _check(order: Order) -> Check:
    bench = order.bench
    tools = {tool.key for tool in bench.tools}
    fats_g = fats_wanted_g(order)
    return check(order.formula, order.facts, fats_g, bench.scale.resolution_g, bench.mould, tools=tools)
