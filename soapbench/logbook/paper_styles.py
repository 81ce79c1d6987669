"""Type, colours and rules of the record on paper. Grey tones print well without colour; no tone stands alone."""

from __future__ import annotations

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle

from soapbench.logbook.fonts import BOLD, PLAIN

INK, SOFT, LINE, PALE = (HexColor(each) for each in ("#17211e", "#43504b", "#7f8a84", "#d5d6cb"))
TONES = {
    "": INK,
    "good": HexColor("#0d4a2a"),
    "attention": HexColor("#5c3500"),
    "stop": HexColor("#7d1010"),
}
GROUNDS = {
    "good": HexColor("#eef7f0"),
    "attention": HexColor("#fdf4de"),
    "stop": HexColor("#fbece9"),
}

BODY = ParagraphStyle("body", fontName=PLAIN, fontSize=8.5, leading=11.5, textColor=INK, splitLongWords=True)
STRONG = ParagraphStyle("strong", BODY, fontName=BOLD)
SMALL = ParagraphStyle("small", BODY, fontSize=7, leading=9.2, textColor=SOFT)
TITLE = ParagraphStyle("title", BODY, fontName=BOLD, fontSize=19, leading=23)
CODE = ParagraphStyle("code", BODY, fontName=BOLD, fontSize=12, leading=16, alignment=TA_RIGHT)
HEADING = ParagraphStyle("heading", BODY, fontName=BOLD, fontSize=11, leading=14, spaceBefore=9, spaceAfter=3)
CELL = ParagraphStyle("cell", BODY, fontSize=7.5, leading=9.4)
NUMBER = ParagraphStyle("number", CELL, alignment=TA_RIGHT)
COLUMN = ParagraphStyle("column", CELL, fontName=BOLD, textColor=SOFT)
NUMBER_COLUMN = ParagraphStyle("number-column", COLUMN, alignment=TA_RIGHT)
FIGURE = ParagraphStyle("figure", BODY, fontName=BOLD, fontSize=12, leading=15)
NOTE_SIZE = 6.5
# Every table names its letters: ReportLab would set Helvetica, which is not embedded, even where no word stands.
LETTERS = ("FONTNAME", (0, 0), (-1, -1), PLAIN)
