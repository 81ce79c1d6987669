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
REACHES = Constant("Radius of a twist, in reaches", "R/L", 6.0, "", OWN_CHOICE, "twists_of: e^-6 is beyond the eye")
LEAST_RADIUS = Constant("Twists smaller than this are left out", "", 0.25, "mm", OWN_CHOICE, "twists_of")
STEP = Constant("Length of an element, of the reach or of 1.2 tool diameters", "", 0.5, "", OWN_CHOICE, "twists_of")
RUN = 24  # twists that are undone together: points outside the run's box never move
# Reach of a stroke in tool diameters, by trace. Own choice: only the direction has sources (reach falls as the batter
# thickens: Jaffer and Gilg, pst-marble 2019; a yield stress keeps the flow near the tool: Balmforth and Hewitt 2025).
REACH = {
    "emulsion": Constant("Reach in an emulsion", "L/D", 2.0, "", OWN_CHOICE, "reach_mm"),
    "thin": Constant("Reach in batter at thin trace", "L/D", 2.0, "", OWN_CHOICE, "reach_mm"),
    "medium": Constant("Reach in batter at medium trace", "L/D", 1.25, "", OWN_CHOICE, "reach_mm"),
    "thick": Constant("Reach in thick batter", "L/D", 0.75, "", OWN_CHOICE, "reach_mm"),
}


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stroke of a straight tool: its corners in the plane across the rod, mm.

    axis: along which the rod lies. diameter_mm: of the tool. reach_mm: how far its pull fades to 1/e.
    low_mm, high_mm: where the rod begins and ends along its own axis; the pull fades over taper_mm inside these ends.
    """

    axis: Axis
    corners: tuple[tuple[float, float], ...]
    diameter_mm: float
    reach_mm: float
    low_mm: float = -math.inf
    high_mm: float = math.inf
    taper_mm: float = 6.0


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
    """
    if trace not in REACH:
        raise OutOfRange(f"“{trace}” is no trace. Choose one of: {', '.join(REACH)}.")
    return REACH[trace].value * positive(diameter_mm, "The thickness of the tool", "mm")


def twists_of(stroke: Drawn, wall: Distance) -> tuple[Twist, ...]:
    """Return the twists of a stroke in their order; none reaches past a wall.

    Args:
        stroke: with at least two corners to do anything.
        wall: distance to the nearest wall in the plane across the rod, mm.

    Raises:
        OutOfRange: the tool or its reach is not above zero.
    """
    width = positive(stroke.diameter_mm, "The thickness of the tool", "mm")
    reach = positive(stroke.reach_mm, "The reach of the tool", "mm")
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
    """
    return _turned(twists, reach, u, v, fade, 1.0)


def undo(twists: Sequence[Twist], reach: float, u: Array, v: Array, fade: Array | float = 1.0) -> tuple[Array, Array]:
    """Return where points came from before a stroke: the same twists turned back, the last one first."""
    return _turned(twists[::-1], reach, u, v, fade, -1.0)


def _turned(
    twists: Sequence[Twist], reach: float, u: Array, v: Array, fade: Array | float, sign: float
) -> tuple[Array, Array]:
    import numpy as np

    u, v = np.array(u, copy=True), np.array(v, copy=True)
    for start in range(0, len(twists), RUN):
        run = twists[start : start + RUN]
        near = _near(run, u, v)
        if near.size == 0:
            continue
        pu, pv = u[near], v[near]
        pull = fade[near] if isinstance(fade, np.ndarray) else fade
        for twist in run:
            _turn(twist, reach, pu, pv, pull, sign)
        u[near], v[near] = pu, pv
    return u, v


def _near(run: Sequence[Twist], u: Array, v: Array) -> NDArray[np.intp]:
    """Return the points in the box of a run. A turn keeps a point in its circle, so no other point moves."""
    import numpy as np

    left, right = min(t.u - t.radius for t in run), max(t.u + t.radius for t in run)
    low, high = min(t.v - t.radius for t in run), max(t.v + t.radius for t in run)
    return np.flatnonzero((u > left) & (u < right) & (v > low) & (v < high))


def _turn(twist: Twist, reach: float, u: Array, v: Array, pull: Array | float, sign: float) -> None:
    """Turn the points of a run about one centre, in place."""
    import numpy as np

    du, dv = u - u.dtype.type(twist.u), v - v.dtype.type(twist.v)
    square = du * du + dv * dv
    inside = np.flatnonzero(square < twist.radius**2)
    if inside.size == 0:
        return
    du, dv = du[inside], dv[inside]
    rim = math.exp(-twist.radius / reach)
    fading = (np.exp(np.sqrt(square[inside]) / -reach) - rim) / (1 - rim)
    angle = fading * (sign * twist.angle)
    if isinstance(pull, np.ndarray):
        angle *= pull[inside]
    elif pull != 1.0:
        angle *= pull
    sine, cosine = np.sin(angle), np.cos(angle)
    u[inside] = twist.u + (du * cosine - dv * sine)
    v[inside] = twist.v + (du * sine + dv * cosine)


def fade_of(stroke: Drawn, w: Array) -> Array:
    """Return the pull of a rod along its own axis: 1 in the middle, fading smoothly to 0 past its ends."""
    import numpy as np

    share = np.clip(np.minimum(w - stroke.low_mm, stroke.high_mm - w) / stroke.taper_mm + 1, 0.0, 1.0)
    return np.asarray(share * share * (3 - 2 * share), dtype=w.dtype)


CONSTANTS = (REACHES, LEAST_RADIUS, STEP, *REACH.values())
_HERE = "soapbench.science.pattern.draw."
RELATIONS = (
    Relation("Reach of a tool", "L = c(trace)·D", "mm", OWN_CHOICE, _HERE + "reach_mm"),
    Relation("Stroke as paired twists", "α = ±λ/D at ± D/2 beside each element", "mm", STYLUS, _HERE + "twists_of"),
    Relation("Points in a stroke", "turn by α·(e^(-r/L) - e^(-R/L))/(1 - e^(-R/L))", "mm", STYLUS, _HERE + "draw"),
    Relation("A stroke undone", "the twists turned back, the last first", "mm", STYLUS, _HERE + "undo"),
    Relation("Pull past the ends of a rod", "s²(3 - 2s)", "share", OWN_CHOICE, _HERE + "fade_of"),
)
