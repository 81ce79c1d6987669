"""Strokes as chains of paired twists: invertible, area-preserving, and held by the walls of the mould.

A twist turns what is near its centre, less and less outwards, and leaves everything beyond its radius alone. A pair of
them, one on each side of the tool, moves batter as the tool's own width does; a stroke is a chain of such pairs.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from soapbench.science.errors import OutOfRange, positive
from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source
from soapbench.science.words import say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating]

Axis = Literal["x", "y", "z"]  # along which the rod lies; it leaves this coordinate alone
Distance = Callable[[float, float], float]  # from a point to the nearest wall, negative outside

STYLUS = Source(
    "oseen-stylus",
    "A. Jaffer, Oseen Flow in Paint Marbling, arXiv:1702.02106, Eq. 6",
    "the pair of twists is the stylus field averaged over the width of the tool; the paper's abstract was read, the "
    "equation through a public program that cites it by number",
    "published",
)
REACHES = Constant(
    "Radius of a twist, in reaches", "R/L", 6.0, "", OWN_CHOICE, "twists_of", why="At e^-6 no eye sees it move."
)
LEAST_RADIUS = Constant(
    "Twists smaller than this are left out", "", 0.25, "mm", OWN_CHOICE, "twists_of", why="Less than a pixel."
)
STEP = Constant(
    "Length of an element, of the reach or of 1.2 tool diameters",
    "",
    0.5,
    "",
    OWN_CHOICE,
    "twists_of",
    why="Finer elements move no point by 0.1 mm more.",
)
MOST_ELEMENTS = Constant("Most elements of one stroke", "", 20_000, "", OWN_CHOICE, "twists_of", why="40 m of skewer.")
ENDLESS_MM = 1e6  # a rod that reaches through the whole mould
LONG_RUN, SHORT_RUN = 48, 4  # twists that are undone together: points outside a run's box never move
WHY = (
    "Only the direction has sources: the reach falls as the batter thickens (Jaffer, Gilg and Luque, pst-marble 2019), "
    "and a yield stress keeps the flow near the tool (Balmforth and Hewitt 2025)."
)
REACH = {
    "emulsion": Constant("Reach in an emulsion", "L/D", 2.0, "", OWN_CHOICE, "reach_mm", why=WHY),
    "thin": Constant("Reach in batter at thin trace", "L/D", 2.0, "", OWN_CHOICE, "reach_mm", why=WHY),
    "medium": Constant("Reach in batter at medium trace", "L/D", 1.25, "", OWN_CHOICE, "reach_mm", why=WHY),
    "thick": Constant("Reach in thick batter", "L/D", 0.75, "", OWN_CHOICE, "reach_mm", why=WHY),
}


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stroke of a straight tool: its corners in the plane across the rod, mm.

    axis: along which the rod lies. diameter_mm: of the tool. reach_mm: how far its pull fades to 1/e.
    low_mm, high_mm: where the rod begins and ends along its own axis; the pull fades over taper_mm past these ends.
    ready: twists that are given rather than made from the corners, such as those of an example of chance.
    """

    axis: Axis
    corners: tuple[tuple[float, float], ...]
    diameter_mm: float
    reach_mm: float
    low_mm: float = -ENDLESS_MM
    high_mm: float = ENDLESS_MM
    taper_mm: float = 6.0
    ready: tuple[Twist, ...] = ()


@dataclass(frozen=True, slots=True)
class Twist:
    """A turn by angle (radians, anticlockwise) about a centre, fading outwards to nothing at the radius, mm."""

    u: float
    v: float
    angle: float
    radius: float


def reach_mm(trace: str, diameter_mm: float) -> float:
    """Return how far a tool pulls batter of a trace, mm.

    Raises:
        OutOfRange: the trace is unknown or the tool has no thickness.

    Source: own choice; the direction is published.
    """
    if trace not in REACH:
        raise OutOfRange(say("“{trace}” is no trace. Choose one of: {known}.", trace=trace, known=", ".join(REACH)))
    return REACH[trace].value * positive(diameter_mm, "The thickness of the tool", "mm")


