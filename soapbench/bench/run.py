"""Where a run stands: a pure function of its plan and its events."""

from __future__ import annotations

from collections.abc import Sequence

from soapbench.bench.folding.book import Book
from soapbench.bench.folding.cooling import cooling, with_cooling
from soapbench.bench.folding.firming import rest
from soapbench.bench.folding.gathered import dealt
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
    tally = tally_of(plan, log, withdrawn)
    settlement = settle(tally)
    return _state(tally, withdrawn, settlement, outcome(tally))


def tally_of(plan: Plan, log: Sequence[Fact], withdrawn: frozenset[str]) -> Tally:
    """Return what the events of a log in order have told, those left aside that were taken back."""
    standing = [fact for fact in log if fact.id not in withdrawn and fact.kind != TOOK_BACK]
    tally = Tally(Book(on_the_scale_in_use(plan, standing)))
    for fact in standing:
        read(tally, fact)
    return tally


def _state(tally: Tally, withdrawn: frozenset[str], settlement: Settlement | None, made: Outcome) -> RunState:
    not_needed, asked = skipped(tally, settlement), targets(tally, settlement)
    superfat, strength = as_asked(tally, asked)
    remedied = remedies(tally, settlement)
    now_at, cools = current(tally, not_needed), cooling(tally)
    running = with_cooling(tally, timers(tally, not_needed), cools)
    return RunState(
        status=status(tally, now_at),
        current=now_at,
        done=dict(tally.done),
        skipped=not_needed,
        ticked=dict(tally.ticked),
        weights=dict(tally.weights),
        targets=asked,
        tolerances={line.key: tolerance_of(tally, line, asked[line.key]) for line in tally.plan.lines},
        pot_g=_pot_g(tally),
        batter_g=round(batter_g(tally), 6) if tally.is_combined else None,
        portions_g=portions_now(tally),
        settlement=settlement,
        superfat=made.superfat,
        superfat_sentence=made.sentence,
        remedies=remedied,
        readings=tuple(tally.readings),
        changes=tuple(tally.changes),
        notes=tuple(tally.notes),
        timers=running,
        due_at=due_at(tally, now_at, running),
        last_event="" if tally.ended else tally.last_event,
        withdrawn=withdrawn,
        drawing=tally.drawing or (tally.drawing_ahead if is_left_undrawn(tally) else None),
        trace=tally.trace,
        cut=tally.cut,
        cure_weighings=tuple(tally.cure_weighings),
        tests=tuple(tally.tests),
        ended=tally.ended,
        started_at=tally.started_at,
        people=tuple(tally.people),
        is_combined=tally.is_combined,
        cooling=cools,
        mixing=mixing(tally),
        batter_since=batter_since(tally, not_needed),
        rest_tests=tuple(tally.rest_tests),
        lye_made=tally.lye_at is not None,
        rest=rest(tally),
        looks=tuple(tally.looks),
        firmness=tuple(tally.firmness),
        pauses=tuple(tally.pauses),
        rinses=tuple(tally.rinses),
        attachments=tuple(tally.attachments),
        notices=notices(tally, asked),
        parts={key: tuple(parts) for key, parts in tally.parts.items()},
        owed=dict(tally.owed),
        spent=dict(tally.spent),
        lye_share=tally.lye_share,
        factor=tally.factor,
        left_out=frozenset(key for key in tally.left_out if not key.startswith("portion:")),
        superfat_as_asked=superfat,
        strength_as_asked=strength,
        to_do=tally.to_do,
        situation=situation(tally) if remedied else "",
        ways=ways(tally, settlement, remedied),
        takings=takings(tally, asked),
        thickened=tuple(tally.thickened),
        dealt=dealt(tally),
        scale=tally.plan.scale,
        scale_tried=tally.scale_tried,
        put_off=tally.put_off,
        drawing_ahead=tally.drawing_ahead,
        needs_test=tally.was_lye_heavy or tally.is_alkali_unknown or any(each.crumbles for each in tally.firmness),
    )


def _pot_g(tally: Tally) -> float:
    """Return the running total of the fats weighed into the pot."""
    weighed = (line for line in tally.plan.in_group("fat") if line.key in tally.weights)
    return round(sum((mass_of(tally, line) for line in weighed), 0.0), 6)
