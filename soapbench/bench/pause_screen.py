"""The card that stands over the unchanged prompt after "hold on", as the server tells it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.utils.functional import Promise

from soapbench.bench.cooled import Cooled, cooled
from soapbench.bench.folding.book import COMBINE
from soapbench.bench.pausing import Check, checks, in_vessel
from soapbench.bench.plan import Plan
from soapbench.bench.pots import POTS as POTS_THAT_COOL
from soapbench.bench.reading_screen import POTS
from soapbench.bench.state import RunState
from soapbench.bench.weigh_screen import decimals_of, grams
from soapbench.bench.words import minutes


@dataclass(frozen=True)
class PotNow:
    pot: str
    title: str | Promise
    now_c: str  # "" while nothing was read, and once lye and fats are together
    last: str


@dataclass(frozen=True)
class InHand:
    """The line in hand, and what its vessel weighs without it and with it."""

    name: str
    vessel: str
    has_tare: bool
    without: str
    with_it: str


@dataclass(frozen=True)
class PauseScreen:
    since: datetime | None
    away: str
    checks: tuple[Check, ...]
    pots: tuple[PotNow, ...]
    batter: str  # how long lye and fats are together, "" before and after
    in_hand: InHand | None


def pause_screen(plan: Plan, state: RunState, now: datetime) -> PauseScreen:
    """Return what the card says now; without a pause, what it would say."""
    since = state.paused_since
    combined = state.done.get(COMBINE)
    return PauseScreen(
        since=since,
        away=minutes((now - since).total_seconds() / 60) if since else "",
        checks=checks(plan, state, since or now, now),
        pots=_pots(plan, state, now),
        batter=minutes((now - combined).total_seconds() / 60) if combined and state.status == "bench" else "",
        in_hand=_in_hand(plan, state),
    )


def _pots(plan: Plan, state: RunState, now: datetime) -> tuple[PotNow, ...]:
    known: dict[str, Cooled] = {each.pot: each for each in cooled(plan, state)}
    return tuple(_pot(name, known.get(name), now) for name in POTS_THAT_COOL)


def _pot(name: str, pot: Cooled | None, now: datetime) -> PotNow:
    if pot is None:
        return PotNow(name, POTS[name], "", "")
    return PotNow(name, POTS[name], f"{pot.at(now):.0f}", f"{pot.last_c:g} °C")


def _in_hand(plan: Plan, state: RunState) -> InHand | None:
    prompt = plan.prompt(state.current) if state.current else None
    if prompt is None or not prompt.line:
        return None
    line, decimals = plan.line(prompt.line), decimals_of(plan.resolution_g)
    without, with_it = in_vessel(plan, state, line)
    name = state.weights[line.key].name if line.key in state.weights else line.name
    has_tare = line.vessel in plan.tares
    return InHand(name, line.vessel, has_tare, grams(without, decimals), grams(with_it, decimals))
