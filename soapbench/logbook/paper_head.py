"""The top of the first page, and the lines to sign at the end."""

from __future__ import annotations

from typing import Any

from django.utils.html import escape
from django.utils.translation import gettext as _
from reportlab.lib.units import mm
from reportlab.platypus import KeepTogether, Paragraph, Spacer, Table

from soapbench.logbook.blocks import Glance, Record
from soapbench.logbook.paper_styles import BODY, CODE, FIGURE, HEADING, LETTERS, LINE, SMALL, TITLE, TONES
from soapbench.science.words import mark

FLUSH = [
    LETTERS,
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
]
# What each signature means: 21 CFR 11.50 asks for name, date and meaning; not binding here, good practice.
SHARES = (0.31, 0.02, 0.24, 0.02, 0.25, 0.02, 0.14)
MEANINGS = (mark("Made as written here"), mark("Checked by a second person"), mark("Read in full before the decision"))


def head(record: Record, width: float) -> list[Any]:
    """Return the name of the bar, the batch code, the workshop, and the few figures that are looked for first."""
    left = [Paragraph(escape(record.bar), TITLE), Paragraph(escape(_subtitle(record)), BODY)]
    right = [Paragraph(escape(record.code), CODE), Paragraph(escape(record.status), _right(BODY))]
    top = Table([[left, right]], colWidths=[width * 0.66, width * 0.34], style=FLUSH)
    return [top, Spacer(1, 3 * mm), _glances(record, width), Spacer(1, 3 * mm)]


def _subtitle(record: Record) -> str:
    return _("Batch record · %(workshop)s · %(made_on)s") % {"workshop": record.workshop, "made_on": record.made_on}


def _right(style: Any) -> Any:
    return style.clone(f"{style.name}-right", alignment=CODE.alignment)


def _glances(record: Record, width: float) -> Any:
    if not record.glances:
        return Spacer(1, 0)
    cells = [_glance(one) for one in record.glances]
    made = Table([cells], colWidths=[width / len(cells)] * len(cells))
    made.setStyle([*FLUSH, ("LINEABOVE", (0, 0), (-1, 0), 0.8, LINE), ("LINEBELOW", (0, 0), (-1, 0), 0.8, LINE)])
    made.setStyle([("TOPPADDING", (0, 0), (-1, -1), 4), ("BOTTOMPADDING", (0, 0), (-1, -1), 5)])
    return made


def _glance(one: Glance) -> list[Any]:
    style = FIGURE.clone(f"figure-{one.tone}", textColor=TONES[one.tone])
    note = [Paragraph(escape(one.note), SMALL)] if one.note else []
    return [Paragraph(escape(one.name), SMALL), Paragraph(escape(one.value), style), *note]


def signatures(record: Record, width: float) -> list[Any]:
    """Return the lines to sign, each with what the signature means; never parted by the end of a page."""
    names = (record.author, "", "")
    rows = [_signed([Paragraph(escape(each), SMALL) for each in _columns()])]
    rows += [_signed([*_line(_(meaning), name), "", ""]) for meaning, name in zip(MEANINGS, names, strict=True)]
    made = Table(rows, colWidths=[width * share for share in SHARES], rowHeights=[None, *[12 * mm] * len(names)])
    made.setStyle([*FLUSH, ("VALIGN", (0, 0), (-1, -1), "BOTTOM"), ("BOTTOMPADDING", (0, 0), (-1, -1), 3)])
    made.setStyle([("LINEBELOW", (column, 1), (column, -1), 0.8, LINE) for column in (2, 4, 6)])
    return [KeepTogether([Paragraph(escape(_("Signatures")), HEADING), made])]


def _columns() -> tuple[str, ...]:
    return _("Meaning"), _("Name"), _("Signature"), _("Date")


def _line(meaning: str, name: str) -> list[Any]:
    return [Paragraph(escape(_(meaning)), BODY), Paragraph(escape(name), BODY)]


def _signed(cells: list[Any]) -> list[Any]:
    """Return the cells with a gap between any two, so that each line to sign stands by itself."""
    return [part for cell in cells for part in (cell, "")][:-1]
