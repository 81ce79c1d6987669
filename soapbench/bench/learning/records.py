"""The lessons of a workshop's finished runs, read from the database."""

from __future__ import annotations

from soapbench.bars.formula import Formula
from soapbench.bars.models import Bar
from soapbench.bench.learning.learnt import Learnt, learnt_from
from soapbench.bench.learning.lesson import from_document
from soapbench.bench.models import Run

NEWEST = 50  # jugs, hands and rooms change: older runs than these teach no more; own choice


def learnt_for(bar: Bar, formula: Formula) -> Learnt:
    """Return what the workshop's newest runs teach about a bar, in one query."""
    kept = Run.objects.filter(workshop=bar.workshop_id, lesson__isnull=False).order_by("-made_at")
    lessons = [from_document(document) for document in kept.values_list("lesson", flat=True)[:NEWEST]]
    return learnt_from(lessons[::-1], bar.slug, formula.process.trace)
