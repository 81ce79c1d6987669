"""Rules on what is done: the gate before the lye, the pot check before lye meets fats, the batter before the pour."""

from __future__ import annotations

from soapbench.bench.folding.book import COMBINE, POT_CHECK, TEST
from soapbench.bench.kinds import Done, Drawn, FirmnessChecked, Looked, PotChecked, RestTested, TraceSeen
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.weighing import check_lye_may_be_made
from soapbench.bench.rules.words import Asked
from soapbench.bench.state import RunState
from soapbench.bench.words import listed
from soapbench.science.words import say


def check_done(asked: Asked) -> None:
    prompt = asked.prompt
    if not isinstance(asked.payload, Done) or prompt is None:
        return
    check_lye_may_be_made(asked)
    if prompt.key == COMBINE:
        _check_ready_to_combine(asked)
    if prompt.phase in ("portions", "pour", "rest", "cut"):
        _check_batter(asked)
    if prompt.phase in ("rest", "cut"):
        _check_poured(asked)
    if prompt.phase == "cure" and asked.state.cut is None:
        raise Refused(say("First count and weigh the bars."))
    if prompt.key == TEST and must_be_tested(asked):
        raise Refused(say("This batch is, was or may be lye-heavy. A test is needed, not only a tick."))


def must_be_tested(asked: Asked) -> bool:
    return needs_test(asked.state)


def needs_test(state: RunState) -> bool:
    """Return whether the batch is, was or may be lye-heavy, or failed its last test."""
    may_be = state.superfat is not None and state.superfat.lye_heavy_possible
    return may_be or state.needs_test or bool(state.tests and not state.tests[-1].payload["passed"])


def _check_ready_to_combine(asked: Asked) -> None:
    if not asked.state.lye_made:
        raise Refused(say("There is no lye yet. First add the alkali to the water."))
    missing = asked.missing("fat")
    if missing:
        raise Refused(say("First weigh every fat, or say that it is left out: {missing}.", missing=listed(missing)))
    if POT_CHECK not in asked.state.done:
        raise Refused(say("First weigh the pot of fats: did everything go in?"))


def _check_batter(asked: Asked) -> None:
    if not asked.state.is_combined:
        raise Refused(say("There is no batter yet. First pour the lye into the fats."))


def _check_poured(asked: Asked) -> None:
    open_pours = [p.title for p in asked.book.plan.prompts if p.phase == "pour" and p.key not in asked.state.done]
    if open_pours:
        raise Refused(say("Not poured yet: {open_pours}.", open_pours=open_pours[0]))


def _check_firmness(payload: Looked | FirmnessChecked) -> None:
    if isinstance(payload, FirmnessChecked) and payload.is_firm and payload.crumbles:
        raise Refused(say("A loaf that crumbles is not firm. Choose one of the two."), "is_firm")


def check_pot(asked: Asked) -> None:
    """Refuse a pot check before the last fat, and a trace or a drawing before there is batter."""
    if isinstance(asked.payload, PotChecked):
        missing = asked.missing("fat")
        if missing:
            raise Refused(say("First weigh every fat, or say that it is left out: {missing}.", missing=listed(missing)))
        if asked.payload.mass_g == 0:
            raise Refused(say("The pot with its fats weighs more than 0 g. Type what the scale shows."), "mass_g")
    if isinstance(asked.payload, Looked | FirmnessChecked):
        _check_batter(asked)
        _check_poured(asked)
        _check_firmness(asked.payload)
    if isinstance(asked.payload, TraceSeen | RestTested):
        _check_batter(asked)
    if isinstance(asked.payload, Drawn):
        _check_batter(asked)
        _check_poured(asked)
