"""The batch record: a pure function of a run's plan, state and events. Screen and paper both show what this returns."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from soapbench.bench.words import percent
from soapbench.logbook.blocks import Glance, Record
from soapbench.logbook.given import Given
from soapbench.logbook.sections.bars import bars
from soapbench.logbook.sections.chemistry import chemistry, superfat_tone
from soapbench.logbook.sections.differences import differences
from soapbench.logbook.sections.head import head
from soapbench.logbook.sections.interruptions import interruptions
from soapbench.logbook.sections.making import making
from soapbench.logbook.sections.ready import ready
from soapbench.logbook.sections.times import times
from soapbench.logbook.sections.weighed import weighed
from soapbench.rack.words import day


def make_record(given: Given) -> Record:
    """Return the record of a run, in the order in which a batch is made; what has not happened yet is left out."""
    parts = (head, ready, weighed, chemistry, making, differences, interruptions, bars, times)
    return Record(
        code=given.code,
        bar=given.plan.bar,
        author=given.made_by,
        is_invented=given.plan.is_invented,
        made_on=day(given.state.started_at or given.made_at),
        workshop=given.plan.workshop,
        status=given.status_word,
        glances=_glances(given),
        sections=tuple(section for part in parts for section in part(given)),
    )


def _glances(given: Given) -> tuple[Glance, ...]:
    return (_bars(given), _superfat(given), _differences(given), _chain(given))


def _bars(given: Given) -> Glance:
    planned = given.plan.size.bars
    if given.state.cut is None:
        return Glance(_("Bars"), str(planned), _("planned, not cut yet"))
    return Glance(_("Bars"), str(given.state.cut["bars"]), _("cut; planned: %d") % planned)


def _superfat(given: Given) -> Glance:
    found = given.state.superfat
    if found is None:
        return Glance(_("Superfat"), percent(given.plan.planned_superfat), _("planned, not weighed yet"))
    ends = _("between %(low)s and %(high)s") % {"low": percent(found.low), "high": percent(found.high)}
    tone = superfat_tone(found)
    return Glance(_("Superfat"), percent(found.central), ends, "" if tone == "good" else tone)


def _differences(given: Given) -> Glance:
    count = given.state.deviations
    note = ngettext("thing differs from the plan", "things differ from the plan", count) if count else _("as planned")
    return Glance(_("Deviations"), str(count), note, "attention" if count else "")


def _chain(given: Given) -> Glance:
    count = len(given.facts)
    if given.broken:
        return Glance(_("Entries"), str(count), _("they do not hold together"), "stop")
    return Glance(_("Entries"), str(count), _("the chain is whole"))
