"""The columns of a run that repeat its folded state, kept so that lists ask once."""

from __future__ import annotations

from typing import Any

from soapbench.bench.cut_words import prompt_title
from soapbench.bench.learning.lesson import lesson_of, to_document
from soapbench.bench.models import Run
from soapbench.bench.plan import Plan
from soapbench.bench.state import Fact, RunState
from soapbench.bench.stock import keep_lots

COLUMNS = (
    "status", "prompt", "prompt_title", "due_at", "due_until", "paused_since", "deviations", "started_at", "ended_at",
    "ended_why", "bars_made", "superfat_central", "put_off", "event_count", "head_digest", "lesson",
)  # fmt: skip
# Only these can change which lots were weighed from.
MOVES_STOCK = ("weighed", "changed", "remedied", "took-back")
# Once the mould is full, only these can change what a run teaches.
TEACHES = ("drawn", "done", "cut", "changed", "took-back")


def keep(run: Run, plan: Plan, state: RunState, kind: str = "") -> None:
    """Write the state into the run's columns, with what this kind of event may have moved; "" stands for any."""
    set_columns(run, plan, state)
    if not kind or kind in TEACHES:
        run.lesson = _lesson(plan, state)
    run.save(update_fields=COLUMNS)
    if not kind or kind in MOVES_STOCK:
        keep_lots(run, state)


def _lesson(plan: Plan, state: RunState) -> Any:
    """Return what a run has taught; nothing while it is at the bench, where each tap would fit its curves anew."""
    return to_document(lesson_of(plan, state)) if state.is_combined and state.status != "bench" else None


def set_columns(run: Run, plan: Plan, state: RunState) -> None:
    run.status = state.status
    run.prompt = state.current
    run.prompt_title = prompt_title(plan, state, plan.prompt(state.current)) if state.current else ""
    run.due_at = state.due_at
    run.due_until = state.rest.latest if state.rest and state.status == "resting" else None
    run.paused_since = state.paused_since
    run.deviations = state.deviations
    run.started_at = state.started_at
    run.ended_at = state.ended.happened_at if state.ended else None
    run.ended_why = _why(state.ended)
    run.bars_made = state.cut["bars"] if state.cut else None
    run.put_off = _put_off(state)
    run.superfat_central = state.superfat.central if state.superfat else None


def _put_off(state: RunState) -> str:
    if state.put_off is None:
        return ""
    return " – ".join(part for part in (state.put_off.why, state.put_off.until) if part)


def _why(ended: Fact | None) -> str:
    if ended is None:
        return ""
    return str(ended.payload.get("reason") or ended.payload.get("note") or "")
