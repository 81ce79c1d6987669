"""Lines that a tool draws in a flat box from (0, 0) to (across, up), each shape as its strokes in order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, floor, pi, sin

from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Relation

Point = tuple[float, float]
Line = tuple[Point, ...]

SMOOTH = 24  # points of one turn


@dataclass(frozen=True, slots=True)
class Box:
    """The plane that a tool draws in, with how far it keeps from the walls, how often it passes and how far apart."""

    across: float
    up: float
    margin: float
    passes: int
    spacing: float
    usual: float  # spacing where none is given
    is_round: bool = False

    @property
    def middle(self) -> Point:
        return self.across / 2, self.up / 2

    def turned(self) -> Box:
        return Box(self.up, self.across, self.margin, self.passes, self.spacing, self.usual, self.is_round)

    def steps(self, more: float = 0.0) -> tuple[int, float]:
        """Return how many passes fit side by side and how far apart; as many as asked for, closer where they must be.

        Args:
            more: kept free at both ends beside the margin, mm.
        """
        room = max(self.across - 2 * (self.margin + more), 1.0)
        if self.passes:
            return self.passes, min(self.spacing or room, room / self.passes)
        step = self.spacing or self.usual
        count = max(1, floor(room / step + 1e-9))
        return count, min(step, room) if self.spacing else room / count


def zigzag(box: Box) -> tuple[Line, ...]:
    """Slanting lines from wall to wall, each beginning where the last ended."""
    count, step = box.steps()
    start = (box.across - count * step) / 2
    ends = (box.margin, box.up - box.margin)
    corners = [(start + at * step, ends[at % 2]) for at in range(count + 1)]
    return tuple(zip(corners, corners[1:], strict=False))


def turned_zigzag(box: Box) -> tuple[Line, ...]:
    """The same with both directions exchanged."""
    return tuple(tuple((u, v) for v, u in line) for line in zigzag(box.turned()))


def down_and_up(box: Box) -> tuple[Line, ...]:
    """Straight down, a step along, straight up, a step along."""
    count, step = box.steps()
    start = (box.across - (count - 1) * step) / 2
    top, floor_at = box.up - box.margin, box.margin
    found: list[Line] = []
    for at in range(count):
        place = start + at * step
        begin, end = (top, floor_at) if at % 2 == 0 else (floor_at, top)
        along = ((place + step, end),) if at < count - 1 else ()
        found.append(((place, begin), (place, end), *along))
    return tuple(found)


def figure_eights(box: Box) -> tuple[Line, ...]:
    """Eights lying along the box, one after the other."""
    count, step = box.steps()
    tall, middle = box.up / 2 - box.margin, box.up / 2
    step *= 1 - 0.16 / count  # an eight begins a little before its own place
    start = (box.across - count * step) / 2

    def at(turn: float) -> Point:
        return start + turn * step + 0.45 * step * sin(4 * pi * turn), middle + tall * sin(2 * pi * turn)

    return _turns(count, at)


def s_curve(box: Box) -> tuple[Line, ...]:
    """One long S for each pass, from end to end."""
    count = box.passes or 1
    tall, length = box.up / 2 - box.margin, box.across - 2 * box.margin

    def at(turn: float) -> Point:
        return box.margin + length * turn / count, box.up / 2 + tall * sin(2 * pi * turn)

    return _turns(count, at)


def spiral(box: Box) -> tuple[Line, ...]:
    """Turns from the rim to the middle."""
    wide, tall = box.across / 2 - box.margin, box.up / 2 - box.margin
    least = min(wide, tall)
    count = box.passes or max(1, floor(least / (box.spacing or box.usual)))
    shrink = min(box.spacing / least if box.spacing else 1 / count, 1 / count)
    (middle_u, middle_v) = box.middle

    def at(turn: float) -> Point:
        size, angle = max(0.0, 1 - shrink * turn), 2 * pi * turn
        return middle_u - wide * size * cos(angle), middle_v - tall * size * sin(angle)

    return _turns(count, at)


def round_the_edge(box: Box) -> tuple[Line, ...]:
    """Rounds along the walls, each further one nearer the middle."""
    least = min(box.across, box.up) / 2 - box.margin
    count = box.passes or 1
    inset = min(box.spacing or box.usual, 0.9 * least / count)
    lines = []
    for number in range(count):
        gap = box.margin + number * inset
        lines.append(_ring(box, gap) if box.is_round else _rectangle(box, gap))
    return tuple(lines)


def _rectangle(box: Box, gap: float) -> Line:
    right, top = box.across - gap, box.up - gap
    return (gap, gap), (right, gap), (right, top), (gap, top), (gap, gap)


def _ring(box: Box, gap: float) -> Line:
    (u, v), radius = box.middle, box.across / 2 - gap
    angles = [2 * pi * at / SMOOTH for at in range(SMOOTH + 1)]
    return tuple((u - radius * cos(angle), v - radius * sin(angle)) for angle in angles)


def lifted_loops(box: Box) -> tuple[Line, ...]:
    """Loops from the surface to the floor and back, one beside the other."""
    wide = min(12.0, box.across / 10)
    count, step = box.steps(wide)
    start = (box.across - count * step) / 2
    tall, middle = box.up / 2 - box.margin, box.up / 2

    def at(turn: float) -> Point:
        return start + turn * step - wide * sin(2 * pi * turn), middle + tall * cos(2 * pi * turn)

    return _turns(count, at)


def _turns(count: int, at: Callable[[float], Point]) -> tuple[Line, ...]:
    return tuple(tuple(at(number + part / SMOOTH) for part in range(SMOOTH + 1)) for number in range(count))


CONSTANTS = ()
_HERE = "soapbench.science.stroke_shapes."
RELATIONS = (
    Relation("Zigzag", "corners evenly along, from wall to wall in turn", "mm", COMMON_PRACTICE, _HERE + "zigzag"),
    Relation("Lengthwise zigzag", "a zigzag turned", "mm", COMMON_PRACTICE, _HERE + "turned_zigzag"),
    Relation("Down and up", "down, a step, up, a step", "mm", COMMON_PRACTICE, _HERE + "down_and_up"),
    Relation("Figure eights", "x + 0.45·w·sin 2θ, y = a·sin θ", "mm", OWN_CHOICE, _HERE + "figure_eights"),
    Relation("Long S", "y = a·sin 2πx/L", "mm", COMMON_PRACTICE, _HERE + "s_curve"),
    Relation("Spiral", "radius less by the spacing each turn", "mm", COMMON_PRACTICE, _HERE + "spiral"),
    Relation("Rounds along the edge", "rectangles, circles, inwards", "mm", COMMON_PRACTICE, _HERE + "round_the_edge"),
    Relation("Lifted loops", "u − r·sin θ, v = a·cos θ", "mm", OWN_CHOICE, _HERE + "lifted_loops"),
)
