"""Which events count: those that were not taken back."""

from __future__ import annotations

from collections.abc import Sequence

from soapbench.bench.state import Fact

TOOK_BACK = "took-back"


def withdrawn_by(facts: Sequence[Fact]) -> frozenset[str]:
    """Return the ids of the events that were taken back.

    Read from the end, so that a taking back that was itself taken back withdraws nothing.
    """
    withdrawn: set[str] = set()
    for fact in reversed(facts):
        if fact.kind == TOOK_BACK and fact.id not in withdrawn:
            withdrawn.add(str(fact.payload["event"]))
    return frozenset(withdrawn)


def unique(facts: Sequence[Fact]) -> list[Fact]:
    """Return the events in the order of the log, each id once."""
    seen: dict[str, Fact] = {}
    for fact in facts:
        seen.setdefault(fact.id, fact)
    return sorted(seen.values(), key=lambda fact: fact.position)