def twists_of(stroke: Drawn, wall: Distance) -> tuple[Twist, ...]:
    """Return the twists of a stroke in their order; none reaches past a wall.

    Args:
        stroke: with at least two corners to do anything.
        wall: distance to the nearest wall in the plane across the rod, mm.

    Raises:
        OutOfRange: the tool or its reach is not above zero, or the path is too long to be followed so finely.

    Source: the stylus field of Jaffer, averaged over the tool's width; finite and held by walls by our own choice.
    """
    width = positive(stroke.diameter_mm, "The thickness of the tool", "mm")
    reach = positive(stroke.reach_mm, "The reach of the tool", "mm")
    if stroke.ready:
        return stroke.ready
    found: list[Twist] = []
    for number, ((u, v), (along, across), length) in enumerate(_elements(stroke, width, reach)):
        sides = (1, -1) if number % 2 == 0 else (-1, 1)  # in turn, so that the drawing stays symmetric
        for side in sides:
            cu, cv = u - side * width / 2 * across, v + side * width / 2 * along
            radius = min(REACHES.value * reach, wall(cu, cv))
            if radius > LEAST_RADIUS.value:
                found.append(Twist(cu, cv, side * length / width, radius))
    return tuple(found)


def _elements(
    stroke: Drawn, width: float, reach: float
) -> Iterator[tuple[tuple[float, float], tuple[float, float], float]]:
    """Yield middle, direction and length of each element of the stroke."""
    step = STEP.value * min(reach, 1.2 * width)
    whole = sum(math.dist(*leg) for leg in zip(stroke.corners, stroke.corners[1:], strict=False))
    if not whole <= MOST_ELEMENTS.value * step:
        raise OutOfRange(say("This path is too long for so thin a tool. Draw less, or take a thicker one."))
    for (u0, v0), (u1, v1) in zip(stroke.corners, stroke.corners[1:], strict=False):
        leg = math.hypot(u1 - u0, v1 - v0)
        if leg == 0:
            continue
        count = math.ceil(leg / step - 1e-9)
        for at in range(count):
            share = (at + 0.5) / count
            middle = (u0 + share * (u1 - u0), v0 + share * (v1 - v0))
            yield middle, ((u1 - u0) / leg, (v1 - v0) / leg), leg / count


def draw(twists: Sequence[Twist], reach: float, u: Array, v: Array, fade: Array | float = 1.0) -> tuple[Array, Array]:
    """Return where points go in a stroke.

    Args:
        twists: of the stroke, as twists_of gives them.
        reach: of the stroke, mm.
        u, v: coordinates across the rod, flat arrays of one length, mm.
        fade: of the pull, 0..1, one number or one for each point.

    Raises:
        OutOfRange: the reach is not above zero.

    Source: twists after the stylus field of Jaffer.
    """
    return _turned(twists, reach, u, v, fade, 1.0)


def undo(twists: Sequence[Twist], reach: float, u: Array, v: Array, fade: Array | float = 1.0) -> tuple[Array, Array]:
    """Return where points came from before a stroke: the same twists turned back, the last one first.

    Raises:
        OutOfRange: the reach is not above zero.

    Source: the inverse of draw, exactly.
    """
    return _turned(twists[::-1], reach, u, v, fade, -1.0)


