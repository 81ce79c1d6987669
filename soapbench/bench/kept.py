"""Which pages a phone keeps for the day without a network: the open runs, the newest records, the lists of them."""

from __future__ import annotations

from collections.abc import Sequence

from django.http import HttpResponse, JsonResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET

from soapbench.bench.models import Run
from soapbench.workshop.http import MakerRequest

NEWEST_RECORDS = 10
LISTS = ("bench:home", "rack:home", "logbook:home")


@require_GET
def kept(request: MakerRequest) -> HttpResponse:
    """Return the addresses to keep, and the one that the app starts with."""
    runs = Run.objects.seen_by(request.workshop)
    open_runs = list(runs.open().only("pk", "status"))
    closed = list(runs.finished().only("pk")[:NEWEST_RECORDS])
    pages = [
        *(reverse(name) for name in LISTS),
        *(reverse("bench:run", args=[run.pk]) for run in open_runs),
        *(reverse("rack:run", args=[run.pk]) for run in open_runs if run.status != Run.Status.BENCH),
        *(reverse("logbook:record", args=[run.pk]) for run in (*open_runs, *closed)),
    ]
    return JsonResponse({"pages": pages, "start": start_of(open_runs)})


def start_of(open_runs: Sequence[Run]) -> str:
    """Return the page that the app opens with: the one run at the bench, else the bench."""
    at_the_bench = [run for run in open_runs if run.status == Run.Status.BENCH]
    return reverse("bench:run", args=[at_the_bench[0].pk]) if len(at_the_bench) == 1 else reverse("bench:home")


def redirect_to_start(request: MakerRequest) -> HttpResponse | None:
    """Return the way to the one open run, for the app's own start; None where the bench is to be shown."""
    start = start_of(list(Run.objects.seen_by(request.workshop).at_the_bench().only("pk", "status")[:2]))
    return redirect(start) if start != reverse("bench:home") else None
