"""The foot of every page: which batch, whether it is invented, page n of m."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from soapbench.logbook.blocks import Record
from soapbench.logbook.fonts import PLAIN
from soapbench.logbook.paper_styles import LINE, SOFT

SIDE, FOOT = 16 * mm, 10 * mm


class NumberedCanvas(Canvas):  # type: ignore[misc]  # ReportLab ships no types
    """A canvas that keeps its pages back until it knows how many there are."""

    def __init__(self, *args: Any, record: Record, **more: Any) -> None:
        super().__init__(*args, **more)
        self.record = record
        self.kept: list[dict[str, Any]] = []

    def showPage(self) -> None:
        self.kept.append(dict(self.__dict__))
        self._startPage()

    def save(self) -> None:
        for number, page in enumerate(self.kept, start=1):
            self.__dict__.update(page)
            self._foot(number, len(self.kept))
            super().showPage()
        super().save()

    def _foot(self, number: int, of: int) -> None:
        width, _height = self._pagesize
        self.setStrokeColor(LINE)
        self.setLineWidth(0.5)
        self.line(SIDE, FOOT + 4 * mm, width - SIDE, FOOT + 4 * mm)
        self.setFont(PLAIN, 7)
        self.setFillColor(SOFT)
        self.drawString(SIDE, FOOT, self._whose())
        page = _("Page %(number)d of %(of)d") % {"number": number, "of": of}
        self.drawRightString(width - SIDE, FOOT, page)

    def _whose(self) -> str:
        record = self.record
        invented = [_("invented for the demo")] if record.is_invented else []
        return " · ".join([record.code, record.bar, record.workshop, *invented])
