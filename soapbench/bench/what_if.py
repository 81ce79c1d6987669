"""What an event would change, before it is written down. Nothing is stored."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from soapbench.bench import rules
from soapbench.bench.folding.log import unique, withdrawn_by
from soapbench.bench.folding.superfat import as_planned_sentence
from soapbench.bench.payloads import parse, stored
from soapbench.bench.plan import Plan
from soapbench.bench.run import fold, tally_of
from soapbench.bench.state import Fact, RunState

PROPOSED = "proposed"  # id of the event that is only thought of
NOT_SAID = "not said yet"  # the effect does not depend on why, and it is shown before anybody is asked
ASKED_LATER = {"changed": {"why": NOT_SAID, "decision": NOT_SAID}}


@dataclass(frozen=True)
class Moved:
    """A weight that would be asked for in another amount."""

    name: str
    before_g: float
    after_g: float


@dataclass(frozen=True)
class WhatIf:
    effect: str  # what follows, in words; "" when the kind of event has none
    superfat: str  # with its interval, "" when it stays as it is or cannot be told yet
    moved: tuple[Moved, ...]
    remark: str = ""


def what_if(
    plan: Plan,
    facts: tuple[Fact, ...],
    *,
    kind: str,
    prompt: str,
    payload: Mapping[str, Any],
    happened_at: datetime,
    person: str,
) -> WhatIf:
    """Return what would follow if this happened now.

    Raises:
        Refused: it could not be recorded either; the sentence says why, the field where.
    """
    parsed = parse(kind, {**ASKED_LATER.get(kind, {}), **payload})
    before = fold(plan, facts)
    remark = rules.check(plan, before, facts, kind, prompt, parsed)
    position = len(facts) + 1
    fact = Fact(PROPOSED, position, kind, prompt, stored(parsed), happened_at, happened_at, person, "")  # knows all
    after = fold(plan, (*facts, fact))
    effect = next((change.effect for change in after.changes if change.event == PROPOSED), "")
    return WhatIf(effect, _superfat(plan, before, after, (*facts, fact)), _moved(plan, before, after), remark)


def _superfat(plan: Plan, before: RunState, after: RunState, facts: tuple[Fact, ...]) -> str:
    if after.superfat_sentence:
        return after.superfat_sentence if after.superfat_sentence != before.superfat_sentence else ""
    log = unique(facts)
    now, then = (as_planned_sentence(tally_of(plan, each, withdrawn_by(each))) for each in (log[:-1], log))
    return then if then != now else ""


def _moved(plan: Plan, before: RunState, after: RunState) -> tuple[Moved, ...]:
    """Return the weights still to come that would be others; those of portions by their letter."""
    names = {line.key: line.name for line in plan.lines if line.key not in after.weights}
    names |= {f"portion:{portion.letter}": f"{portion.letter} · {portion.name}" for portion in plan.portions}
    found = (Moved(name, before.targets.get(key, 0.0), after.targets.get(key, 0.0)) for key, name in names.items())
    return tuple(each for each in found if abs(each.after_g - each.before_g) > 1e-9)
