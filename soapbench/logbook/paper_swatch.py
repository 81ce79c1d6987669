"""A portion's colour on paper: never colour alone, so its texture and its letter too."""

from __future__ import annotations

from typing import Any

from reportlab.lib.colors import HexColor, white
from reportlab.platypus import Flowable

from soapbench.logbook.blocks import Swatch
from soapbench.logbook.fonts import BOLD
from soapbench.logbook.paper_styles import INK

STEPS = (0.2, 0.4, 0.6, 0.8)
ACROSS = tuple((0.0, step, 1.0, step) for step in STEPS)
UPRIGHT = tuple((step, 0.0, step, 1.0) for step in STEPS)
RISING = ((0, 0.6, 0.4, 1), (0, 0.2, 0.8, 1), (0.2, 0, 1, 0.8), (0.6, 0, 1, 0.4))
FALLING = tuple((1 - x0, y0, 1 - x1, y1) for x0, y0, x1, y1 in RISING)
# Lines in a unit square, for each texture that is made of lines.
LINES = {
    "hatched": RISING,
    "crossed": (*RISING, *FALLING),
    "striped": ACROSS,
    "checked": (*ACROSS, *UPRIGHT),
}


class SwatchBox(Flowable):  # type: ignore[misc]  # ReportLab ships no types
    """A square with the portion's colour, texture and letter."""

    def __init__(self, swatch: Swatch, size: float) -> None:
        super().__init__()
        self.swatch, self.width, self.height = swatch, size, size

    def draw(self) -> None:
        canvas, size = self.canv, self.width
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(0.5)
        canvas.setFillColor(HexColor(self.swatch.colour))
        canvas.rect(0, 0, size, size, fill=1)
        self._texture(canvas, size)
        self._letter(canvas, size)

    def _texture(self, canvas: Any, size: float) -> None:
        for x0, y0, x1, y1 in LINES.get(self.swatch.texture, ()):
            canvas.line(x0 * size, y0 * size, x1 * size, y1 * size)
        if self.swatch.texture == "ringed":
            for share in (0.32, 0.44):
                canvas.circle(size / 2, size / 2, share * size)
        if self.swatch.texture == "dotted":
            canvas.setFillColor(INK)
            for x in (0.15, 0.85):
                for y in (0.15, 0.5, 0.85):
                    canvas.circle(x * size, y * size, 0.05 * size, fill=1)
        if self.swatch.texture == "waved":
            for step in STEPS:
                y = step * size
                canvas.bezier(0, y, size / 3, y + size / 6, size * 2 / 3, y - size / 6, size, y)

    def _letter(self, canvas: Any, size: float) -> None:
        if not self.swatch.letter:
            return
        canvas.setFillColor(white)
        canvas.circle(size / 2, size / 2, 0.27 * size, fill=1)
        canvas.setFillColor(INK)
        canvas.setFont(BOLD, 0.4 * size)
        canvas.drawCentredString(size / 2, 0.36 * size, self.swatch.letter)
