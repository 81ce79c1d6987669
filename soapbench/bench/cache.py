"""The columns of a run that repeat its folded state, kept so that lists ask once."""

from __future__ import annotations

from soapbench.bench.models import Run
from soapbench.bench.plan import Plan
from soapbench.bench.state import Fact, RunState
from soapbench.bench.stock import keep_lots

COLUMNS = (
    "status", "prompt", "prompt_title", "due_at", "deviations", "started_at", "ended_at", "ended_why", "bars_made",
    "superfat_central", "event_count", "head_digest",
)  # fmt: skip
# Only these can change which lots were weighed from.
MOVES_STOCK = ("weighed", "changed", "took-back")


def keep(run: Run, plan: Plan, state: RunState, *, stock: bool = True) -> None:
    """Write the state into the run's columns, and the lots used where they may have changed. The plan stays."""
    set_columns(run, plan, state)
    run.save(update_fields=COLUMNS)
    if stock:
        keep_lots(run, state)


def set_columns(run: Run, plan: Plan, state: RunState) -> None:
    run.status = state.status
    run.prompt = state.current
    run.prompt_title = plan.prompt(state.current).title if state.current else ""
    run.due_at = state.due_at
    run.deviations = state.deviations
    run.started_at = state.started_at
    run.ended_at = state.ended.happened_at if state.ended else None
    run.ended_why = _why(state.ended)
    run.bars_made = state.cut["bars"] if state.cut else None
    run.superfat_central = state.superfat.central if state.superfat else None


def _why(ended: Fact | None) -> str:
    if ended is None:
        return ""
    return str(ended.payload.get("reason") or ended.payload.get("note") or "")
