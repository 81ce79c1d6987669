"""The bench: runs in progress, how much to make, one run prompt by prompt, and what happened."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from soapbench.bars.models import Bar
from soapbench.bench import events as log
from soapbench.bench.answers import accepted
from soapbench.bench.forms import Incoming, Unreadable, from_form, from_script, typed
from soapbench.bench.ids import new_id
from soapbench.bench.kept import redirect_to_start
from soapbench.bench.missing import helps_with
from soapbench.bench.models import Run
from soapbench.bench.payloads import parse
from soapbench.bench.people import check_people
from soapbench.bench.preview import Preview, preview
from soapbench.bench.reading_doubt import CODE, doubt_about
from soapbench.bench.refusal import Refused
from soapbench.bench.run import plan_in_use
from soapbench.bench.run_page import run_page
from soapbench.bench.screen import Refusal
from soapbench.bench.size_form import SizeForm
from soapbench.bench.start import start_run
from soapbench.bench.weigh_screen import doubts
from soapbench.science.words import say
from soapbench.workshop.http import MakerRequest


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Show the runs in progress, then what could be made; the app's start leads on to the one open run."""
    start = redirect_to_start(request) if "start" in request.GET else None
    if start:
        return start
    runs = Run.objects.seen_by(request.workshop).open().select_related("bar")
    bars = Bar.objects.seen_by(request.workshop).in_the_line().with_current()
    return render(request, "bench/home.html", {"runs": runs, "bars": bars, "now": timezone.now()})


@require_http_methods(["GET", "POST"])
def choose(request: MakerRequest, slug: str) -> HttpResponse:
    """Ask how much to make; show what that means; begin the run."""
    bar = get_object_or_404(Bar.objects.seen_by(request.workshop).in_the_line(), slug=slug)
    revision = bar.revisions.first()
    if revision is None:
        return redirect("bars:edit", bar.slug)
    is_starting = request.method == "POST" and "start" in request.POST
    form = SizeForm(request.POST or None, workshop=request.workshop, formula=revision.formula, is_starting=is_starting)
    seen = preview(revision, form, request.user)
    if is_starting and form.is_valid() and seen.plan:
        return _begin(request, revision, form, seen)
    template = "bench/choose.html#preview" if request.htmx else "bench/choose.html"
    context = {"bar": bar, "revision": revision, "form": form, "seen": seen}
    is_refused = request.method == "POST" and (is_starting or not seen.plan)
    return render(request, template, context, status=422 if is_refused else 200)


def _begin(request: MakerRequest, revision: Any, form: SizeForm, seen: Preview) -> HttpResponse:
    try:
        run = start_run(
            revision, form.size, request.user, mould=form.chosen_mould, scale=form.chosen_scale, refused=form.refused
        )
    except Refused as error:  # the shelf or the workshop changed since the preview
        form.add_error(None, error.sentence)
        context = {"bar": revision.bar, "revision": revision, "form": form, "seen": seen}
        return render(request, "bench/choose.html", context, status=422)
    log.append(
        run,
        id=new_id(),
        kind="started",
        prompt="",
        payload={"cautions_read": True},
        happened_at=timezone.now(),
        device="plain page",
        by=request.user,
    )
    return redirect("bench:run", run.pk)


@require_GET
def run(request: MakerRequest, run_id: UUID) -> HttpResponse:
    """Show one run: every prompt, one at a time."""
    found = _run(request, run_id)
    return render(
        request,
        "bench/run.html",
        run_page(found, request.user, shown=request.GET.get("at", ""), different=request.GET.get("different", "")),
    )


def _run(request: MakerRequest, run_id: UUID) -> Run:
    return get_object_or_404(Run.objects.seen_by(request.workshop).select_related("bar"), pk=run_id)


@require_GET
def missing(request: MakerRequest, run_id: UUID) -> HttpResponse:
    """Show what helps when an item is not here, each way with its effect; to a script, that part alone."""
    found = _run(request, run_id)
    facts = log.facts_of(found)
    helps = helps_with(plan_in_use(found.plan, facts), facts, request.GET.get("item", ""))
    if helps is None or not found.is_open:
        return redirect("bench:run", found.pk)
    context = {"run": found, "helps": helps, "new_id": new_id, "events_url": reverse("bench:events", args=[found.pk])}
    return render(request, "bench/_helps.html" if request.htmx else "bench/missing.html", context)


