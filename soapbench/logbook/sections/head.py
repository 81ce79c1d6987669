"""The head of a record: what was made, from which revision, by whom, when, with what."""

from __future__ import annotations

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.words import grams, listed, percent
from soapbench.logbook.blocks import Cell, Pairs, Section, Words
from soapbench.logbook.given import Given
from soapbench.rack.words import moment

SIZES = {
    "fats": later("%(fats)s of fats"),
    "bars": later("%(bars)d bars, so %(fats)s of fats"),
    "mould": later("the mould filled, so %(fats)s of fats"),
}


def head(given: Given) -> list[Section]:
    """Return the section that names the batch."""
    rows = [*_names(given), *_moments(given), *_equipment(given)]
    pairs = Pairs(tuple((name, Cell(value)) for name, value in rows if value))
    return [Section("head", _("The batch"), (*_invented(given), pairs))]


def _invented(given: Given) -> tuple[Words, ...]:
    if not given.plan.is_invented:
        return ()
    return (Words(_("Invented for the demo: no such batch was ever made."), "attention"),)


def _names(given: Given) -> list[tuple[str, str]]:
    plan = given.plan
    return [
        (_("Bar"), plan.bar),
        (_("Formula"), _("revision %d") % plan.revision),
        (_("Batch code"), given.code),
        (_("Workshop"), plan.workshop),
        (_("Where it stands"), given.status_word),
        (_("People"), listed(given.state.people) or given.made_by),
    ]


def _moments(given: Given) -> list[tuple[str, str]]:
    ended = given.state.ended
    return [
        (_("Planned"), _("%(when)s, by %(who)s") % {"when": moment(given.made_at), "who": given.made_by}),
        (_("Begun"), moment(given.state.started_at)),
        (_("Ended"), moment(ended.happened_at) if ended else ""),
        (_("All times"), timezone.get_current_timezone_name()),
    ]


def _equipment(given: Given) -> list[tuple[str, str]]:
    plan = given.plan
    said = {"bars": plan.size.bars, "fats": grams(plan.size.fats_g)}
    tares = [f"{name} {grams(tare)}" for name, tare in plan.tares.items()]
    scale = _("%(name)s, in steps of %(step)s") % {"name": plan.scale, "step": grams(plan.resolution_g)}
    return [
        (_("Size"), str(SIZES[plan.size.by]) % said),
        (_("Planned superfat"), percent(plan.planned_superfat)),
        (_("Scale"), scale),
        (_("Mould"), plan.mould),
        (_("Empty vessels"), ", ".join(tares)),
        (_("Room"), f"{plan.room_c:g} °C"),
        (_("Learnt from earlier batches"), " ".join(f"{each.sentence} ({each.runs})" for each in plan.learnt)),
    ]
