"""A chart of the rack as ReportLab draws it: the same shapes as on the screen, turned right side up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reportlab.graphics.shapes import Drawing, Polygon, PolyLine, String
from reportlab.lib.colors import Color, HexColor

from soapbench.logbook.fonts import PLAIN
from soapbench.rack.chart import Chart, Label, Stroke

INK, SOFT, LINE, MAIN, BROWN = (HexColor(each) for each in ("#17211e", "#43504b", "#7f8a84", "#0b4a46", "#5c3500"))
PALE, BAND, WHITE = HexColor("#d5d6cb"), HexColor("#dfe6e2"), HexColor("#ffffff")
WORDS_PT = 11.0  # in the units of the chart


@dataclass(frozen=True)
class Pen:
    stroke: Color | None
    width: float = 1.0
    dash: tuple[int, ...] | None = None
    fill: Color | None = None


PENS = {
    "grid": Pen(PALE, 0.8),
    "axis": Pen(LINE, 1.2),
    "band": Pen(None, fill=BAND),
    "line-first": Pen(MAIN, 2),
    "line-second": Pen(INK, 1.6, (7, 4)),
    "line-third": Pen(BROWN, 1.6, (2, 3)),
    "mark-first": Pen(WHITE, 0.8, fill=MAIN),
    "mark-second": Pen(INK, 1.6, fill=WHITE),
    "mark-third": Pen(WHITE, 0.8, fill=BROWN),
}


def drawing(chart: Chart, width: float) -> Drawing:
    """Return the chart as a flowable of that width in points."""
    scale = width / chart.width
    made = Drawing(width, chart.height * scale, initialFontName=PLAIN)
    made.scale(scale, scale)
    for stroke in chart.strokes:
        made.add(_stroke(stroke, chart.height))
    for label in chart.labels:
        made.add(_label(label, chart.height))
    return made


def _stroke(stroke: Stroke, height: float) -> Any:
    pen = PENS[stroke.role]
    flat = [number for x, y in stroke.points for number in (x, height - y)]
    how = {"strokeColor": pen.stroke, "strokeWidth": pen.width, "strokeDashArray": pen.dash, "strokeLineJoin": 1}
    return Polygon(flat, fillColor=pen.fill, **how) if stroke.is_closed else PolyLine(flat, **how)


def _label(label: Label, height: float) -> Any:
    how = {"fontName": PLAIN, "fontSize": WORDS_PT, "fillColor": SOFT, "textAnchor": label.anchor}
    return String(label.x, height - label.y, label.text, **how)
