"""What a picture is made of, and the few shapes that all of them share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

Point = tuple[float, float]

FINE_MM = 0.3  # a corner nearer than this to the straight line is left out


@dataclass(frozen=True)
class Shape:
    """One path; a letter fills it with that portion's colour and texture."""

    d: str
    look: str = ""  # classes
    letter: str = ""


@dataclass(frozen=True)
class Label:
    x: str
    y: str
    text: str
    size: str
    look: str = ""
    disc: str = ""  # path of the disc behind it, "" for none


@dataclass(frozen=True)
class Picture:
    """A drawing with its view in words and its text alternative; box is the viewBox in mm."""

    view: str
    alt: str
    box: str
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()
    is_round: bool = False  # seen from above, a round mould


def mm(value: float) -> str:
    """Return a number of mm with at most one decimal."""
    return f"{round(value, 1) + 0.0:.10g}"


def path(points: Sequence[Point], *, closed: bool = False) -> str:
    """Return the line through the points as path data, without corners that nobody would see."""
    kept = plain(points)
    start, *rest = [f"{mm(x)} {mm(y)}" for x, y in kept]
    return f"M{start}L{' '.join(rest)}{'Z' if closed else ''}" if rest else f"M{start}"


def plain(points: Sequence[Point]) -> list[Point]:
    """Return the points without those that lie on the straight line between their neighbours."""
    if len(points) < 3:
        return list(points)
    first, last = points[0], points[-1]
    gaps = [_off(point, first, last) for point in points[1:-1]]
    worst = max(range(len(gaps)), key=gaps.__getitem__)
    if gaps[worst] <= FINE_MM:
        return [first, last]
    at = worst + 1
    return plain(points[: at + 1])[:-1] + plain(points[at:])


def _off(point: Point, first: Point, last: Point) -> float:
    wide, high = last[0] - first[0], last[1] - first[1]
    length = hypot(wide, high)
    if length < FINE_MM:
        return hypot(point[0] - first[0], point[1] - first[1])
    return abs(wide * (point[1] - first[1]) - high * (point[0] - first[0])) / length


def box(left: float, top: float, wide: float, high: float) -> str:
    """Return a rectangle as path data."""
    return f"M{mm(left)} {mm(top)}h{mm(wide)}v{mm(high)}h{mm(-wide)}Z"


def oval(x: float, y: float, half_wide: float, half_high: float) -> str:
    """Return an ellipse as path data."""
    radii, wide = f"{mm(half_wide)} {mm(half_high)}", mm(2 * half_wide)
    return f"M{mm(x - half_wide)} {mm(y)}a{radii} 0 1 0 {wide} 0a{radii} 0 1 0 -{wide} 0Z"


def arrowhead(tip: Point, tail: Point, size: float) -> str:
    """Return a triangle whose point is the tip, for a line that comes from the tail."""
    angle = atan2(tip[1] - tail[1], tip[0] - tail[0])
    sides = [(tip[0] - size * cos(angle + turn), tip[1] - size * sin(angle + turn)) for turn in (pi / 7, -pi / 7)]
    return path_of_corners([tip, *sides])


def path_of_corners(corners: Sequence[Point]) -> str:
    return "M" + "L".join(f"{mm(x)} {mm(y)}" for x, y in corners) + "Z"


def label(x: float, y: float, text: str, size: float, look: str = "", *, disc: bool = False) -> Label:
    """Return a text whose middle is at (x, y)."""
    lowered = y + 0.36 * size  # figures and capitals stand about 0.72 of their size high
    return Label(mm(x), mm(lowered), text, mm(size), look, oval(x, y, 0.8 * size, 0.8 * size) if disc else "")
