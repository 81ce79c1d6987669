"""What a script is told once its event is in the log."""

from __future__ import annotations

from django.http import JsonResponse

from soapbench.bench.events import Appended, facts_of
from soapbench.bench.models import Run
from soapbench.bench.phone import fact_documents, state_document


def accepted(run: Run, done: Appended, have: int) -> JsonResponse:
    """Return the receipt with the state that follows, and the facts that the device does not hold yet."""
    return JsonResponse(
        {
            "position": done.event.position,
            "accepted": [str(done.event.pk)],
            "remark": done.remark,
            "state": state_document(run.plan, done.state),
            "facts": fact_documents(facts_of(run), have),
        }
    )
