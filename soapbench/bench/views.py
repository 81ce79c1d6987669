"""The bench: what is being made, how much to make next, and the page that leads through a run."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.db.models import Max
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from soapbench.bars.models import Bar, Revision
from soapbench.bench import forms, pages
from soapbench.bench.choosing import WAYS, preview
from soapbench.bench.events import Appended, append, facts_of
from soapbench.bench.ids import new_id
from soapbench.bench.models import Run
from soapbench.bench.phone import fact_documents, state_document
from soapbench.bench.refusal import Refused
from soapbench.bench.run import fold
from soapbench.bench.screen import Refusal
from soapbench.bench.start import start_run
from soapbench.workshop.http import MakerRequest


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Runs in progress first, then the bars of the line."""
    runs = Run.objects.seen_by(request.workshop).open().select_related("bar").order_by("status", "due_at", "-made_at")
    bars = Bar.objects.seen_by(request.workshop).in_the_line().annotate(newest=Max("revisions__number"))
    return render(request, "bench/home.html", {"runs": runs, "bars": bars, "now": timezone.now()})


@require_GET
def choose(request: MakerRequest, slug: str) -> HttpResponse:
    """How much to make, with what would come of it."""
    revision = _newest(request, slug)
    seen = preview(revision, request.GET.dict(), request.user)
    context = {"revision": revision, "bar": revision.bar, "preview": seen, "ways": WAYS, **_equipment(request)}
    name = "bench/choose.html#preview" if request.htmx else "bench/choose.html"
    return render(request, name, context)


def _equipment(request: MakerRequest) -> dict[str, Any]:
    workshop = request.workshop
    return {"moulds": workshop.moulds.filter(is_here=True), "scales": workshop.scales.filter(is_here=True)}


def _newest(request: MakerRequest, slug: str) -> Revision:
    bar = get_object_or_404(Bar.objects.seen_by(request.workshop).in_the_line(), slug=slug)
    revision = bar.revisions.select_related("bar__workshop").order_by("-number").first()
    return revision or get_object_or_404(Revision, bar=bar)


@require_http_methods(["GET", "POST"])
def begin(request: MakerRequest, slug: str) -> HttpResponse:
    """The caution before every run; confirmed, the run begins."""
    revision = _newest(request, slug)
    data = (request.POST if request.method == "POST" else request.GET).dict()
    numbers = forms.NumbersForm(data if "emergency_number" in data else None, instance=request.workshop)
    if request.method == "POST":
        answer = _begun(request, revision, data, numbers)
        if isinstance(answer, HttpResponseRedirect):
            return answer
        return render(request, "bench/begin.html", _begin_context(revision, data, numbers, answer), status=422)
    return render(request, "bench/begin.html", _begin_context(revision, data, numbers, ""))


def _begin_context(revision: Revision, data: Mapping[str, str], numbers: forms.NumbersForm, trouble: str) -> Any:
    asked = {name: data[name] for name in ("by", "fats_g", "bars", "fill", "mould", "scale") if data.get(name)}
    return {"revision": revision, "bar": revision.bar, "asked": asked, "numbers": numbers, "trouble": trouble}


def _begun(
    request: MakerRequest, revision: Revision, data: Mapping[str, str], numbers: forms.NumbersForm
) -> HttpResponseRedirect | str:
    """Return the way to the new run, or the sentence that says what is missing."""
    if not request.workshop.has_emergency_numbers and not numbers.is_valid():
        return _("Enter the emergency and poison centre numbers first.")
    if data.get("cautions_read") != "true":
        return _("Read the caution and tick that you have read it.")
    if numbers.is_bound and numbers.is_valid():
        revision.bar.workshop = numbers.save()
    try:
        run = pages.begin_run(revision, data, request.user)
    except (Refused, forms.Unreadable) as refused:
        return refused.sentence
    return HttpResponseRedirect(reverse("bench:run", args=[run.pk]))


@require_GET
@ensure_csrf_cookie
def run(request: MakerRequest, pk: uuid.UUID) -> HttpResponse:
    """One page with every prompt of a run."""
    found = get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar"), pk=pk)
    return render(request, "bench/run.html", pages.run_context(found, shown=request.GET.get("at", "")))


@require_http_methods(["GET", "POST"])
def events(request: MakerRequest, pk: uuid.UUID) -> HttpResponse:
    """Take one event; answer a script with the state and a plain form with the page."""
    found = Run.objects.seen_by(request.workshop).select_related("bar").filter(pk=pk).first()
    is_script = request.method == "GET" or request.content_type == "application/json"
    if found is None:
        return _refused(_("This run is not in your workshop."), "", 404) if is_script else _not_here(request)
    if request.method == "GET":
        return _news(request, found)
    return _from_script(request, found) if is_script else _from_form(request, found)


def _news(request: MakerRequest, run: Run) -> JsonResponse:
    """Answer a device that asks what it missed."""
    have = request.GET.get("have", "0")
    facts = facts_of(run)
    return _answer(fold(run.plan, facts), facts, int(have) if have.isdecimal() else 0, [], run)
