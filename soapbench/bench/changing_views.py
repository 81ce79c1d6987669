"""What would follow from a change, before it is written down."""

from __future__ import annotations

from dataclasses import asdict
from uuid import UUID

from django.http import HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_POST

from soapbench.bench.events import facts_of
from soapbench.bench.forms import Incoming, Unreadable, from_form, from_script, typed
from soapbench.bench.models import Run
from soapbench.bench.refusal import Refused
from soapbench.bench.run_page import run_page
from soapbench.bench.screen import Refusal
from soapbench.bench.what_if import WhatIf, what_if
from soapbench.workshop.http import MakerRequest


@require_POST
def what_if_view(request: MakerRequest, run_id: UUID) -> HttpResponse:
    """Show what would follow; nothing is stored. Answers a script with data, a plain form with the page."""
    run = get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar"), pk=run_id)
    is_script = request.content_type == "application/json"
    try:
        incoming = from_script(request) if is_script else from_form(request)
        found = _what_if(request, run, incoming)
    except (Unreadable, Refused) as error:
        status = error.status if isinstance(error, Unreadable) else 422
        if is_script:
            return JsonResponse({"sentence": error.sentence, "field": error.field}, status=status)
        return _page(request, run, error.sentence, error.field, status=status)
    return JsonResponse(asdict(found)) if is_script else _page(request, run, found=found)


def _what_if(request: MakerRequest, run: Run, incoming: Incoming) -> WhatIf:
    return what_if(
        run.plan,
        facts_of(run),
        kind=incoming.kind,
        prompt=incoming.prompt,
        payload=incoming.payload,
        happened_at=incoming.happened_at,
        person=request.user.name,
    )


def _page(
    request: MakerRequest,
    run: Run,
    sentence: str = "",
    field: str = "",
    *,
    found: WhatIf | None = None,
    status: int = 200,
) -> HttpResponse:
    """Show the page again, the panel open and everything that was typed still in it."""
    data = request.POST
    refusal = Refusal(data.get("prompt", ""), "changed", sentence, field, typed(data))
    context = {**run_page(run, request.user, refusal=refusal), "found": found}
    return render(request, "bench/run.html", context, status=status)
