"""Writing formulas down: a new bar, and the next revision of one."""

from __future__ import annotations

from django.db import transaction
from django.utils.text import slugify

from soapbench.bars.formula import Formula, to_document
from soapbench.bars.models import Bar, Revision
from soapbench.workshop.models import Person, Workshop

RESERVED = frozenset({"new", "check"})  # words that stand in addresses beside the bars


@transaction.atomic
def make_bar(
    *, workshop: Workshop, name: str, formula: Formula, by: Person | None, description: str = "", invented: bool = False
) -> Bar:
    """Write down a new bar with its first revision."""
    slug = free_slug(workshop, name)
    bar = Bar.objects.create(workshop=workshop, slug=slug, name=name, description=description, is_invented=invented)
    bar.revisions.create(number=1, document=to_document(formula), made_by=by)
    return bar


@transaction.atomic
def revise(*, bar: Bar, formula: Formula, by: Person | None, why: str = "") -> Revision:
    """Write a formula down as the bar's current revision.

    One that a run has used stays as it is, and the next one is made; otherwise the current one is changed in place.
    """
    current = bar.revisions.select_for_update().first()
    document = to_document(formula)
    if current and current.formula == formula:
        return current
    if current and not current.is_pinned:
        current.document, current.made_by = document, by
        current.why = why or current.why
        current.save()
        return current
    number = current.number + 1 if current else 1
    return bar.revisions.create(number=number, document=document, why=why, made_by=by)


def free_slug(workshop: Workshop, name: str) -> str:
    """Return a word for the bar's address that no other bar of this workshop has."""
    stem = slugify(name)[:70] or "bar"
    taken = set(workshop.bars.filter(slug__startswith=stem).values_list("slug", flat=True)) | RESERVED
    numbered = (f"{stem}-{number}" for number in range(2, len(taken) + 3))
    return stem if stem not in taken else next(slug for slug in numbered if slug not in taken)
