"""Rules on the bars: cut, cure, test, and who may let them go."""

from __future__ import annotations

from soapbench.bench.folding.book import CURE
from soapbench.bench.kinds import CureWeighed, Cut, Rejected, Released, Stopped, Tested
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.lye import must_be_tested
from soapbench.bench.rules.words import Asked
from soapbench.science.words import say

HIGHEST_PH = 11.0  # EU Cosmetics Regulation 1223/2009, Annex III entry 15a, taken as our own limit


def check_bars(asked: Asked) -> None:
    payload, state = asked.payload, asked.state
    if isinstance(payload, Cut):
        open_pours = [p for p in asked.book.plan.prompts if p.phase == "pour" and p.key not in state.done]
        if not state.is_combined or open_pours:
            raise Refused(say("There is no loaf to cut yet."), "bars")
        if payload.bars == 0 or payload.mass_g == 0:
            raise Refused(say("Type how many bars there are and what they weigh together."), "bars")
    if isinstance(payload, CureWeighed | Tested) and state.cut is None:
        raise Refused(say("First count and weigh the bars."), "bars")
    if isinstance(payload, CureWeighed):
        _check_count(asked, payload.bars)
        if payload.mass_g == 0:
            raise Refused(say("Type what the marked bars weigh together."), "mass_g")
    if isinstance(payload, Tested) and payload.method.startswith("pH"):
        _check_ph(payload)


def _check_ph(test: Tested) -> None:
    if test.value > 14:
        raise Refused(say("A pH lies between 0 and 14. Read the meter again."), "value")
    if test.passed and test.value > HIGHEST_PH:
        raise Refused(say("Above pH 11 a bar has not passed."), "passed")


def _check_count(asked: Asked, bars: int) -> None:
    cut = asked.state.cut
    if cut is not None and bars > cut["bars"]:
        raise Refused(say("Only {cut} bars were cut.", cut=cut["bars"]), "bars")


def check_ending(asked: Asked) -> None:
    payload, state = asked.payload, asked.state
    if isinstance(payload, Released | Rejected) and state.cut is None:
        raise Refused(say("There are no bars yet. To give the batch up, stop it."))
    if isinstance(payload, Released):
        _check_release(asked, payload)
    if isinstance(payload, Stopped):
        _check_stop(asked, payload)


def _check_stop(asked: Asked, stop: Stopped) -> None:
    if asked.state.cut is not None and CURE in asked.state.done:
        raise Refused(say("The bars are cured. Release or reject them."))
    if not stop.steps and not stop.made_safe.strip():
        raise Refused(say("Tick what was made safe, or write how it was made safe."), "made_safe")


def _check_release(asked: Asked, release: Released) -> None:
    _check_count(asked, release.bars)
    if CURE not in asked.state.done:
        raise Refused(say("The bars are still curing. Close the cure first."))
    tests = asked.state.tests
    if must_be_tested(asked) and not (tests and tests[-1].payload["passed"]):
        raise Refused(say("This batch is, was or may be lye-heavy, or failed its test. It needs a passed test first."))
