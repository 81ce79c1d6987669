"""How the bars dried: the weighings, the curve through them, and the day on which they are ready."""

from __future__ import annotations

from django.utils.translation import gettext as _

from soapbench.bench.words import grams
from soapbench.logbook.blocks import Block, Cell, Column, Curve, Pairs, Table
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, signed, signed_percent
from soapbench.rack.cure import Cure, WeighingRow, cure_of
from soapbench.rack.words import day


def cure(given: Given) -> tuple[Block, ...]:
    """Return the drying of the bars, or nothing before the first weighing after the cut."""
    found = cure_of(given.plan, given.state, given.facts)
    if found is None or len(found.rows) < 2:
        return ()
    columns = (
        Column(_("Weighed"), 1.2),
        Column(_("Bars"), 0.7, is_number=True),
        Column(_("Together"), is_number=True),
        Column(_("A bar"), is_number=True),
        Column(_("Since the first"), 1.2, is_number=True),
        Column(_("A bar in a week"), 1.1, is_number=True),
        Column(_("By"), 1.2),
    )
    curve = (Curve(found.chart),) if found.chart else ()
    return (*curve, Table(columns, tuple(_row(row) for row in found.rows)), Pairs(_ready(found)))


def _row(row: WeighingRow) -> tuple[Cell, ...]:
    odd = _("does not fit the others") if row.is_odd else ""
    return (
        Cell(short_moment(row.at), odd, "attention" if odd else ""),
        Cell(str(row.bars)),
        Cell(grams(row.mass_g)),
        Cell(row.each_said),
        Cell(signed_percent(-row.loss) if row.event else ""),
        Cell("" if row.week_g is None else signed(round(-row.week_g, 1))),
        Cell(row.person),
    )


def _ready(found: Cure) -> tuple[tuple[str, Cell], ...]:
    ready = (_("Ready"), Cell(day(found.ready.best), found.ready.sentence))
    return (ready, (_("Curve"), Cell(found.remark))) if found.remark else (ready,)