def _turned(
    twists: Sequence[Twist], reach: float, u: Array, v: Array, fade: Array | float, sign: float
) -> tuple[Array, Array]:
    """Turn points twist by twist: first the points near a long run are picked out, of these those near a short one."""
    import numpy as np

    positive(reach, "The reach of the tool", "mm")

    u, v = np.array(u, copy=True), np.array(v, copy=True)
    for long in _runs(twists, LONG_RUN):
        near = _near(long, u, v)
        pu, pv, pull = u[near], v[near], fade[near] if isinstance(fade, np.ndarray) else fade
        for short in _runs(long, SHORT_RUN):
            some = _near(short, pu, pv)
            if some.size:
                qu, qv = pu[some], pv[some]
                _turn_all(short, reach, (qu, qv), pull[some] if isinstance(pull, np.ndarray) else pull, sign)
                pu[some], pv[some] = qu, qv
        u[near], v[near] = pu, pv
    return u, v


def _runs(twists: Sequence[Twist], count: int) -> Iterator[Sequence[Twist]]:
    for start in range(0, len(twists), count):
        yield twists[start : start + count]


def _near(run: Sequence[Twist], u: Array, v: Array) -> NDArray[np.intp]:
    """Return the points in the box of a run. A turn keeps a point in its circle, so no other point moves."""
    import numpy as np

    left, right = min(t.u - t.radius for t in run), max(t.u + t.radius for t in run)
    low, high = min(t.v - t.radius for t in run), max(t.v + t.radius for t in run)
    return np.flatnonzero((u > left) & (u < right) & (v > low) & (v < high))


def _turn_all(run: Sequence[Twist], reach: float, at: tuple[Array, Array], pull: Array | float, sign: float) -> None:
    """Turn points about each centre of a short run, in place.

    A point beyond a twist's radius turns by nothing: to work it out all the same is faster than to pick the others.
    """
    import numpy as np

    u, v = at
    du, dv, one, two = (np.empty_like(u) for _ in range(4))
    number = u.dtype.type  # a plain float would lift single precision to double
    for twist in run:
        rim = math.exp(-twist.radius / reach)
        np.subtract(u, number(twist.u), out=du)
        np.subtract(v, number(twist.v), out=dv)
        np.multiply(du, du, out=one)
        np.multiply(dv, dv, out=two)
        np.sqrt(np.add(one, two, out=one), out=one)
        np.exp(np.multiply(one, number(-1 / reach), out=one), out=one)
        np.maximum(np.subtract(one, number(rim), out=one), number(0), out=one)
        np.multiply(one, pull * number(sign * twist.angle / (1 - rim)), out=one)
        np.cos(one, out=two)
        np.sin(one, out=one)
        np.add(du * two - dv * one, number(twist.u), out=u)
        np.add(du * one + dv * two, number(twist.v), out=v)


def fade_of(stroke: Drawn, w: Array) -> Array:
    """Return the pull of a rod along its own axis: 1 in the middle, fading smoothly to 0 past its ends.

    Raises:
        OutOfRange: the taper is not above zero.

    Source: own choice; volume is kept by any fade, since the coordinate along the rod does not change.
    """
    import numpy as np

    taper = positive(stroke.taper_mm, "The taper", "mm")
    share = np.clip(np.minimum(w - stroke.low_mm, stroke.high_mm - w) / taper + 1, 0.0, 1.0)
    return np.asarray(share * share * (3 - 2 * share), dtype=w.dtype)


CONSTANTS = (REACHES, LEAST_RADIUS, STEP, MOST_ELEMENTS, *REACH.values())
_HERE = "soapbench.science.pattern.draw."
RELATIONS = (
    Relation("Reach of a tool", "L = c(trace)·D", "mm", OWN_CHOICE, _HERE + "reach_mm"),
    Relation("Stroke as paired twists", "α = ±λ/D at ± D/2 beside each element", "mm", STYLUS, _HERE + "twists_of"),
    Relation("Points in a stroke", "turn by α·(e^(-r/L) - e^(-R/L))/(1 - e^(-R/L))", "mm", STYLUS, _HERE + "draw"),
    Relation("A stroke undone", "the twists turned back, the last first", "mm", STYLUS, _HERE + "undo"),
    Relation("Pull past the ends of a rod", "s²(3 - 2s)", "share", OWN_CHOICE, _HERE + "fade_of"),
)
