"""Remake what repeats the log: the columns of the runs and the lots that they used."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction

from soapbench.bench import cache
from soapbench.bench.events import facts_of
from soapbench.bench.models import Run
from soapbench.bench.run import fold


def rebuild(runs: Iterable[Run]) -> int:
    """Fold every run anew and write its columns; returns how many were out of step with their log."""
    return sum(_rebuilt(run) for run in runs)


def _rebuilt(run: Run) -> bool:
    with transaction.atomic():
        locked = Run.objects.select_for_update().get(pk=run.pk)
        before = _columns(locked)
        facts = facts_of(locked)
        locked.event_count = len(facts)
        locked.head_digest = locked.events.values_list("digest", flat=True).order_by("position").last() or ""
        plan = locked.plan
        cache.keep(locked, plan, fold(plan, facts))
        return _columns(locked) != before


def _columns(run: Run) -> tuple[object, ...]:
    columns = tuple(getattr(run, name) for name in cache.COLUMNS)
    return (*columns, *sorted(run.lots_used.values_list("lot_id", "mass_g")))
