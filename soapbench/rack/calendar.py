"""The calendar: a private feed for each person, and a file for one wait or for all that runs on the clock."""

from __future__ import annotations

from hashlib import sha256
from uuid import UUID

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import translation
from django.utils.cache import get_conditional_response
from django.utils.http import quote_etag
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_safe

from soapbench.bench.events import facts_of
from soapbench.bench.models import Run
from soapbench.bench.run import fold
from soapbench.rack.ics import Entry, calendar
from soapbench.rack.waits import waits_of
from soapbench.workshop import calendar_link, throttle
from soapbench.workshop.house_address import absolute
from soapbench.workshop.http import MakerRequest
from soapbench.workshop.models import Workshop
from soapbench.workshop.offline import edition

MEDIA = "text/calendar; charset=utf-8"
MOST_RUNS = 100  # a rack that is full holds fewer; keeps the file small and quickly made
FULL_ANSWERS = 60  # in ten minutes, to one address; the answer "nothing new" is always given


@login_not_required
@require_safe
def feed(request: HttpRequest, token: str) -> HttpResponse:
    """Return what is due on the rack of the workshop of whoever this token belongs to."""
    person = calendar_link.person_of(token)
    if person is None or person.workshop is None:
        raise Http404
    runs = _on_the_rack(person.workshop)
    etag = _etag(request, runs)
    unchanged = get_conditional_response(request, etag=etag)
    if unchanged is not None:
        return _private(unchanged)
    if not throttle.take(f"calendar {token}", FULL_ANSWERS):
        return HttpResponse(_("Asked too often. Ask once an hour."), status=429, headers={"Retry-After": "600"})
    with translation.override(
        settings.LANGUAGE_CODE
    ):  # nobody reads here: whose language the program asks in is chance
        content = calendar((entry for run in runs for entry in _entries(request, run)), is_feed=True)
    return _private(HttpResponse(content, content_type=MEDIA, headers={"ETag": etag}))


def _on_the_rack(workshop: Workshop) -> list[Run]:
    """Return the runs of the feed without their plans, which an unchanged feed does not need."""
    runs = Run.objects.seen_by(workshop).on_the_rack().select_related("bar").defer("plan_document")
    return list(runs.order_by("-made_at")[:MOST_RUNS])


def _etag(request: HttpRequest, runs: list[Run]) -> str:
    """Return what changes exactly when the feed may: with an event of a run, the app, the zone or the address."""
    told = [edition(), settings.TIME_ZONE, settings.LANGUAGE_CODE, absolute(request, "/")]
    told += [f"{run.pk} {run.status} {run.event_count}" for run in runs]
    return quote_etag(sha256("\n".join(told).encode()).hexdigest()[:32])


def _private(response: HttpResponse) -> HttpResponse:
    response.headers["Cache-Control"] = "private, no-cache"  # may be kept, but is asked about each time
    return response


def _entries(request: HttpRequest, run: Run) -> list[Entry]:
    facts = facts_of(run)
    waits = waits_of(run.plan, fold(run.plan, facts))
    changed_at = max(fact.received_at for fact in facts) if facts else run.made_at
    address = absolute(request, reverse("rack:run", args=[run.pk]))
    return [Entry(run, wait, changed_at, address) for wait in waits]


@require_GET
def one(request: MakerRequest, pk: UUID, key: str) -> HttpResponse:
    """Return the file of one wait of a batch."""
    run = _run(request, pk)
    entries = [entry for entry in _entries(request, run) if entry.wait.key == key]
    return _file(request, run, entries, f"{run.code}-{key}")


@require_GET
def running(request: MakerRequest, pk: UUID) -> HttpResponse:
    """Return one file of all that runs on the clock in a batch."""
    run = _run(request, pk)
    entries = [entry for entry in _entries(request, run) if entry.wait.is_running]
    return _file(request, run, entries, run.code)


def _run(request: MakerRequest, pk: UUID) -> Run:
    return get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar"), pk=pk)


def _file(request: MakerRequest, run: Run, entries: list[Entry], name: str) -> HttpResponse:
    if not entries:
        messages.info(request, _("Nothing runs on the clock here any more, so there is nothing for the calendar."))
        return redirect("bench:run" if run.status == Run.Status.BENCH else "rack:run", pk=run.pk)
    safe = "".join(sign if sign.isalnum() or sign == "-" else "-" for sign in name)
    held = f'attachment; filename="{safe}.ics"'
    headers = {"Content-Disposition": held, "Cache-Control": "no-store"}
    return HttpResponse(calendar(entries, is_feed=False), content_type=MEDIA, headers=headers)
