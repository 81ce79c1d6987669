"""Words as a QR code on paper, for a camera."""

from __future__ import annotations

from reportlab.platypus import Flowable


class SealBox(Flowable):  # type: ignore[misc]  # ReportLab ships no types
    """A QR code (ISO/IEC 18004) drawn as vectors, its quiet zone included."""

    def __init__(self, text: str, size: float) -> None:
        super().__init__()
        self.text, self.width, self.height = text, size, size

    def draw(self) -> None:
        import segno  # only where a code is drawn

        rows = list(segno.make(self.text, error="m", micro=False).matrix_iter())
        step = self.width / len(rows)
        for at, row in enumerate(rows, start=1):
            for across, is_dark in enumerate(row):
                if is_dark:
                    self.canv.rect(across * step, self.height - at * step, step, step, stroke=0, fill=1)
