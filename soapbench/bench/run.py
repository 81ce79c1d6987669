"""Where a run stands: a pure function of its plan and its events."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from soapbench.bench.folding.book import Book
from soapbench.bench.folding.conflicts import Counted, counted
from soapbench.bench.folding.cooling import cooling, with_cooling
from soapbench.bench.folding.firming import rest
from soapbench.bench.folding.gathered import dealt
from soapbench.bench.folding.hands import credited, credits_of, in_hand
from soapbench.bench.folding.log import TOOK_BACK, unique, withdrawn_by
from soapbench.bench.folding.mixing import mixing
from soapbench.bench.folding.notices import notices
from soapbench.bench.folding.pot import batter_g, mass_of
from soapbench.bench.folding.progress import batter_since, current, due_at, is_left_undrawn, skipped, status, timers
from soapbench.bench.folding.reading import read
from soapbench.bench.folding.scale_in_use import on_the_scale_in_use
from soapbench.bench.folding.settlement import settle
from soapbench.bench.folding.superfat import Outcome, as_asked, outcome, situation
from soapbench.bench.folding.takings import takings
from soapbench.bench.folding.tally import Tally
from soapbench.bench.folding.targets import portions_now, targets
from soapbench.bench.folding.tolerances import tolerance_of
from soapbench.bench.folding.ways import remedies, ways
from soapbench.bench.plan import Plan
from soapbench.bench.state import Fact, RunState, Settlement


def plan_in_use(plan: Plan, facts: Sequence[Fact]) -> Plan:
    """Return the plan as the bench goes by it now: on the scale that is really used."""
    log = unique(facts)
    withdrawn = withdrawn_by(log)
    return on_the_scale_in_use(plan, [fact for fact in log if fact.id not in withdrawn and fact.kind != TOOK_BACK])


def fold(plan: Plan, facts: Sequence[Fact]) -> RunState:
    """Return the state that these events make of this plan.

    The order of the log counts, not the order of the sequence; an event given twice counts once; an event that was
    taken back does not count. No clock is read: timers are the moments at which they end.
    """
    log = unique(facts)
    withdrawn = withdrawn_by(log)
    standing = standing_of(log, withdrawn)
    found = counts(plan, standing)
    tally = _told_by(plan, found.facts)
    settlement = settle(tally)
    state = _state(tally, withdrawn, settlement, outcome(tally))
    return replace(state, conflicts=found.conflicts, credits=credits_of(standing))


def counts(plan: Plan, standing: Sequence[Fact]) -> Counted:
    """Return which events count of those that were not taken back, each with who really did it."""
    book = Book(on_the_scale_in_use(plan, standing))
    return counted(book, credited(standing, credits_of(standing)))


def standing_of(log: Sequence[Fact], withdrawn: frozenset[str]) -> list[Fact]:
    return [fact for fact in log if fact.id not in withdrawn and fact.kind != TOOK_BACK]


def tally_of(plan: Plan, log: Sequence[Fact], withdrawn: frozenset[str]) -> Tally:
    """Return what the events of a log in order have told, those left aside that were taken back or do not count."""
    return _told_by(plan, counts(plan, standing_of(log, withdrawn)).facts)


def _told_by(plan: Plan, facts: Sequence[Fact]) -> Tally:
    tally = Tally(Book(on_the_scale_in_use(plan, facts)))
    for fact in facts:
        read(tally, fact)
    return tally


def _state(tally: Tally, withdrawn: frozenset[str], settlement: Settlement | None, made: Outcome) -> RunState:
    not_needed, asked = skipped(tally, settlement), targets(tally, settlement)
    return RunState(
        **_told(tally),
        **_clock(tally, not_needed),
        **_chemistry(tally, settlement, asked),
        skipped=not_needed,
        targets=asked,
        tolerances={line.key: tolerance_of(tally, line, asked[line.key]) for line in tally.plan.lines},
        settlement=settlement,
        superfat=made.superfat,
        superfat_sentence=made.sentence,
        withdrawn=withdrawn,
        notices=notices(tally, asked),
        takings=takings(tally, asked),
    )


def _told(tally: Tally) -> dict[str, Any]:
    """Return the fields of the state that stand as the events told them."""
    lists = ("readings", "changes", "notes", "cure_weighings", "tests", "people", "rest_tests", "looks", "firmness",
             "pauses", "rinses", "attachments", "thickened")  # fmt: skip
    tables = ("done", "ticked", "weights", "owed", "spent")
    plain = ("trace", "cut", "ended", "started_at", "is_combined", "lye_share", "factor", "to_do", "scale_tried",
             "put_off", "drawing_ahead")  # fmt: skip
    return {
        **{name: tuple(getattr(tally, name)) for name in lists},
        **{name: dict(getattr(tally, name)) for name in tables},
        **{name: getattr(tally, name) for name in plain},
        "parts": {key: tuple(parts) for key, parts in tally.parts.items()},
        "left_out": frozenset(key for key in tally.left_out if not key.startswith("portion:")),
        "last_event": "" if tally.ended else tally.last_event,
        "lye_made": tally.lye_at is not None,
        "scale": tally.plan.scale,
        "drawing": tally.drawing or (tally.drawing_ahead if is_left_undrawn(tally) else None),
        "needs_test": tally.was_lye_heavy or tally.is_alkali_unknown or any(e.crumbles for e in tally.firmness),
    }


def _clock(tally: Tally, not_needed: dict[str, str]) -> dict[str, Any]:
    """Return where the run stands, and what runs on the clock."""
    now_at, cools = current(tally, not_needed), cooling(tally)
    running = with_cooling(tally, timers(tally, not_needed), cools)
    return {
        "status": status(tally, now_at),
        "current": now_at,
        "timers": running,
        "due_at": due_at(tally, now_at, running),
        "cooling": cools,
        "batter_since": batter_since(tally, not_needed),
        "rest": rest(tally),
        "in_hand": in_hand(tally),
    }


def _chemistry(tally: Tally, settlement: Settlement | None, asked: dict[str, float]) -> dict[str, Any]:
    """Return what is in the pots, and what can still be done about it."""
    superfat, strength = as_asked(tally, asked)
    remedied = remedies(tally, settlement)
    return {
        "pot_g": _pot_g(tally),
        "batter_g": round(batter_g(tally), 6) if tally.is_combined else None,
        "portions_g": portions_now(tally),
        "mixing": mixing(tally),
        "superfat_as_asked": superfat,
        "strength_as_asked": strength,
        "remedies": remedied,
        "situation": situation(tally) if remedied else "",
        "ways": ways(tally, settlement, remedied),
        "dealt": dealt(tally),
    }


def _pot_g(tally: Tally) -> float:
    """Return the running total of the fats weighed into the pot."""
    weighed = (line for line in tally.plan.in_group("fat") if line.key in tally.weights)
    return round(sum((mass_of(tally, line) for line in weighed), 0.0), 6)
