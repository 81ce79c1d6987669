"""Each kind of block of a record as ReportLab sets it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.utils.html import escape
from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, Image, KeepTogether, Paragraph, Spacer, Table, TableStyle

from soapbench.logbook import blocks
from soapbench.logbook.paper_chart import drawing
from soapbench.logbook.paper_seal import SealBox
from soapbench.logbook.paper_styles import (
    BODY,
    CELL,
    COLUMN,
    GROUNDS,
    LETTERS,
    LINE,
    NOTE_SIZE,
    NUMBER,
    NUMBER_COLUMN,
    PALE,
    SMALL,
    SOFT,
    STRONG,
    TONES,
)
from soapbench.logbook.paper_swatch import SwatchBox
from soapbench.science.words import say

TABLE = TableStyle(
    [
        LETTERS,
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 5),
        ("TOPPADDING", (0, 0), (-1, -1), 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, PALE),
    ]
)
HEADED = [("LINEBELOW", (0, 0), (-1, 0), 0.8, LINE), ("VALIGN", (0, 0), (-1, 0), "BOTTOM")]
SWATCH_MM = 7.0
CAPTION_ROOM = 20 * mm  # a caption, the head of a table, and a row
PHOTO_MM = 84.0
SEAL_MM = 32.0
CHART_MM = 112.0  # a curve need not fill the page


def flowables(block: blocks.Block, width: float) -> list[Flowable]:
    """Return a block as what platypus lays out."""
    if isinstance(block, blocks.Words):
        return [words(block, width), Spacer(1, 1.2 * mm)]
    if isinstance(block, blocks.Pairs):
        return [pairs(block, width), Spacer(1, 1.5 * mm)]
    if isinstance(block, blocks.Table):
        return [*_caption(block), table(block, width), Spacer(1, 2 * mm)]
    if isinstance(block, blocks.Figure):
        return [KeepTogether(figure(block, width)), Spacer(1, 2.5 * mm)]
    if isinstance(block, blocks.Code):
        return [
            KeepTogether([SealBox(block.text, SEAL_MM * mm), Paragraph(escape(block.caption), SMALL)]),
            Spacer(1, 2.5 * mm),
        ]
    sentence = Paragraph(escape(block.chart.sentence), SMALL)
    return [KeepTogether([drawing(block.chart, min(width, CHART_MM * mm)), sentence]), Spacer(1, 2.5 * mm)]


def figure(block: blocks.Figure, width: float) -> list[Flowable]:
    """Return a photo over its caption; of a voice note and of a file that is gone, the caption alone."""
    said = [Paragraph(escape(block.caption), BODY), Paragraph(escape(block.note), SMALL)]
    if block.what != "photo" or not block.path:
        return said
    image = Image(block.path, lazy=0)
    scale = min(min(width, PHOTO_MM * mm) / image.imageWidth, PHOTO_MM * mm / image.imageHeight)
    image.drawWidth, image.drawHeight = image.imageWidth * scale, image.imageHeight * scale
    image.hAlign = "LEFT"
    return [image, *said]


def words(block: blocks.Words, width: float) -> Flowable:
    """Return a sentence, in a box with a rule beside it where it should catch the eye."""
    if not block.tone:
        return Paragraph(escape(block.text), BODY)
    box = Table([[Paragraph(toned(block.text, block.tone), STRONG)]], colWidths=[width])
    box.setStyle(
        TableStyle(
            [
                LETTERS,
                ("BACKGROUND", (0, 0), (-1, -1), GROUNDS[block.tone]),
                ("LINEBEFORE", (0, 0), (0, -1), 2.5, TONES[block.tone]),
                ("TOPPADDING", (0, 0), (-1, -1), 3),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 4),
            ]
        )
    )
    return box


def pairs(block: blocks.Pairs, width: float) -> Flowable:
    rows = [[Paragraph(escape(name), COLUMN), cell(value, CELL)] for name, value in block.rows]
    return Table(rows, colWidths=[width * 0.24, width * 0.76], style=TABLE)


def table(block: blocks.Table, width: float) -> Flowable:
    """Return a table that repeats its head on every page it runs over."""
    head = [Paragraph(escape(one.title), NUMBER_COLUMN if one.is_number else COLUMN) for one in block.columns]
    body = [[cell(value, NUMBER if one.is_number else CELL) for one, value in line] for line in block.lines]
    made = Table([head, *body], colWidths=_widths(block.columns, width), repeatRows=1, style=TABLE)
    made.setStyle(TableStyle([*HEADED, *_gaps(block.columns)]))
    return made


def _gaps(columns: Sequence[blocks.Column]) -> list[Any]:
    """Return more room where words follow on a number."""
    pairs_of = enumerate(zip(columns, columns[1:], strict=False))
    after = [at for at, (left, right) in pairs_of if left.is_number and not right.is_number]
    return [("RIGHTPADDING", (at, 0), (at, -1), 14) for at in after]


def _widths(columns: Sequence[blocks.Column], width: float) -> list[float]:
    total = sum(column.share for column in columns)
    return [width * column.share / total for column in columns]


def _caption(block: blocks.Table) -> list[Flowable]:
    return [CondPageBreak(CAPTION_ROOM), Paragraph(escape(block.caption), SMALL)] if block.caption else []


def cell(value: blocks.Cell, style: Any) -> Any:
    """Return a cell: its words, the remark under them, and the portion's swatch before them."""
    text = toned(value.text, value.tone)
    if value.note:
        text += say(
            '<br/><font size="{NOTE_SIZE}" color="{hexval}">{broken}</font>',
            NOTE_SIZE=NOTE_SIZE,
            hexval=SOFT.hexval(),
            broken=_broken(value.note),
        )
    words = Paragraph(text, style)
    if value.swatch is None:
        return words
    return Table(
        [[SwatchBox(value.swatch, SWATCH_MM * mm), words]],
        colWidths=[(SWATCH_MM + 2) * mm, None],
        style=[LETTERS, ("LEFTPADDING", (0, 0), (-1, -1), 0), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")],
    )


def toned(text: str, tone: blocks.Tone) -> str:
    """Return words as ReportLab's own markup, in the colour of their tone and bold where they have one."""
    if not tone:
        return _broken(text)
    return f'<b><font color="{TONES[tone].hexval()}">{_broken(text)}</font></b>'


def _broken(text: str) -> str:
    return escape(text).replace("\n", "<br/>")
