"""Photos and voice notes: taken in with their fact, given out to their own workshop only."""

from __future__ import annotations

from uuid import UUID

from django.http import FileResponse, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from soapbench.bench.answers import accepted
from soapbench.bench.attaching import attach
from soapbench.bench.events import Appended
from soapbench.bench.forms import Unreadable, typed
from soapbench.bench.models import Attachment, Run
from soapbench.bench.ranges import part_of
from soapbench.bench.refusal import Refused
from soapbench.bench.run_page import run_page
from soapbench.bench.screen import Refusal
from soapbench.bench.uploads import from_upload, is_from_script
from soapbench.science.words import mark, say
from soapbench.workshop.http import MakerRequest

# Whatever the file holds: it is not sniffed, runs nothing, frames nothing, and no other site may embed it.
SAFE = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; img-src 'self'; media-src 'self'; sandbox",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "private, max-age=31536000, immutable",
}
NOT_KEPT = mark(
    "The file could not be kept: the disk of the app's machine may be full. Make room there, then try again."
)


@require_POST
def attach_view(request: MakerRequest, run_id: UUID) -> HttpResponse:
    """Take in one file with its fact; answer a script with the state, a plain form with the page."""
    run = get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar"), pk=run_id)
    try:
        incoming, data = from_upload(request)
        done = attach(run, incoming, data, request.user)
    except Unreadable as error:
        return _refused(request, run, error.sentence, error.field, error.status)
    except Refused as error:
        return _refused(request, run, error.sentence, error.field, 422)
    except OSError:
        return _refused(request, run, _(NOT_KEPT), "file", 503)
    return _answer(request, run, done, incoming.have)


def _answer(request: MakerRequest, run: Run, done: Appended, have: int) -> HttpResponse:
    if not is_from_script(request):
        return redirect(reverse("bench:run", args=[run.pk]))
    response = accepted(run, done, have)
    response.headers["X-Soapbench-Now"] = timezone.now().isoformat()
    return response


def _refused(request: MakerRequest, run: Run, sentence: str, field: str, status: int) -> HttpResponse:
    if is_from_script(request):
        return JsonResponse({"sentence": str(sentence), "field": field}, status=status)
    data = request.POST
    refusal = Refusal(data.get("prompt", ""), "attached", str(sentence), field, typed(data))
    return render(request, "bench/run.html", run_page(run, request.user, refusal=refusal), status=status)


@require_GET
def attachment(request: MakerRequest, run_id: UUID, event_id: UUID) -> HttpResponse | FileResponse:
    """Give one file to somebody of its workshop, whole or in the part that a player asks for."""
    found = get_object_or_404(Attachment, pk=event_id, run=run_id, run__workshop=request.workshop)
    try:
        file = found.file.open("rb")
    except OSError:
        return HttpResponse(_("This file is not there any more."), status=404, content_type="text/plain; charset=utf-8")
    response = part_of(file, found.file.size, request.headers.get("Range", ""))
    response.headers["Content-Type"] = found.media
    response.headers["Content-Disposition"] = say(
        'inline; filename="{what}-{sha256}.{ending}"', what=found.what, sha256=found.sha256[:8], ending=found.ending
    )
    for name, value in SAFE.items():
        response.headers[name] = value
    return response
