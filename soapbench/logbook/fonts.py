"""The letters of the PDF: DejaVu Sans covers Latin, Greek and Cyrillic; what a page uses of it is embedded."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from django.conf import settings
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

PLAIN, BOLD = "Record", "Record-Bold"
FILES = {PLAIN: "DejaVuSans.ttf", BOLD: "DejaVuSans-Bold.ttf"}


@cache
def register() -> None:
    """Read the two fonts once in the life of the process."""
    folder = Path(settings.BASE_DIR) / "static" / "fonts"
    for name, file in FILES.items():
        pdfmetrics.registerFont(TTFont(name, folder / file))
    pdfmetrics.registerFontFamily(PLAIN, normal=PLAIN, bold=BOLD, italic=PLAIN, boldItalic=BOLD)
