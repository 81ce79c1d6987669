"""What the page of one loaf or batch shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _

from soapbench.bench.cut_words import CutScreen, cut_screen, prompt_title, way_words
from soapbench.bench.folding.book import CUT
from soapbench.bench.ids import new_id
from soapbench.bench.models import Run
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.plan import Caution, Plan
from soapbench.bench.run import fold
from soapbench.bench.state import Fact, RunState
from soapbench.bench.words import grams, percent
from soapbench.rack.acts import Act, acts
from soapbench.rack.cure import Cure, Sale, cure_of
from soapbench.rack.forms import ActForm, SoldForm
from soapbench.rack.release import Check, checks, ph_rule, said, waits_for_test
from soapbench.rack.resting import Resting, resting
from soapbench.rack.waits import Wait, waits_of
from soapbench.rack.words import moment, until

BEFORE_THE_RACK = "bench"


@dataclass(frozen=True)
class TestRow:
    event: str
    when: str
    said: str
    passed: bool
    note: str
    person: str

    @property
    def take_back_id(self) -> str:
        return new_id()


@dataclass(frozen=True)
class CutResult:
    bars: int
    planned: int
    mass: str
    each: str
    offcuts: str
    way: str
    of_batter: str
    when: str


@dataclass(frozen=True)
class RunPage:
    state: RunState
    title: str
    detail: str
    due: str
    cautions: tuple[Caution, ...]
    resting: Resting | None
    cut: CutResult | None
    how_to_cut: CutScreen | None  # while the loaf waits to be cut
    cure: Cure | None
    sale: Sale | None
    sold: SoldForm | None
    tests: tuple[TestRow, ...]
    checks: tuple[Check, ...]
    must_test: bool
    ph_rule: str
    acts: tuple[Act, ...]
    waits: tuple[Wait, ...]
    decision: str
    is_at_the_bench: bool
    refused: ActForm | None

    @property
    def is_at_the_cut(self) -> bool:
        return self.how_to_cut is not None and self.state.current == CUT


def run_page(run: Run, facts: Sequence[Fact], sent: ActForm | None, asked: QueryDict | None = None) -> RunPage:
    """Return the page of a run: folded anew, the form that was refused in its place.

    Args:
        asked: the day of the sale as it was asked for, None for the usual one.
    """
    plan = run.plan
    state = fold(plan, facts)
    prompt = plan.prompt(state.current) if state.current else None
    at_bench = state.status == BEFORE_THE_RACK
    cure = cure_of(plan, state, facts)
    sold = _sold(cure, asked) if cure else None
    return RunPage(
        state=state,
        title=prompt_title(plan, state, prompt) if prompt else "",
        detail=prompt.detail if prompt else "",
        due=_due(state),
        cautions=prompt.cautions if prompt else (),
        resting=resting(state),
        cut=cut_result(plan, state),
        how_to_cut=cut_screen(Loaf(plan, state)) if _waits_for_cut(state) else None,
        cure=cure,
        sale=cure.sale(sold.on) if cure and sold else None,
        sold=sold,
        tests=tuple(_test_row(test) for test in state.tests),
        checks=checks(state) if state.cut and not state.ended else (),
        must_test=waits_for_test(state) and state.ended is None,
        ph_rule=ph_rule(),
        waits=waits_of(plan, state),
        acts=() if at_bench else acts(plan, state, sent),
        decision=decision(state),
        is_at_the_bench=at_bench,
        refused=sent if sent and sent.name == "take-back" else None,
    )


def _waits_for_cut(state: RunState) -> bool:
    return state.status == "resting" and state.cut is None


def _sold(cure: Cure, asked: QueryDict | None) -> SoldForm:
    usual = max(cure.ready.best, timezone.localdate())
    return SoldForm(asked, cut_on=timezone.localdate(cure.cut_at), usual=usual)


def cut_result(plan: Plan, state: RunState) -> CutResult | None:
    """Return the bars of the cut beside the planned ones, and how much of the batter they are."""
    if state.cut is None:
        return None
    bars, mass = int(state.cut["bars"]), float(state.cut["mass_g"])
    batter = state.batter_g or plan.size.batter_g
    return CutResult(
        bars=bars,
        planned=plan.size.bars,
        mass=grams(mass),
        each=grams(round(mass / bars, 1)),
        offcuts=grams(float(state.cut["offcuts_g"])),
        way=way_words(state.cut["way"]),
        of_batter=percent(mass / batter) if batter else "",
        when=moment(state.cut["at"]),
    )


def _due(state: RunState) -> str:
    if state.due_at is None:
        return ""
    return f"{until(state.due_at, timezone.now())} · {moment(state.due_at)}"


def _test_row(test: Fact) -> TestRow:
    note = str(test.payload.get("note") or "")
    return TestRow(test.id, moment(test.happened_at), said(test), bool(test.payload["passed"]), note, test.person)


def decision(state: RunState) -> str:
    """Return who decided what, when and why; "" while nobody has."""
    ended = state.ended
    if ended is None:
        return ""
    words = {"person": ended.person, "when": moment(ended.happened_at), "bars": ended.payload.get("bars", 0)}
    why = ended.payload.get("reason") or ended.payload.get("note") or ""
    made_safe = ended.payload.get("made_safe") or ""
    sentence = {
        "released": _("%(person)s released %(bars)s bars on %(when)s."),
        "rejected": _("%(person)s rejected the bars on %(when)s."),
        "stopped": _("%(person)s gave the batch up on %(when)s."),
    }[ended.kind]
    return " ".join(part for part in (sentence % words, why, made_safe) if part)
