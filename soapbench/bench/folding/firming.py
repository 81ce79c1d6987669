"""The loaf at rest: which gel was seen, when it is usually firm, and when a soft one is pressed again."""

from __future__ import annotations

from datetime import datetime, timedelta

from soapbench.bench.folding.book import FIRM
from soapbench.bench.folding.tally import Tally
from soapbench.bench.kinds import FirmnessChecked, Looked
from soapbench.bench.state import Fact, Firmness, Rest, RunningTimer
from soapbench.science.words import say


def looked(tally: Tally, fact: Fact, payload: Looked) -> None:
    tally.looks.append(fact)
    _done(tally, fact, "look")


def pressed(tally: Tally, fact: Fact, payload: FirmnessChecked) -> None:
    """Keep the pressing; a soft loaf leaves its prompt open, a crumbling one is never firmer by waiting."""
    found = Firmness(fact.happened_at, payload.is_firm, payload.crumbles, payload.note, fact.person)
    tally.firmness.append(found)
    if payload.is_firm or payload.crumbles:
        _done(tally, fact, "firmness")


def _done(tally: Tally, fact: Fact, kind: str) -> None:
    prompt = tally.book.prompts.get(fact.prompt)
    if prompt is not None and prompt.kind == kind:
        tally.mark_done(prompt.key, fact.happened_at)


def rest(tally: Tally) -> Rest | None:
    """Return how the loaf stands, None before it was set aside and for a plan without windows."""
    plan = tally.plan.rest
    began = tally.done.get(plan.starts) if plan else None
    if plan is None or began is None:
        return None
    gel = _gel(tally, began, timedelta(hours=plan.gel_shows_hours))
    window = plan.windows[gel]
    earliest, latest = (began + timedelta(hours=hours) for hours in (window.earliest_h, window.latest_h))
    return Rest(began, gel, earliest, latest, window.sentence)


def _gel(tally: Tally, began: datetime, shows: timedelta) -> str:
    """Return "yes" once gel was seen; "no" when it was not although it would have shown by then."""
    answers = [(fact.payload["gel"], fact.happened_at - began) for fact in tally.looks]
    if any(gel == "yes" for gel, _after in answers):
        return "yes"
    return "no" if any(gel == "no" and after >= shows for gel, after in answers) else ""


def again(tally: Tally) -> RunningTimer | None:
    """Return the timer of a loaf that dented, until it is pressed and firm."""
    plan, last = tally.plan.rest, tally.firmness[-1] if tally.firmness else None
    if plan is None or last is None or FIRM in tally.done:
        return None
    ends = last.at + timedelta(hours=plan.again_hours)
    return RunningTimer("firm-again", say("Loaf: press again"), last.at, ends)
