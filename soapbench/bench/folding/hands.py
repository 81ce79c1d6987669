"""Who has which prompt in hand, and who really did what: kinds that lock nothing and move no figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from soapbench.bench.folding.conflicts import knows
from soapbench.bench.folding.tally import Tally
from soapbench.bench.kinds import GivenBack, TakenInHand
from soapbench.bench.state import Fact, InHand


def taken_in_hand(tally: Tally, fact: Fact, payload: TakenInHand) -> None:
    """Put a prompt into somebody's hand. Of two who took it at once the first has it; who knows of it takes it over."""
    if fact.prompt not in tally.book.prompts or fact.prompt in tally.done:
        return
    held = tally.taken.get(fact.prompt)
    if held is not None and not knows(fact, held):
        return
    tally.taken[fact.prompt] = fact


def given_back(tally: Tally, fact: Fact, payload: GivenBack) -> None:
    tally.taken.pop(fact.prompt, None)


def in_hand(tally: Tally) -> dict[str, InHand]:
    """Return who has which open prompt."""
    return {key: _hand(fact) for key, fact in tally.taken.items() if tally.ended is None}


def _hand(fact: Fact) -> InHand:
    to = str(fact.payload["to"])
    return InHand(to or fact.person, "" if to else fact.device, fact.happened_at, fact.id)


def credits_of(standing: Sequence[Fact]) -> dict[str, str]:
    """Return who really made an entry, where somebody said that it was not the one who is signed in."""
    return {str(fact.payload["event"]): str(fact.payload["by"]) for fact in standing if fact.kind == "credited"}


def credited(facts: Sequence[Fact], credits: dict[str, str]) -> list[Fact]:
    """Return the facts, each with the person who really did it."""
    return [replace(fact, person=credits.get(fact.id, fact.person)) for fact in facts]
