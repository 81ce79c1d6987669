"""What happened since: the question that a phone asks again and again while another one is at the same batch.

Asking is cheap: one query by the primary key of the run when nothing is new. Nothing is held open and nothing is
kept in a process, so that any thread of any server may answer.
"""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpResponse, JsonResponse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET

from soapbench.bench.events import facts_of
from soapbench.bench.models import Run
from soapbench.bench.phone import fact_documents, state_document
from soapbench.bench.run import fold
from soapbench.workshop.http import MakerRequest


@require_GET
@never_cache
def since(request: MakerRequest, run_id: UUID, position: int) -> HttpResponse:
    """Return the facts after this position with the state they make; 204 without a body when there are none."""
    runs = Run.objects.seen_by(request.workshop).filter(pk=run_id)
    count = runs.values_list("event_count", flat=True).first()
    if count is None:
        raise Http404
    response = HttpResponse(status=204) if count <= position else _news(runs.get(), position)
    response.headers["X-Soapbench-Now"] = timezone.now().isoformat()
    return response


def _news(run: Run, position: int) -> JsonResponse:
    facts, plan = facts_of(run), run.plan
    return JsonResponse(
        {"state": state_document(plan, fold(plan, facts)), "facts": fact_documents(facts, position), "remark": ""}
    )
