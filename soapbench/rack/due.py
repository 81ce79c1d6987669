"""What is due on the rack, and when: from the columns of the runs, without reading their plans."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal
from uuid import UUID

from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bench.folding.book import CURE, CUT, FIRM, RELEASE, TEST
from soapbench.bench.models import Event, Run
from soapbench.rack.words import clock, day, day_and_clock, span
from soapbench.workshop.models import Workshop

Stand = Literal["overdue", "now", "later"]

BETWEEN_WEIGHINGS = timedelta(days=7)  # common practice, no source
STANDS: dict[Stand, str | Promise] = {
    "overdue": gettext_lazy("Overdue"),
    "now": gettext_lazy("Due now"),
    "later": gettext_lazy("Later"),
}
# What a prompt asks for at the rack; the others say it with their own title.
ACTS: dict[str, str | Promise] = {
    "rest": gettext_lazy("Press the loaf: is it firm?"),
    FIRM: gettext_lazy("Press the loaf: is it firm?"),
    "unmould": gettext_lazy("Unmould the loaf"),
    "cut-wait": gettext_lazy("Cut the loaf"),
    CUT: gettext_lazy("Cut the loaf"),
    TEST: gettext_lazy("Test a bar"),
    RELEASE: gettext_lazy("Release or reject the bars"),
}


@dataclass(frozen=True)
class DueLine:
    """One loaf or one batch of bars, what it waits for, and since when or until when."""

    run: Run
    act: str
    due_at: datetime | None  # None: now
    stand: Stand
    when: str
    detail: str = ""

    @property
    def may_burn(self) -> bool:
        """Return whether the batch counts as lye-heavy."""
        return self.run.superfat_central is not None and self.run.superfat_central < 0


@dataclass(frozen=True)
class DueGroup:
    title: str | Promise
    stand: Stand
    lines: tuple[DueLine, ...]


def due_groups(workshop: Workshop, now: datetime) -> tuple[DueGroup, ...]:
    """Return what rests and cures in a workshop, overdue first, in two queries."""
    runs = list(Run.objects.seen_by(workshop).on_the_rack().select_related("bar").defer("plan_document"))
    lines = due_lines(runs, last_weighings(runs), now)
    groups = (
        DueGroup(title, stand, tuple(line for line in lines if line.stand == stand)) for stand, title in STANDS.items()
    )
    return tuple(group for group in groups if group.lines)


def due_lines(runs: Iterable[Run], weighed: Mapping[UUID, datetime], now: datetime) -> list[DueLine]:
    """Return one line a run, the longest overdue first."""
    order = list(STANDS)
    lines = [_line(run, weighed.get(run.pk), now) for run in runs]
    return sorted(lines, key=lambda line: (order.index(line.stand), line.due_at or now, line.run.code))


def last_weighings(runs: Iterable[Run]) -> dict[UUID, datetime]:
    """Return when the bars of each run were last weighed, the cut included, by the run's id; in one query."""
    keys = [run.pk for run in runs if run.prompt == CURE]
    kinds = ("cut", "cure-weighed", "took-back")
    events = Event.objects.filter(run__in=keys, kind__in=kinds)
    rows = list(events.values_list("run", "id", "kind", "payload__event", "happened_at"))
    withdrawn = {named for _run, _id, kind, named, _at in rows if kind == "took-back"}
    found: dict[UUID, datetime] = {}
    for run, event, kind, _named, at in rows:
        if kind != "took-back" and str(event) not in withdrawn:
            found[run] = max(at, found.get(run, at))
    return found


def _line(run: Run, weighed_at: datetime | None, now: datetime) -> DueLine:
    if run.prompt == CURE and weighed_at is not None:
        return _curing(run, weighed_at, now)
    act = str(ACTS.get(run.prompt, run.prompt_title))
    best = _("best by %s") % day_and_clock(run.due_until) if run.due_until else ""
    return DueLine(run, act, run.due_at, stand_of(run.due_at, now), when(run.due_at, now), best)


def _curing(run: Run, weighed_at: datetime, now: datetime) -> DueLine:
    """Return the next weighing, or the end of the planned cure where that comes first and nobody has weighed since."""
    ends = run.due_at
    due = weighing_due(weighed_at, ends)
    act, detail = _("Weigh the marked bars"), ""
    if ends is not None and ends <= due:
        act = _("Weigh: are the bars cured?")
    elif ends is not None:
        detail = _("Cured by plan on %s") % day(ends)
    return DueLine(run, act, due, stand_of(due, now), when(due, now), detail)


def weighing_due(weighed_at: datetime, ends: datetime | None) -> datetime:
    """Return when the bars are weighed next: a week later, or at the planned end of the cure where that comes first."""
    due = weighed_at + BETWEEN_WEIGHINGS
    return ends if ends is not None and weighed_at < ends < due else due


def stand_of(due_at: datetime | None, now: datetime) -> Stand:
    """Return "overdue" from the day after, "now" on the day itself once its time has come."""
    if due_at is None:
        return "now"
    if due_at > now:
        return "later"
    return "overdue" if timezone.localdate(due_at) < timezone.localdate(now) else "now"


def when(due_at: datetime | None, now: datetime) -> str:
    """Return "now", "since 08:12", "3 days overdue" or "in 5 hours"."""
    stand = stand_of(due_at, now)
    if due_at is None:
        return _("now")
    if stand == "now":
        return _("since %s") % clock(due_at)
    return (_("in %s") if stand == "later" else _("%s overdue")) % span(due_at - now)
