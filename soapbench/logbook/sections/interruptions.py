"""When work stood still, and when somebody rinsed off something caustic."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.state import Pause, Rinse
from soapbench.bench.words import minutes
from soapbench.logbook.blocks import Block, Cell, Column, Section, Table
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment

PLACES = {"eye": later("eye"), "skin": later("skin"), "": later("not said")}


def interruptions(given: Given) -> list[Section]:
    """Return the times of rinsing and the times away, the graver first; nothing where there was neither."""
    made = [
        Section("rinses", _("First aid"), _rinses(given)),
        Section("pauses", _("Interruptions"), _pauses(given)),
    ]
    return [section for section in made if section.blocks]


def _rinses(given: Given) -> tuple[Block, ...]:
    columns = (
        Column(_("Rinsed"), 1),
        Column(_("From"), 1.2),
        Column(_("How long"), is_number=True),
        Column(_("By"), 1),
    )
    rows = tuple(_rinse(rinse) for rinse in given.state.rinses)
    return (Table(columns, rows),) if rows else ()


def _rinse(rinse: Rinse) -> tuple[Cell, ...]:
    lasted = Cell(_("not ended"), tone="attention") if rinse.minutes is None else Cell(minutes(rinse.minutes))
    return Cell(str(PLACES[rinse.where])), Cell(short_moment(rinse.began)), lasted, Cell(rinse.person)


def _pauses(given: Given) -> tuple[Block, ...]:
    columns = (
        Column(_("From"), 1.1),
        Column(_("How long"), is_number=True),
        Column(_("At"), 1.6),
        Column(_("Then"), 1.3),
        Column(_("By"), 1),
    )
    rows = tuple(_pause(given, pause) for pause in given.state.pauses)
    return (Table(columns, rows),) if rows else ()


def _pause(given: Given, pause: Pause) -> tuple[Cell, ...]:
    prompt = next((each.title for each in given.plan.prompts if each.key == pause.prompt), "")
    lasted = _("on hold still") if pause.minutes is None else minutes(pause.minutes)
    return (
        Cell(short_moment(pause.since), pause.why),
        Cell(lasted),
        Cell(prompt),
        Cell(pause.checked),
        Cell(pause.person),
    )
