"""Begin a run: pin the revision, freeze the plan, give the batch its code."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import datetime

from django.db import IntegrityError, transaction
from django.utils import timezone

from soapbench.bars.check import Check, check
from soapbench.bars.formula import Formula, FormulaError
from soapbench.bars.models import Revision
from soapbench.bars.to_science import KOH, NAOH, WATER
from soapbench.bench.learning.records import learnt_for
from soapbench.bench.models import Run
from soapbench.bench.plan import PlanLot, PlanScale, to_document
from soapbench.bench.planning import make_plan
from soapbench.bench.planning.given import Bench, Order, SizeAsked, Tool, Vessel
from soapbench.bench.planning.size import fats_wanted_g
from soapbench.bench.refusal import Refused
from soapbench.bench.stock import used_by_lot
from soapbench.science.errors import OutOfRange
from soapbench.science.words import say
from soapbench.shelf.facts import MaterialFacts, facts_for, stand_ins_for
from soapbench.shelf.models import Lot
from soapbench.workshop import models as workshop_models
from soapbench.workshop.models import Person, Workshop

MOST_TRIES = 50


def start_run(
    revision: Revision,
    size: SizeAsked,
    person: Person,
    *,
    mould: str = "",
    scale: str = "",
    refused: Collection[str] = (),
    at: datetime | None = None,
) -> Run:
    """Return a new run of a revision: the plan frozen, the revision pinned, the batch code given.

    Args:
        mould, scale: keys; "" takes the formula's own mould, and the finest scale that carries the batch.
        refused: keys of what earlier runs taught that this one is not to reckon with.

    Raises:
        Refused: the formula's check stops it, the workshop has no emergency numbers, or equipment is missing.
    """
    moment = at or timezone.now()
    order = order_for(revision, size, person, mould=mould, scale=scale, refused=refused, at=moment)
    _check(order)
    try:
        plan = make_plan(order)
    except (FormulaError, OutOfRange) as error:
        raise Refused(str(error), "size") from error
    with transaction.atomic():
        Revision.objects.filter(pk=revision.pk).update(is_pinned=True)
        run = _created(revision, person, to_document(plan), moment)
        run.prompt, run.prompt_title = plan.prompts[0].key, plan.prompts[0].title
        run.save(update_fields=["prompt", "prompt_title"])
    return run


def order_for(
    revision: Revision,
    size: SizeAsked,
    person: Person,
    *,
    mould: str = "",
    scale: str = "",
    refused: Collection[str] = (),
    at: datetime,
) -> Order:
    """Return everything that the plan is made from, read once from the database.

    Raises:
        Refused: the workshop lacks a scale, a mould, or its emergency numbers.
    """
    bar, formula = revision.bar, revision.formula
    workshop = bar.workshop
    used = used_by_lot(workshop)
    facts = facts_for(workshop, formula.material_keys | {NAOH, KOH, WATER}, used)
    stand_ins = stand_ins_for(workshop, used)
    return Order(
        bar=bar.name,
        bar_slug=bar.slug,
        revision=revision.number,
        formula=formula,
        size=size,
        facts=facts,
        stand_ins=stand_ins,
        lots=_lots(workshop, {**facts, **stand_ins}),
        bench=_bench(workshop, formula, size, mould, scale),
        made_by=person.name,
        made_at=at.isoformat(),
        learnt=learnt_for(bar, formula),
        refused=frozenset(refused),
    )


def _lots(workshop: Workshop, facts: Mapping[str, MaterialFacts]) -> tuple[PlanLot, ...]:
    rows = Lot.objects.seen_by(workshop).usable().filter(material__key__in=facts).select_related("material")
    return tuple(
        PlanLot(lot.pk, lot.material.key, lot.code, lot.saponification_value, lot.working_purity, bool(lot.purity))
        for lot in rows.order_by("pk")
    )


def _bench(workshop: Workshop, formula: Formula, size: SizeAsked, mould: str, scale: str) -> Bench:
    if not workshop.has_emergency_numbers:
        raise Refused(say("Enter the emergency and poison centre numbers of your place first, on the workshop page."))
    chosen = _mould(workshop, mould or formula.mould)
    weighs = _scale(workshop, scale, size.fats_g or chosen.as_shape.volume_ml)
    return Bench(
        workshop=workshop.name,
        is_invented=workshop.is_invented,
        room_c=workshop.room_temperature_c,
        emergency=_emergency(workshop),
        scale=weighs,
        other_scales=_other_scales(workshop, weighs),
        mould_name=chosen.name,
        mould=chosen.as_shape,
        vessels=tuple(
            Vessel(one.name, one.use, one.material, one.volume_ml, one.tare_g)  # type: ignore[arg-type]  # the column's choices are the same
            for one in workshop.vessels.filter(is_here=True).order_by("-volume_ml", "pk")
        ),
        tools=tuple(Tool(one.key, one.name, one.kind) for one in workshop.tools.filter(is_here=True)),
    )


def _emergency(workshop: Workshop) -> str:
    parts = [
        say("Emergency {emergency_number}", emergency_number=workshop.emergency_number),
        say("poison centre {poison_centre_number}", poison_centre_number=workshop.poison_centre_number),
    ]
    return ", ".join([*parts, workshop.hospital] if workshop.hospital else parts)


def _mould(workshop: Workshop, key: str) -> workshop_models.Mould:
    moulds = workshop.moulds.filter(is_here=True)
    found = moulds.filter(key=key).first() if key else moulds.first()
    if found is None:
        raise Refused(say("Choose a mould that is in the workshop."), "mould")
    return found


def _scale(workshop: Workshop, key: str, load_g: float) -> PlanScale:
    scales = workshop.scales.filter(is_here=True).order_by("resolution_g", "-capacity_g")
    rows = list(scales.filter(key=key) if key else scales)
    if not rows:
        raise Refused(say("Choose a scale that is in the workshop."), "scale")
    row = next((one for one in rows if one.capacity_g >= load_g), max(rows, key=lambda one: one.capacity_g))
    return _as_planned(row)


def _as_planned(row: workshop_models.Scale) -> PlanScale:
    return PlanScale(row.key, row.name, row.resolution_g, row.capacity_g, row.check_mass_g, row.check_name)


def _other_scales(workshop: Workshop, used: PlanScale) -> tuple[PlanScale, ...]:
    return tuple(
        _as_planned(row)
        for row in workshop.scales.filter(is_here=True).exclude(name=used.name).order_by("resolution_g", "pk")
    )


def check_of(order: Order) -> Check:
    """Return the check of the formula at the size and on the bench of an order.

    Raises:
        FormulaError, OutOfRange: the size cannot be worked out.
    """
    bench = order.bench
    return check(
        order.formula,
        order.facts,
        fats_wanted_g(order),
        bench.scale.resolution_g,
        bench.mould,
        tools={tool.key for tool in bench.tools},
        loss_g=order.reckoned.loss_g,
    )


def _check(order: Order) -> None:
    try:
        found = check_of(order)
    except (FormulaError, OutOfRange) as error:
        raise Refused(str(error), "size") from error
    if found.stops:
        raise Refused(found.stops[0].sentence, found.stops[0].field)


def _created(revision: Revision, person: Person, document: object, at: datetime) -> Run:
    """Return the run under the first batch code of its day that is still free."""
    for code in _codes(revision, at):
        try:
            with transaction.atomic():
                return Run.objects.create(
                    workshop=revision.bar.workshop,
                    bar=revision.bar,
                    revision=revision,
                    code=code,
                    made_by=person,
                    plan_document=document,
                )
        except IntegrityError:
            continue  # another bench took this code a moment ago
    raise Refused(say("No batch code is free for today. Try again."))


def _codes(revision: Revision, at: datetime) -> Iterable[str]:
    stem = f"{timezone.localtime(at):%Y%m%d}-{initials(revision.bar.name)}-"
    taken = Run.objects.filter(workshop=revision.bar.workshop, code__startswith=stem).count()
    return (f"{stem}{taken + number}" for number in range(1, MOST_TRIES))


def initials(name: str) -> str:
    """Return the first letters of up to three words of a bar's name, "X" for a name without letters."""
    letters = [word[0].upper() for word in name.split() if word[0].isalnum()]
    return "".join(letters[:3]) or "X"
