"""What a record is made from, and the questions that several of its sections ask of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property

from soapbench.bench.plan import Line, Plan, Prompt
from soapbench.bench.state import Change, Fact, RunState


@dataclass(frozen=True)
class Kept:
    """Where the file of a photo or of a voice note is: for the screen, and on the disk."""

    address: str
    path: str


@dataclass(frozen=True)
class Given:
    """A run as plain data: its plan, its events and their fold, and what only the run's own row knows."""

    id: str
    code: str
    made_at: datetime
    made_by: str
    status_word: str
    plan: Plan
    state: RunState
    facts: tuple[Fact, ...]
    head_digest: str
    broken: str = ""  # what does not fit in the chain of digests; "" when all does
    lot_codes: Mapping[int, str] = field(default_factory=dict)  # by primary key, of lots that the plan does not know
    files: Mapping[str, Kept] = field(default_factory=dict)  # by the id of their event

    @cached_property
    def standing(self) -> tuple[Fact, ...]:
        """Return the events that were not taken back."""
        return tuple(fact for fact in self.facts if fact.id not in self.state.withdrawn and fact.kind != "took-back")

    @cached_property
    def by_id(self) -> dict[str, Fact]:
        return {fact.id: fact for fact in self.facts}

    @cached_property
    def _codes(self) -> dict[int, str]:
        planned = {line.lot: line.lot_code for line in self.plan.lines if line.lot is not None}
        return {**self.lot_codes, **{lot.lot: lot.code for lot in self.plan.lots}, **planned}

    def of_kind(self, *kinds: str) -> tuple[Fact, ...]:
        """Return the standing events of these kinds."""
        return tuple(fact for fact in self.standing if fact.kind in kinds)

    def lot_code(self, lot: int | None) -> str:
        return "" if lot is None else self._codes.get(lot, f"#{lot}")

    def line(self, key: str) -> Line | None:
        return next((line for line in self.plan.lines if line.key == key), None)

    def item(self, key: str) -> str:
        """Return the words of an item to tick, "" for none."""
        return next((tick.text for prompt in self.plan.prompts for tick in prompt.ticks if tick.key == key), "")

    def left_out(self, key: str) -> Change | None:
        """Return the change that left a line out, if it is out still."""
        if key in self.state.weights:
            return None
        found = [each for each in self.state.changes if each.what == "left out" and each.details.get("line") == key]
        return found[-1] if found else None

    def done_by(self, prompt: Prompt) -> Fact | None:
        """Return the event that did a prompt, or None while it is not done."""
        at = self.state.done.get(prompt.key)
        if at is None:
            return None
        same = [fact for fact in self.standing if fact.happened_at == at]
        named = [fact for fact in same if fact.prompt == prompt.key]
        return next(iter(named or same), None)