@require_POST
def events(request: MakerRequest, run_id: UUID) -> HttpResponse:
    """Append what happened; answer a script with the state, a plain form with the page."""
    found = _run(request, run_id)
    if request.content_type != "application/json":
        return _answer_form(request, found)
    response = _answer_script(request, found)
    response.headers["X-Soapbench-Now"] = timezone.now().isoformat()  # the device sets the bench's clock by it
    return response


def _answer_script(request: MakerRequest, run: Run) -> HttpResponse:
    try:
        incoming = from_script(request)
        done = _append(run, incoming, request)
    except Unreadable as error:
        return JsonResponse({"sentence": error.sentence, "field": error.field}, status=error.status)
    except Refused as error:
        return JsonResponse({"sentence": error.sentence, "field": error.field}, status=422)
    return accepted(run, done, incoming.have)


def _answer_form(request: MakerRequest, run: Run) -> HttpResponse:
    try:
        incoming = from_form(request)
        _ask(run, incoming)
        remark = _append(run, incoming, request).remark
    except Unreadable as error:
        return _refused(request, run, error.sentence, error.field, error.status)
    except Refused as error:
        return _refused(request, run, error.sentence, error.field)
    except Questioned as error:
        return _refused(request, run, error.sentence, error.field, questions=error.codes)
    if remark:
        messages.warning(request, remark)
    return redirect(_after(run, incoming))


def _after(run: Run, incoming: Incoming) -> str:
    """Return the address to go on at: what helps when something is not here, else the run."""
    if incoming.kind == "postponed":
        return reverse("bench:home")
    if incoming.kind == "ticked" and incoming.payload.get("is_here") is False:
        query = urlencode({"item": incoming.payload.get("item", "")})
        return f"{reverse('bench:missing', args=[run.pk])}?{query}"
    return reverse("bench:run", args=[run.pk])


class Questioned(Exception):
    """What was typed looks wrong; it is taken when it comes once more with the answers."""

    def __init__(self, sentence: str, field: str, codes: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field
        self.codes = codes


def _ask(run: Run, incoming: Incoming) -> None:
    """Raise the questions that a page without a script could not ask."""
    if incoming.kind not in ASKED or set(incoming.payload) & {"mass_g", "temp_c"} == set():
        return
    parse(incoming.kind, incoming.payload)  # what cannot be a weight or a temperature is refused, not asked about
    field, found = ASKED[incoming.kind](run, incoming.payload)
    if set(found) - set(incoming.payload.get("doubts_answered", [])):
        raise Questioned(" ".join(found.values()), field, tuple(found))


def _about_weight(run: Run, payload: dict[str, Any]) -> tuple[str, dict[str, str]]:
    plan = plan_in_use(run.plan, log.facts_of(run))
    line = next((line for line in plan.lines if line.key == payload.get("line")), None)
    if line is None or payload["mass_g"] == 0:
        return "mass_g", {}  # nought grams are refused by the log itself
    return "mass_g", {doubt.code: doubt.sentence for doubt in doubts(plan, log.state_of(run), line, payload["mass_g"])}


def _about_reading(run: Run, payload: dict[str, Any]) -> tuple[str, dict[str, str]]:
    sentence = doubt_about(run.plan, log.state_of(run), payload["pot"], payload["temp_c"])
    return "temp_c", {CODE: sentence} if sentence else {}


ASKED = {"weighed": _about_weight, "read": _about_reading}


def _append(run: Run, incoming: Incoming, request: MakerRequest) -> log.Appended:
    if incoming.kind == "attached":
        parse(incoming.kind, incoming.payload)
        raise Refused(say("A photo or a recording comes with its file. Take it on the page of the batch."), "kind")
    check_people(run, request.user, incoming.payload)
    return log.append(
        run,
        id=incoming.id,
        kind=incoming.kind,
        prompt=incoming.prompt,
        payload=incoming.payload,
        happened_at=incoming.happened_at,
        device_at=incoming.device_at,
        device=incoming.device,
        by=request.user,
        seen=incoming.seen,
    )


def _refused(
    request: MakerRequest, run: Run, sentence: str, field: str, status: int = 422, questions: tuple[str, ...] = ()
) -> HttpResponse:
    """Show the page again with the sentence at its place and everything that was typed."""
    data = request.POST
    refusal = Refusal(data.get("prompt", ""), data.get("kind", ""), sentence, field, typed(data), questions)
    return render(request, "bench/run.html", run_page(run, request.user, refusal=refusal), status=status)
