"""The rack: what stands on it, and one loaf or batch with its cut, cure, tests and release."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from soapbench.bench.events import facts_of
from soapbench.bench.models import Run
from soapbench.rack.acts import perform, sent_form
from soapbench.rack.due import due_groups
from soapbench.rack.forms import ActForm
from soapbench.rack.page import run_page
from soapbench.workshop.http import MakerRequest


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Show what rests and cures, and what is due when."""
    return render(request, "rack/home.html", {"groups": due_groups(request.workshop, timezone.now())})


@require_http_methods(["GET", "POST"])
def run(request: MakerRequest, pk: UUID) -> HttpResponse:
    """Show one batch; a POST performs one act on it."""
    row = get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar", "revision"), pk=pk)
    if request.method != "POST":
        return _shown(request, row, None)
    form = sent_form(request.POST.get("act", ""), request.POST)
    if form is None:
        raise Http404
    if form.is_valid() and perform(row, form, request.user):
        messages.success(request, _("Written down."))
        return redirect(f"{reverse('rack:run', args=[row.pk])}#main")
    return _shown(request, row, form)


def _shown(request: MakerRequest, row: Run, sent: ActForm | None) -> HttpResponse:
    page = run_page(row, facts_of(row), sent, request.GET if "sold" in request.GET else None)
    return render(request, "rack/run.html", {"run": row, "page": page}, status=422 if sent else 200)
