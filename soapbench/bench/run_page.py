"""Everything that the template of the run page needs, from one fold."""

from __future__ import annotations

from typing import Any, get_args, get_type_hints

from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bars.formula import Path
from soapbench.bench.cooled import cooled
from soapbench.bench.events import facts_of
from soapbench.bench.fact_words import fact_words
from soapbench.bench.ids import new_id
from soapbench.bench.kinds import Tested, Trace
from soapbench.bench.models import Run
from soapbench.bench.pause_screen import pause_screen
from soapbench.bench.phone import fact_documents, plan_document, state_document
from soapbench.bench.plan import Plan
from soapbench.bench.reading_screen import cooling_screen
from soapbench.bench.rules.lye import needs_test
from soapbench.bench.run import fold
from soapbench.bench.safety import safety_screen
from soapbench.bench.screen import Refusal, run_screen
from soapbench.bench.spills import spills
from soapbench.bench.state import Fact, RunState

METHODS: tuple[str, ...] = get_args(get_type_hints(Tested)["method"])
TRACES: tuple[tuple[Trace, str | Promise, str | Promise], ...] = (
    ("emulsion", _("Emulsion"), _("One even colour, no streaks of oil")),
    ("thin", _("Thin"), _("A drip sinks at once, a faint line stays")),
    ("medium", _("Medium"), _("Like pancake batter, a line stays on top")),
    ("thick", _("Thick"), _("Like pudding, it stands up")),
)


def run_page(run: Run, *, shown: str = "", refusal: Refusal | None = None) -> dict[str, Any]:
    """Return the context of bench/run.html."""
    plan, facts = run.plan, facts_of(run)
    state = fold(plan, facts)
    cooling = cooling_screen(plan, state)
    return {
        "run": run,
        "plan": plan,
        "formula": plan.formula,
        "state": state,
        "page": run_screen(plan, state, shown, refusal),
        "cooling": cooling,
        "safety": safety_screen(plan, state),
        "spills": spills(plan, state),
        "pause": pause_screen(plan, state, timezone.now()),
        "cut_bars": state.cut["bars"] if state.cut else "",
        "needs_test": needs_test(state),
        "effect": _effect(state, facts),
        "last_words": _last_words(plan, state, facts),
        "events_url": reverse("bench:events", args=[run.pk]),
        "new_id": new_id,
        "stand_ins": sorted(plan.stand_ins.items(), key=lambda item: item[1].name),
        "paths": [(path, path) for path in get_args(Path)],
        "tools": sorted({(choice.tool, choice.tool_name) for choice in plan.drawings}),
        "traces": TRACES,
        "methods": METHODS,
        "plan_document": plan_document(plan),
        "state_document": state_document(state, cooling.sentence, cooled(plan, state)),
        "fact_documents": fact_documents(facts),
    }


def _effect(state: RunState, facts: tuple[Fact, ...]) -> str:
    """Return what follows from a change that was just written down."""
    if not facts or not state.changes or state.changes[-1].event != facts[-1].id:
        return ""
    return state.changes[-1].effect


def _last_words(plan: Plan, state: RunState, facts: tuple[Fact, ...]) -> str:
    last = next((fact for fact in facts if fact.id == state.last_event), None)
    return fact_words(plan, last) if last else ""
