"""The path of a drawing as strokes in mm: what the tool does, one stroke after the other.

A straight rod moves batter only in the plane across itself, so that is the plane in which its path is given: an
upright tool is seen from above, a hanger whose bar lies along the loaf from the end, one that lies across it from the
side.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot, sqrt
from typing import Literal

from soapbench.science.errors import OutOfRange, not_negative, positive
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.stroke_shapes import (
    Box,
    Line,
    Point,
    down_and_up,
    figure_eights,
    lifted_loops,
    round_the_edge,
    s_curve,
    spiral,
    turned_zigzag,
    zigzag,
)

from .words import say

Rod = Literal["upright", "along", "across"]
View = Literal["top", "end", "side"]

MARGIN = Constant("Room kept between tool and wall", "", 8.0, "mm", COMMON_PRACTICE, "path_of: 7 to 14 mm")
SPACING = Constant("Lines apart where nothing is said", "", 12.0, "mm", COMMON_PRACTICE, "path_of: 8 to 15 mm")
WIDE_SPACING = Constant(
    "Eights and loops apart where nothing is said",
    "",
    40.0,
    "mm",
    OWN_CHOICE,
    "path_of",
    why="An eight or a loop needs room for its own width.",
)
DEPTH = Constant(
    "Depth of the batter where it is not known", "", 60.0, "mm", OWN_CHOICE, "path_of", why="A usual loaf, filled."
)
MOST_STROKES = Constant(
    "Most strokes of one drawing",
    "",
    500,
    "",
    OWN_CHOICE,
    "path_of",
    why="More than anybody draws; a slip of the finger is caught.",
)

SHAPES: dict[str, Callable[[Box], tuple[Line, ...]]] = {
    "zigzag": zigzag,
    "lengthwise zigzag": turned_zigzag,
    "figure eights": figure_eights,
    "spiral": spiral,
    "s curve": s_curve,
    "round the edge": round_the_edge,
    "lifted loops": lifted_loops,
    "down and up": down_and_up,
}
WIDE = ("figure eights", "lifted loops")
GOES_UP = ("lifted loops", "down and up")  # these leave the level plane whatever the tool
VIEWS: dict[Rod, View] = {"upright": "top", "along": "end", "across": "side"}


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroke: its corners in mm, the view that they lie in, and how far under the surface the tool reaches.

    From above a point is (along, across); from the end (across, up); from the side (along, up).
    """

    points: tuple[Point, ...]
    view: View
    depth_mm: float

    @property
    def start(self) -> Point:
        return self.points[0]

    @property
    def end(self) -> Point:
        return self.points[-1]

    @property
    def length_mm(self) -> float:
        return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(self.points, self.points[1:], strict=False))


def rod_of(tool_kind: str) -> Rod:
    """Return how a kind of tool lies in the batter: a hanger's bar along the loaf, everything else upright."""
    return "along" if tool_kind == "hanger" else "upright"


def path_of(
    name: str,
    length_mm: float,
    width_mm: float,
    passes: int = 0,
    spacing_mm: float = 0.0,
    *,
    height_mm: float = 0.0,
    rod: Rod = "upright",
    is_round: bool = False,
) -> tuple[Stroke, ...]:
    """Return the strokes of a drawing in their order, none of which comes nearer a wall than the margin.

    Args:
        name: the path; "none" has no stroke.
        length_mm, width_mm: the inside of the mould; both the diameter of a round one.
        passes: how many strokes; 0 takes as many as the spacing gives.
        spacing_mm: how far apart; closer where so many passes do not fit, and 0 spreads them over the room.
        height_mm: of the batter; 0 where it is not known.
        rod: how the tool lies; loops and lines down and up of an upright tool are seen from the side.

    Raises:
        OutOfRange: the path is unknown, the mould has no room, or there are too many passes.
    """
    if name == "none":
        return ()
    if name not in SHAPES:
        raise OutOfRange(say("“{name}” is no drawing. Choose one of: {known}.", name=name, known=", ".join(SHAPES)))
    if not_negative(passes, "The passes", "") > MOST_STROKES.value:
        raise OutOfRange(say("More than {value:.0f} passes cannot be drawn. Take fewer.", value=MOST_STROKES.value))
    rod = "across" if rod == "upright" and name in GOES_UP else rod
    deep = not_negative(height_mm, "The height of the batter", "mm") or DEPTH.value
    box = _box(name, VIEWS[rod], (length_mm, width_mm, deep), passes, spacing_mm, is_round)
    return tuple(Stroke(line, VIEWS[rod], _reach(line, VIEWS[rod], deep)) for line in _lines(name, box, rod, is_round))


def _box(
    name: str, view: View, size: tuple[float, float, float], passes: int, spacing_mm: float, is_round: bool
) -> Box:
    length, width, deep = size
    across, up = {"top": (length, width), "end": (width, deep), "side": (length, deep)}[view]
    positive(across, "The mould", "mm")
    positive(up, "The mould", "mm")
    margin = min(MARGIN.value, across / 4, up / 4)
    usual = WIDE_SPACING.value if name in WIDE else SPACING.value
    step = not_negative(spacing_mm, "The spacing", "mm") or usual
    if not passes and max(across, up) > MOST_STROKES.value * step:
        raise OutOfRange(
            say("Lines {step:g} mm apart are more than can be drawn in this mould. Space them wider.", step=step)
        )
    return Box(across, up, margin, passes, spacing_mm, usual, is_round)


def _lines(name: str, box: Box, rod: Rod, is_round: bool) -> tuple[Line, ...]:
    lines = SHAPES[name](box)
    if rod == "upright" and is_round and name not in ("spiral", "round the edge"):
        return tuple(tuple(_into_circle(box, point) for point in line) for line in lines)
    if rod != "upright" and name == "round the edge":  # down one wall, along the floor, up the other
        return tuple(tuple((u, box.up - v) for u, v in _from_the_top(line)) for line in lines)
    return lines


def _into_circle(box: Box, point: Point) -> Point:
    (u, v), shrink = box.middle, 1 / sqrt(2)
    return u + (point[0] - u) * shrink, v + (point[1] - v) * shrink


def _from_the_top(line: Line) -> Line:
    return tuple(reversed(line))


def _reach(line: Line, view: View, deep: float) -> float:
    return deep if view == "top" else deep - min(up for _across, up in line)


CONSTANTS = (MARGIN, SPACING, WIDE_SPACING, DEPTH, MOST_STROKES)
RELATIONS = (
    Relation(
        "How a tool lies in the batter",
        "a hanger along the loaf, others upright",
        "",
        COMMON_PRACTICE,
        "soapbench.science.strokes.rod_of",
    ),
    Relation(
        "Path of a drawing",
        "zigzag, eights, spiral, S, rounds, loops",
        "mm",
        COMMON_PRACTICE,
        "soapbench.science.strokes.path_of",
    ),
)
