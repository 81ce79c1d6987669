"""How the bars of a run dry: their weighings, the curve through them, the day they are ready, the mass to sell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.to_science import WATER
from soapbench.bench.ids import new_id
from soapbench.bench.plan import Line, Plan
from soapbench.bench.state import Fact, RunState
from soapbench.bench.words import grams, percent
from soapbench.rack.chart import Chart
from soapbench.rack.drying_chart import drying_chart
from soapbench.rack.words import day
from soapbench.science.cure import CureFit, Weighed, day_loss_below, expected_mass, fit_drying, label_mass_g
from soapbench.science.cure import water_at_pour as share_of_water
from soapbench.science.errors import OutOfRange
from soapbench.science.interval import Interval

DAY = timedelta(days=1)
WEEK = 7
FRESH_DAYS = 2.0  # a first weighing within these stands for the fresh bars; own choice
USUAL_MM = 25.0  # of a bar whose thickness the formula does not say; common practice
TAKE_BACK = gettext_lazy("If a weighing is mistyped, take it back below and enter it again.")


@dataclass(frozen=True)
class WeighingRow:
    """One weighing of the marked bars; the loss is counted from the same bars fresh."""

    event: str  # "" for the cut
    at: datetime
    day: float  # since the cut
    bars: int
    mass_g: float
    loss: float  # a fraction
    person: str
    is_odd: bool = False
    week_g: float | None = None  # lost by one bar in a week, since the weighing before that is not odd

    @property
    def each_g(self) -> float:
        return self.mass_g / self.bars

    @property
    def take_back_id(self) -> str:
        return new_id()

    @property
    def each_said(self) -> str:
        return grams(round(self.each_g, 1))

    @property
    def loss_said(self) -> str:
        return percent(self.loss)

    @property
    def week_said(self) -> str:
        return "" if self.week_g is None else f"{self.week_g:.1f}".replace("-", "−")


@dataclass(frozen=True)
class Ready:
    """The days between which the bars are likely to be ready (95 %), the likeliest, and the planned one."""

    planned: date
    low: date | None = None
    likely: date | None = None
    high: date | None = None

    @property
    def sentence(self) -> str:
        if self.likely is None:
            return _("By the plan. Two weighings a week apart will tell more.")
        words = {"low": day(self.low), "high": day(self.high), "planned": day(self.planned)}
        return _("By the weighings, between %(low)s and %(high)s (95 %%). By the plan %(planned)s.") % words

    @property
    def best(self) -> date:
        return self.likely or self.planned


@dataclass(frozen=True)
class Sale:
    """What one bar is expected to weigh on the day it is sold, with its 95 % band, and a net mass for the label."""

    on: date
    each_g: Interval
    label_g: int


@dataclass(frozen=True)
class Cure:
    cut_at: datetime
    rows: tuple[WeighingRow, ...]
    ready: Ready
    remark: str
    fit: CureFit | None  # None where the weighings cannot be true together
    chart: Chart | None

    def sale(self, on: date) -> Sale | None:
        """Return what a bar will weigh on a day, or None where there is no curve, or the day is before the cut."""
        since = (on - timezone.localdate(self.cut_at)).days
        if self.fit is None or since < self.fit.start_day:
            return None
        return Sale(on, expected_mass(self.fit, since), label_mass_g(self.fit, since))


def cure_of(plan: Plan, state: RunState, facts: Sequence[Fact]) -> Cure | None:
    """Return how the bars have dried so far, or None before the cut."""
    if state.cut is None:
        return None
    cut_at: datetime = state.cut["at"]
    rows = weighing_rows(state, facts)
    marked = _marked(rows)
    planned = timezone.localdate(cut_at + plan.formula.process.cure_days * DAY)
    points = [Weighed(row.day, row.each_g) for row in marked]
    thickness = plan.formula.cut.thickness_mm or USUAL_MM
    try:
        fit = fit_drying(points, water_at_pour(plan, state), plan.resolution_g, thickness)
    except OutOfRange as error:
        return Cure(cut_at, rows, Ready(planned), f"{error} {TAKE_BACK}", None, None)
    odd = {marked[position].event for position in fit.odd_weighings} - {""}
    rows = _with_weeks([replace(row, is_odd=row.event in odd) for row in rows])
    level = day_loss_below(fit)
    chart = drying_chart(fit, points, level)
    return Cure(cut_at, rows, _ready(planned, cut_at, level), _remark(fit, rows), fit, chart)


def weighing_rows(state: RunState, facts: Sequence[Fact]) -> tuple[WeighingRow, ...]:
    """Return the cut and the weighings that count, oldest first."""
    cut = state.cut
    assert cut is not None
    by = next((fact.person for fact in facts if fact.id == cut["event"]), "")
    rows = [WeighingRow("", cut["at"], 0.0, cut["bars"], float(cut["mass_g"]), 0.0, by)]
    counted = (fact for fact in facts if fact.kind == "cure-weighed" and fact.id not in state.withdrawn)
    for fact in sorted(counted, key=lambda fact: fact.happened_at):
        rows.append(_row(fact, rows))
    return tuple(rows)


def _row(fact: Fact, before: Sequence[WeighingRow]) -> WeighingRow:
    bars, mass = fact.payload["bars"], float(fact.payload["mass_g"])
    since = max(0.0, (fact.happened_at - before[0].at) / DAY)
    same = [row for row in before[1:] if row.bars == bars]
    is_fresh = not same and since <= FRESH_DAYS
    fresh = same[0] if same and same[0].day <= FRESH_DAYS else before[0]
    loss = 0.0 if is_fresh else 1 - mass / bars / fresh.each_g
    return WeighingRow(fact.id, fact.happened_at, since, bars, mass, loss, fact.person)


def _with_weeks(rows: Sequence[WeighingRow]) -> tuple[WeighingRow, ...]:
    """Return the rows with what one bar lost in a week, where a day or more lies between two of the same bars."""
    last: dict[int, WeighingRow] = {}
    found = []
    for row in rows:
        before = last.get(row.bars, rows[0])
        gap = row.day - before.day
        if gap >= 1 and not row.is_odd:
            row = replace(row, week_g=(before.each_g - row.each_g) / gap * WEEK)
        if not row.is_odd:
            last[row.bars] = row
        found.append(row)
    return tuple(found)


def _marked(rows: Sequence[WeighingRow]) -> tuple[WeighingRow, ...]:
    """Return the weighings of the bars that were weighed last.

    Where these bars were not weighed fresh, the mean of all bars at the cut stands for their first weighing.
    """
    same = [row for row in rows[1:] if row.bars == rows[-1].bars]
    return tuple(same) if same and same[0].day <= FRESH_DAYS else (rows[0], *same)


def water_at_pour(plan: Plan, state: RunState) -> float:
    """Return the share of water in the fresh batter, by what was weighed."""
    carried = (line for line in plan.in_group("carrier") if line.material == WATER)
    lines = (*plan.in_group("water", "liquid"), *carried)
    water = sum(_mass(line, state) * _water_in(line, plan) for line in lines)
    batter = state.batter_g or plan.size.batter_g
    return share_of_water(min(water, batter), batter)


def _mass(line: Line, state: RunState) -> float:
    weight = state.weights.get(line.key)
    return weight.mass_g if weight else line.planned_g


def _water_in(line: Line, plan: Plan) -> float:
    fact = plan.materials.get(line.material)
    return fact.water_fraction if fact and line.group == "liquid" else 1.0


def _ready(planned: date, cut_at: datetime, level: Interval | None) -> Ready:
    if level is None:
        return Ready(planned)
    low, likely, high = (timezone.localdate(cut_at + days * DAY) for days in (level.low, level.central, level.high))
    return Ready(planned, low, likely, high)


def _remark(fit: CureFit, rows: Sequence[WeighingRow]) -> str:
    if len(rows) > 1:
        return fit.sentence
    return _("Mark some bars and weigh them now, then once a week, always the same ones.")
