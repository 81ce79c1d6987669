"""Times away from the bench, and times of rinsing: kinds that move nothing but themselves."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from soapbench.bench.folding.tally import Tally
from soapbench.bench.kinds import Paused, Resumed, Rinsed
from soapbench.bench.state import Fact, Pause, Rinse

# These are no work at the bench: a batch on hold stays on hold, and "take back" means what came before them.
ASIDE = ("paused", "resumed", "rinsed", "noted", "attached", "took-back", "taken-in-hand", "given-back", "credited",
         "decided")  # fmt: skip


def paused(tally: Tally, fact: Fact, payload: Paused) -> None:
    """Open a pause; a second "hold on" while one lasts changes nothing."""
    if not _lasts(tally):
        tally.pauses.append(Pause(fact.happened_at, None, fact.prompt, fact.person, payload.why))


def resumed(tally: Tally, fact: Fact, payload: Resumed) -> None:
    end_pause(tally, fact.happened_at, payload.checked)


def end_pause(tally: Tally, at: datetime, checked: str = "") -> None:
    """Close the pause that lasts: the maker said so, or went on working."""
    if _lasts(tally):
        last = tally.pauses[-1]
        tally.pauses[-1] = replace(last, until=max(at, last.since), checked=checked)


def _lasts(tally: Tally) -> bool:
    return bool(tally.pauses) and tally.pauses[-1].until is None


def rinsed(tally: Tally, fact: Fact, payload: Rinsed) -> None:
    """Begin or end a rinse; the first beginning counts, so that a second tap does not make it look shorter."""
    runs = bool(tally.rinses) and tally.rinses[-1].ended is None
    if payload.is_running and not runs:
        tally.rinses.append(Rinse(fact.happened_at, None, payload.where, fact.person))
    if payload.is_running and runs and payload.where:
        tally.rinses[-1] = replace(tally.rinses[-1], where=payload.where)
    if not payload.is_running and runs:
        last = tally.rinses[-1]
        tally.rinses[-1] = replace(last, ended=max(fact.happened_at, last.began))
