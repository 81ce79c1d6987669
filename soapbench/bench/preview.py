"""What a batch would be, before it is begun: weights, height in the mould, and what stands in the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from django.utils import timezone

from soapbench.bars.check import Check
from soapbench.bars.formula import FormulaError
from soapbench.bars.models import Revision
from soapbench.bench.folding.book import CUT
from soapbench.bench.plan import Plan, Teaching
from soapbench.bench.planning import make_plan
from soapbench.bench.planning.given import Order
from soapbench.bench.refusal import Refused
from soapbench.bench.size_form import SizeForm
from soapbench.bench.start import check_of, order_for
from soapbench.science.errors import OutOfRange
from soapbench.workshop.models import Person


@dataclass(frozen=True)
class Offer:
    """Something that earlier runs taught, and whether this batch reckons with it."""

    teaching: Teaching
    is_refused: bool


@dataclass(frozen=True)
class Preview:
    """`plan` is None when something stands in the way; `trouble` says what."""

    plan: Plan | None = None
    check: Check | None = None
    trouble: str = ""
    offers: tuple[Offer, ...] = ()

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
            revision,
            form.size,
            person,
            mould=form.chosen_mould,
            scale=form.chosen_scale,
            refused=form.refused,
            at=timezone.now(),
        )
        found = check_of(order)
        if found.stops:
            return Preview(None, found)
        return Preview(make_plan(order), found, offers=tuple(_offers(order)))
    except Refused as error:
        return Preview(trouble=error.sentence)
    except (FormulaError, OutOfRange) as error:
        return Preview(trouble=str(error))


def _offers(order: Order) -> Iterator[Offer]:
    """Yield all that earlier runs taught about this batch, the refused as well, so that it can be taken up again."""
    plan = make_plan(replace(order, refused=frozenset()))
    for teaching in plan.learnt:
        yield Offer(teaching, teaching.key in order.refused)
