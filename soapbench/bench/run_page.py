"""Everything that the template of the run page needs, from one fold."""

from __future__ import annotations

from typing import Any, get_args, get_type_hints

from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bench.change_screen import DifferentScreen, different_screen
from soapbench.bench.cooling_screen import cooling_screen, meanwhile_list
from soapbench.bench.events import facts_of
from soapbench.bench.fact_words import fact_words
from soapbench.bench.folding.scale_in_use import with_drawing_ahead
from soapbench.bench.ids import new_id
from soapbench.bench.kinds import Tested, Trace
from soapbench.bench.models import Run
from soapbench.bench.pause_screen import pause_screen
from soapbench.bench.people import others
from soapbench.bench.phone import fact_documents, plan_document, state_document
from soapbench.bench.plan import Plan
from soapbench.bench.rest_screen import rest_advice
from soapbench.bench.rules.lye import needs_test
from soapbench.bench.run import fold, plan_in_use
from soapbench.bench.safety import safety_screen
from soapbench.bench.screen import Refusal, RunScreen, run_screen
from soapbench.bench.spills import spills
from soapbench.bench.start_screen import start_words
from soapbench.bench.state import Change, Fact, RunState
from soapbench.workshop.models import Person

METHODS: tuple[str, ...] = get_args(get_type_hints(Tested)["method"])
TRACES: tuple[tuple[Trace, str | Promise, str | Promise], ...] = (
    ("emulsion", _("Emulsion"), _("One even colour, no streaks of oil")),
    ("thin", _("Thin"), _("A drip sinks at once, a faint line stays")),
    ("medium", _("Medium"), _("Like pancake batter, a line stays on top")),
    ("thick", _("Thick"), _("Like pudding, it stands up")),
)
REST_ANSWERS: tuple[tuple[str, str, str | Promise, str | Promise], ...] = (
    ("true", "false", _("Oil on top"), _("A film or drops of oil; it is not thicker")),
    ("false", "true", _("Thicker, and cooler"), _("It sets while it cools, grainy or lumpy")),
    ("true", "true", _("Both"), _("Oil on top, and it sets")),
)


def run_page(
    run: Run, person: Person, *, shown: str = "", different: str = "", refusal: Refusal | None = None
) -> dict[str, Any]:
    """Return the context of bench/run.html; `different` is the kind of change whose screen is open."""
    facts = facts_of(run)
    state = fold(run.plan, facts)
    plan = with_drawing_ahead(plan_in_use(run.plan, facts), state.drawing_ahead)
    page = run_screen(plan, state, shown, refusal)
    return {
        "run": run,
        "plan": plan,
        "formula": plan.formula,
        "state": state,
        "page": page,
        "different": _different(run, plan, state, page, person, different),
        "safety": safety_screen(plan, state),
        "spills": spills(plan, state),
        "cooling": cooling_screen(plan, state),
        "meanwhile": meanwhile_list(plan, state),
        "start": start_words(plan, state),
        "rest_advice": rest_advice(state),
        "pause": pause_screen(plan, state, timezone.now()),
        "cut_bars": state.cut["bars"] if state.cut else "",
        "needs_test": needs_test(state),
        "follows": _follows(state, facts),
        "last_words": _last_words(plan, state, facts),
        "missing_url": reverse("bench:missing", args=[run.pk]),
        "events_url": reverse("bench:events", args=[run.pk]),
        "new_id": new_id,
        "traces": TRACES,
        "rest_answers": REST_ANSWERS,
        "methods": METHODS,
        "plan_document": plan_document(plan),
        "state_document": state_document(plan, state),
        "fact_documents": fact_documents(facts),
    }


def _different(run: Run, plan: Plan, state: RunState, page: RunScreen, person: Person, opened: str) -> DifferentScreen:
    refusal = page.shown.refusal if page.shown.refusal and page.shown.refusal.kind == "changed" else None
    typed = refusal.typed if refusal else {}
    return different_screen(
        plan,
        state,
        page.shown.prompt,
        opened=typed.get("what", "") or opened,
        typed=typed,
        people=tuple(others(run, person)),
    )


def _follows(state: RunState, facts: tuple[Fact, ...]) -> Change | None:
    """Return the change that was just written down, so that what follows from it is shown with a way back."""
    if not facts or not state.changes or state.changes[-1].event != facts[-1].id:
        return None
    return state.changes[-1]


def _last_words(plan: Plan, state: RunState, facts: tuple[Fact, ...]) -> str:
    last = next((fact for fact in facts if fact.id == state.last_event), None)
    return fact_words(plan, last) if last else ""
