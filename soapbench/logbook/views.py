"""The logbook: find a run, read its record, take it away as PDF."""

from __future__ import annotations

from pathlib import Path
from uuid import UUID

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from soapbench.bench.events import facts_of
from soapbench.bench.integrity import verify
from soapbench.bench.models import Run
from soapbench.bench.run import fold
from soapbench.logbook.blocks import Record
from soapbench.logbook.given import Given, Kept
from soapbench.logbook.paper import NOT_INSTEAD, PAPERS, as_pdf
from soapbench.logbook.record import make_record
from soapbench.logbook.search import find
from soapbench.shelf.models import Lot
from soapbench.workshop.http import MakerRequest


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """List the runs that were asked for."""
    found = find(request.GET, request.workshop)
    template = "logbook/home.html#runs" if request.htmx else "logbook/home.html"
    return render(request, template, {"found": found, "form": found.form})


@require_GET
def record(request: MakerRequest, pk: UUID) -> HttpResponse:
    """Show the record of one run, in the order in which it was made."""
    run = _run(request, pk)
    return render(request, "logbook/record.html", {"run": run, "record": record_of(run), "not_instead": _(NOT_INSTEAD)})


@require_GET
def pdf(request: MakerRequest, pk: UUID) -> HttpResponse:
    """Give the same record for printing: A4, or letter where `?paper=letter` asks for it."""
    run = _run(request, pk)
    paper = request.GET.get("paper", "a4")
    document = as_pdf(record_of(run), paper if paper in PAPERS else "a4")
    response = HttpResponse(document, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{slugify(run.code) or "record"}.pdf"'
    return response


def _run(request: MakerRequest, pk: UUID) -> Run:
    return get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar", "revision", "made_by"), pk=pk)


def record_of(run: Run) -> Record:
    """Return the record of a run, folded from its log."""
    facts = facts_of(run)
    plan = run.plan
    broken = verify(run)
    used = Lot.objects.filter(uses__run=run).values_list("pk", "code")
    given = Given(
        id=str(run.pk),
        code=run.code,
        made_at=run.made_at,
        made_by=run.made_by.name,
        status_word=run.get_status_display(),
        plan=plan,
        state=fold(plan, facts),
        facts=facts,
        head_digest=run.head_digest,
        broken=broken.sentence if broken else "",
        lot_codes=dict(used),
        files=_files(run) if any(fact.kind == "attached" for fact in facts) else {},
    )
    return make_record(given)


def _files(run: Run) -> dict[str, Kept]:
    """Return where the photos and the voice notes of a run are; a file that is not there has no path."""
    found = {}
    for row in run.attachments.all():
        address = reverse("bench:attachment", args=[run.pk, row.pk])
        found[str(row.pk)] = Kept(address, row.file.path if Path(row.file.path).is_file() else "")
    return found
