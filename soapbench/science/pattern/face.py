"""Faces of a cut: which portion shows at each pixel, found backwards through the strokes into the poured loaf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from soapbench.science.errors import OutOfRange, positive
from soapbench.science.pattern.draw import Axis, Distance, Drawn, fade_of, twists_of, undo
from soapbench.science.pattern.pool import REARRANGED, Box, Pool
from soapbench.science.sources import OWN_CHOICE, Constant, Relation
from soapbench.science.words import say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating]
    Labels = NDArray[np.int8]
    Points = tuple[Array, Array, Array]

MOST_PIXELS = Constant("Most pixels of one face", "", 400_000, "", OWN_CHOICE, "label_face", why="A second's work.")


@dataclass(frozen=True, slots=True)
class Plane:
    """A face: the axis that stands upright on it, where it lies, and its sides in mm.

    Its picture runs along x or y from left to right, and along z or y from bottom to top.
    """

    normal: Axis
    at: float
    left: float
    right: float
    bottom: float
    top: float

    @property
    def size(self) -> tuple[float, float]:
        """Return width and height in mm."""
        return self.right - self.left, self.top - self.bottom


def walls_of(box: Box, height: float, axis: Axis) -> Distance:
    """Return the distance to the nearest wall in the plane across an axis; the surface counts as a wall.

    Source: geometry of a box.
    """
    wide, high = {"z": (box.length, box.width), "x": (box.width, height), "y": (box.length, height)}[axis]
    return lambda u, v: min(u, wide - u, v, high - v)


def label_face(plane: Plane, pixel: float, pool: Pool, strokes: Sequence[Drawn] = ()) -> Labels:
    """Return the label of the portion at each pixel, row by row from the top, -1 where there is no batter.

    Args:
        plane: of the face, mm.
        pixel: its side, mm.
        pool: the poured loaf.
        strokes: in the order in which they were drawn.

    Raises:
        OutOfRange: the face has no size, or more pixels than are computed at once.

    Source: backward mapping; the maps are those of the strokes and of the stages.
    """
    import numpy as np

    points, shape = _grid(plane, pixel)
    for stroke in reversed(strokes):
        points = _before(stroke, pool, points)
    x, y, z = (np.broadcast_to(each, shape).ravel() for each in points)
    return pool.portion_at(x, y, z).reshape(shape)[::-1]


def _grid(plane: Plane, pixel: float) -> tuple[Points, tuple[int, int]]:
    """Return the middles of the pixels; a coordinate that is the same along a side is kept as one row or column."""
    import numpy as np

    positive(pixel, "The pixel", "mm")
    width, height = (round(positive(side, "The face", "mm") / pixel) for side in plane.size)
    if not 0 < width * height <= MOST_PIXELS.value:
        raise OutOfRange(say("A face of so many pixels is too fine. Take a coarser pixel."))
    # Single precision takes half the time, and no point comes to lie 0.001 mm elsewhere.
    single = np.float32
    across = (plane.left + (np.arange(width) + 0.5) * (plane.right - plane.left) / width)[np.newaxis, :].astype(single)
    up = (plane.bottom + (np.arange(height) + 0.5) * (plane.top - plane.bottom) / height)[:, np.newaxis].astype(single)
    still = np.full((1, 1), plane.at, single)
    points: dict[Axis, Points] = {"x": (still, across, up), "y": (across, still, up), "z": (across, up, still)}
    return points[plane.normal], (height, width)


def _before(stroke: Drawn, pool: Pool, points: Points) -> Points:
    """Return where points were before a stroke; points that lie alike across the rod are worked out once."""
    import numpy as np

    x, y, z = points
    u, v, w = {"x": (y, z, x), "y": (x, z, y), "z": (x, y, z)}[stroke.axis]
    is_whole = stroke.low_mm <= float(w.min()) and float(w.max()) <= stroke.high_mm
    shape = np.broadcast_shapes(u.shape, v.shape) if is_whole else np.broadcast_shapes(u.shape, v.shape, w.shape)
    fade = 1.0 if is_whole else fade_of(stroke, np.broadcast_to(w, shape).ravel())
    twists = twists_of(stroke, walls_of(pool.box, pool.height, stroke.axis))
    flat_u, flat_v = (np.broadcast_to(each, shape).ravel() for each in (u, v))
    u, v = (each.reshape(shape) for each in undo(twists, stroke.reach_mm, flat_u, flat_v, fade))
    return {"x": (w, u, v), "y": (u, w, v), "z": (u, v, w)}[stroke.axis]


CONSTANTS = (MOST_PIXELS,)
_HERE = "soapbench.science.pattern.face."
RELATIONS = (
    Relation("Distance to a wall", "min(u, U - u, v, V - v)", "mm", OWN_CHOICE, _HERE + "walls_of"),
    Relation("Portion at a point of a face", "back through strokes, then stages", "", REARRANGED, _HERE + "label_face"),
)
