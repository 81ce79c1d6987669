"""The record on paper: the same sections as on the screen, set for A4 or US letter."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from django.utils.html import escape
from django.utils.translation import get_language
from django.utils.translation import gettext as _
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.platypus import BaseDocTemplate, CondPageBreak, Frame, KeepTogether, PageTemplate, Paragraph, Spacer

from soapbench.logbook.blocks import Record, Section
from soapbench.logbook.fonts import register
from soapbench.logbook.paper_blocks import flowables
from soapbench.logbook.paper_head import head, signatures
from soapbench.logbook.paper_pages import NumberedCanvas
from soapbench.logbook.paper_styles import HEADING, SMALL
from soapbench.science.words import mark

PAPERS = {"a4": A4, "letter": LETTER}
SIDE, ABOVE, BELOW = 16 * mm, 15 * mm, 19 * mm
HEADING_ROOM = 30 * mm  # a heading, the head of a table, and a row
NOT_INSTEAD = mark(
    "Raw lye and raw batter burn skin and can blind. This record does not replace the safety data sheets of your"
    " materials, the rules where you live, or the advice of those who are licensed to give it."
)


class Sheet(BaseDocTemplate):  # type: ignore[misc]  # ReportLab ships no types
    """A document whose headings become bookmarks."""

    def afterFlowable(self, flowable: Any) -> None:
        if isinstance(flowable, Paragraph) and flowable.style is HEADING:
            text, key = flowable.getPlainText(), f"section-{id(flowable)}"
            self.canv.bookmarkPage(key)
            self.canv.addOutlineEntry(text, key, 0)


def as_pdf(record: Record, paper: str = "a4") -> bytes:
    """Return the record as PDF: fonts embedded, pages numbered, bookmarks, title, author and subject set."""
    register()
    buffer = BytesIO()
    sheet = _sheet(buffer, record, PAPERS[paper])
    story = [*head(record, sheet.width), Paragraph(escape(_(NOT_INSTEAD)), SMALL), Spacer(1, 2 * mm)]
    for section in record.sections:
        story += _section(section, sheet.width)
    story += signatures(record, sheet.width)
    sheet.build(story, canvasmaker=_canvas(record))
    return buffer.getvalue()


def _sheet(buffer: BytesIO, record: Record, size: tuple[float, float]) -> Sheet:
    sheet = Sheet(
        buffer,
        pagesize=size,
        leftMargin=SIDE,
        rightMargin=SIDE,
        topMargin=ABOVE,
        bottomMargin=BELOW,
        title=_("Batch record %(code)s, %(bar)s") % {"code": record.code, "bar": record.bar},
        author=record.author,
        subject=_("Batch record of %s") % record.workshop,
        creator="soapbench",
        lang=get_language() or "en",
        initialFontName="Record",
    )
    frame = Frame(SIDE, BELOW, sheet.width, sheet.height, 0, 0, 0, 0, id="page")
    sheet.addPageTemplates(PageTemplate("page", frames=[frame], pagesize=size))
    return sheet


def _section(section: Section, width: float) -> list[Any]:
    """Return a section whose heading never stands alone at the foot of a page."""
    parts = [part for block in section.blocks for part in flowables(block, width)]
    if not parts:
        return []
    heading, first, rest = Paragraph(escape(section.title), HEADING), parts[0], parts[1:]
    if isinstance(first, KeepTogether):  # a chart is never torn apart, and takes its heading with it
        return [KeepTogether([heading, first]), *rest]
    return [CondPageBreak(HEADING_ROOM), heading, first, *rest]


def _canvas(record: Record) -> Any:
    def make(*args: Any, **more: Any) -> NumberedCanvas:
        return NumberedCanvas(*args, record=record, **more)

    return make
