"""One drawing of a curve for screen and paper: plain shapes in a box, the origin at the upper left.

The template `rack/_chart.html` writes them as SVG, `logbook.paper_chart` puts them into the PDF. Every series has its
own mark and its own stroke besides its colour.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

# Nearly as narrow as a phone, so that the words in it stay readable there.
WIDTH, HEIGHT = 400.0, 280.0
LEFT, RIGHT, TOP, BOTTOM = 54.0, 12.0, 50.0, 46.0
MARK = 5.0  # half the size of a mark
TITLE_LINE, KEY_LINE = 16.0, 37.0  # where the words above the curve stand
LETTER, KEY, GAP = 8.4, 20.0, 12.0  # widths: of a letter on a phone, of a key, and between two keys

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]
Mark = Literal["", "circle", "square", "triangle"]


@dataclass(frozen=True)
class Series:
    """Points in the units of the axes, joined by a line where `is_line` says so."""

    name: str
    points: tuple[Point, ...]
    role: Literal["first", "second", "third"] = "first"
    mark: Mark = ""
    is_line: bool = True


@dataclass(frozen=True)
class Band:
    """An area between two edges, each a row of points in the units of the axes."""

    name: str
    low: tuple[Point, ...]
    high: tuple[Point, ...]


@dataclass(frozen=True)
class Stroke:
    """A line, or an area when it is closed."""

    points: tuple[Point, ...]
    role: str
    is_closed: bool = False

    @property
    def path(self) -> str:
        """Return the path as SVG writes it."""
        steps = "L".join(f"{x:.1f} {y:.1f}" for x, y in self.points)
        return f"M{steps}{'Z' if self.is_closed else ''}"


@dataclass(frozen=True)
class Label:
    x: float
    y: float
    text: str
    anchor: Anchor = "start"
    role: str = "label"


@dataclass(frozen=True)
class Chart:
    """A finished drawing; `sentence` says in words what it shows."""

    title: str
    sentence: str
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
    width: float = WIDTH
    height: float = HEIGHT


@dataclass(frozen=True)
class _Axes:
    xs: tuple[float, ...]  # ticks
    ys: tuple[float, ...]

    def at(self, point: Point) -> Point:
        x = LEFT + (point[0] - self.xs[0]) / (self.xs[-1] - self.xs[0]) * (WIDTH - LEFT - RIGHT)
        y = HEIGHT - BOTTOM - (point[1] - self.ys[0]) / (self.ys[-1] - self.ys[0]) * (HEIGHT - TOP - BOTTOM)
        return x, y


def draw(
    title: str, sentence: str, series: Sequence[Series], *, x_title: str, y_title: str, band: Band | None = None
) -> Chart | None:
    """Return the chart, or None when there is no point to draw."""
    points = [point for one in series for point in one.points]
    if not points:
        return None
    points += [*band.low, *band.high] if band else []
    axes = _Axes(ticks([x for x, _ in points]), ticks([y for _, y in points]))
    strokes = [*_grid(axes), *(_band(axes, band) if band else ())]
    for one in series:
        strokes += _series(axes, one)
    key, words = _legend(series, band)
    return Chart(title, sentence, (*strokes, *key), (*_numbers(axes), *_titles(x_title, y_title), *words))


def ticks(values: Sequence[float], most: int = 6) -> tuple[float, ...]:
    """Return round numbers, at most `most` steps of 1, 2 or 5 times a power of ten, that enclose the values."""
    low, high = min(values), max(values)
    if high - low < 1e-9:
        low, high = low - 1, high + 1
    rough = (high - low) / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * factor for factor in (1, 2, 5, 10) if power * factor >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(round(number * step, 9) for number in range(first, last + 1))


def _grid(axes: _Axes) -> list[Stroke]:
    x0, x1, y0, y1 = axes.xs[0], axes.xs[-1], axes.ys[0], axes.ys[-1]
    lines = [Stroke((axes.at((x0, y)), axes.at((x1, y))), "grid") for y in axes.ys[1:]]
    return [*lines, Stroke((axes.at((x0, y1)), axes.at((x0, y0)), axes.at((x1, y0))), "axis")]


def _band(axes: _Axes, band: Band) -> list[Stroke]:
    edge = [axes.at(point) for point in (*band.low, *reversed(band.high))]
    return [Stroke(tuple(edge), "band", is_closed=True)]


def _series(axes: _Axes, series: Series) -> list[Stroke]:
    places = tuple(axes.at(point) for point in series.points)
    line = [Stroke(places, f"line-{series.role}")] if series.is_line and len(places) > 1 else []
    return [*line, *(_mark(place, series) for place in places if series.mark)]


def _mark(place: Point, series: Series) -> Stroke:
    corners = {"circle": 12, "square": 4, "triangle": 3}[series.mark]
    turn = math.pi / 4 if series.mark == "square" else -math.pi / 2
    angles = (turn + 2 * math.pi * number / corners for number in range(corners))
    points = ((place[0] + MARK * math.cos(a), place[1] + MARK * math.sin(a)) for a in angles)
    return Stroke(tuple(points), f"mark-{series.role}", is_closed=True)


def _numbers(axes: _Axes) -> list[Label]:
    below = [Label(axes.at((x, axes.ys[0]))[0], HEIGHT - BOTTOM + 16, _said(x), "middle") for x in axes.xs]
    beside = [Label(LEFT - 7, axes.at((axes.xs[0], y))[1] + 4, _said(y), "end") for y in axes.ys]
    return below + beside


def _said(number: float) -> str:
    return f"{number:.6g}".replace("-", "−")


def _titles(x_title: str, y_title: str) -> list[Label]:
    return [
        Label(WIDTH - RIGHT, HEIGHT - 6, x_title, "end", "title"),
        Label(6, TITLE_LINE, y_title, "start", "title"),
    ]


def _legend(series: Sequence[Series], band: Band | None) -> tuple[list[Stroke], list[Label]]:
    """Return the key, in one row from the left: each name behind a piece of its own line."""
    strokes: list[Stroke] = []
    words: list[Label] = []
    left = 6.0
    named: list[Series | Band] = [*series, *([band] if band else [])]
    for one in named:
        strokes += _band_key(left) if isinstance(one, Band) else _key(one, left)
        words.append(Label(left + KEY + 5, KEY_LINE, one.name))
        left += KEY + 5 + LETTER * len(one.name) + GAP
    return strokes, words


def _band_key(left: float) -> list[Stroke]:
    top, bottom, right = KEY_LINE - 11, KEY_LINE + 1, left + KEY
    return [Stroke(((left, top), (right, top), (right, bottom), (left, bottom)), "band", is_closed=True)]


def _key(series: Series, left: float) -> list[Stroke]:
    height = KEY_LINE - 5
    line = [Stroke(((left, height), (left + KEY, height)), f"line-{series.role}")] if series.is_line else []
    return [*line, _mark((left + KEY / 2, height), series)] if series.mark else line
