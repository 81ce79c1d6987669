"""What the bench does not accept, and why: domain rules on one event against the state before it."""

from __future__ import annotations

from soapbench.bench.folding.book import Book
from soapbench.bench.kinds import Payload
from soapbench.bench.plan import Plan
from soapbench.bench.rules.forcing import FORCING
from soapbench.bench.rules.gathering import check_gathered
from soapbench.bench.rules.hands import check_credited, check_decided, check_in_hand
from soapbench.bench.rules.lye import check_done, check_pot
from soapbench.bench.rules.order import check_ended, check_prompt, check_started, check_take_back, remark_on
from soapbench.bench.rules.rack import check_bars, check_ending
from soapbench.bench.rules.remedies import check_part, check_remedied, check_strength
from soapbench.bench.rules.weighing import check_change, check_settled, check_tick, check_weighed
from soapbench.bench.rules.words import Asked
from soapbench.bench.run import plan_in_use
from soapbench.bench.state import Fact, RunState

CHECKS = (
    check_ended,
    check_started,
    check_prompt,
    check_take_back,
    check_in_hand,
    check_credited,
    check_decided,
    check_tick,
    check_gathered,
    check_weighed,
    check_part,
    check_remedied,
    *FORCING.values(),
    check_settled,
    check_change,
    check_done,
    check_strength,
    check_pot,
    check_bars,
    check_ending,
)


def check(plan: Plan, state: RunState, facts: tuple[Fact, ...], kind: str, prompt: str, payload: Payload) -> str:
    """Return what to tell the maker about an event that may be recorded, "" when there is nothing.

    Raises:
        Refused: it may not; the sentence says why and what to do first.
    """
    asked = Asked(Book(plan_in_use(plan, facts)), state, facts, kind, prompt, payload)
    for rule in CHECKS:
        rule(asked)
    return remark_on(asked)
