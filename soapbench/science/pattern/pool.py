"""The poured loaf: stage by stage into a level pool, each portion keeping its volume to the last drop.

A layer lies on what is in. Columns part a layer. A lens pushes old batter aside: it is let in by a triangular
rearrangement (Knothe and Rosenblatt), whose determinant is 1 and which fixes floor and walls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from soapbench.science.errors import OutOfRange, positive
from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source
from soapbench.science.words import say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating]
    Labels = NDArray[np.int8]
    Mask = NDArray[np.bool_]

REARRANGED = Source(
    "knothe-rosenblatt",
    "Knothe–Rosenblatt rearrangement, in three dimensions",
    "volumes of every portion tested by counting points",
    "from memory",
)
STEEPEST = Constant(
    "Most of the depth that a lens may take",
    "",
    0.6,
    "",
    OWN_CHOICE,
    "lens_fits",
    why="More would stand out of the batter rather than push it aside.",
)


@dataclass(frozen=True, slots=True)
class Box:
    """The inside of the mould that batter can fill, mm."""

    length: float
    width: float

    @property
    def floor(self) -> float:
        return self.length * self.width


@dataclass(frozen=True, slots=True)
class Bump:
    """A factor of a lens along one side: (1 - t²)² about a centre, mm; flat where the half width is 0."""

    centre: float = 0.0
    half: float = 0.0

    def at(self, s: Array) -> Array:
        import numpy as np

        if self.half == 0:
            return np.ones_like(s)
        t = (s - self.centre) / self.half
        return np.where(np.abs(t) < 1, (1 - t * t) ** 2, 0.0)

    def filled(self, s: Array) -> Array:
        """Return the integral from 0 to s."""
        import numpy as np

        if self.half == 0:
            return np.asarray(s, dtype=float)
        begin = np.clip(-self.centre / self.half, -1.0, 1.0)
        end = np.clip((s - self.centre) / self.half, begin, 1.0)
        return np.asarray(self.half * (_integral(end) - _integral(begin)))


def _integral(t: Array) -> Array:
    return t - 2 * t**3 / 3 + t**5 / 5


@dataclass(frozen=True)
class Columns:
    """A layer in which portions stand beside one another, their edges at the cumulative shares of one side.

    along: "y" parts the width, "x" the length. A plain layer is one column.
    """

    volume: float
    portions: tuple[tuple[int, float], ...]  # label, volume in mm³
    along: str = "y"


@dataclass(frozen=True)
class Lens:
    """Batter of one portion that pushes the old aside.

    places: pairs of bumps along the length and across the width. level: 0 sinks to the floor, 1 stays on top.
    """

    volume: float
    label: int
    places: tuple[tuple[Bump, Bump], ...]
    level: float


Stage = Columns | Lens


@dataclass(frozen=True)
class Pool:
    """A mould and the stages that were poured into it, first to last."""

    box: Box
    stages: tuple[Stage, ...]

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """Return the level before the first stage and after each, mm."""
        found = [0.0]
        for stage in self.stages:
            found.append(found[-1] + positive(stage.volume, "A stage of the pour", "mm³") / self.box.floor)
        return tuple(found)

    @property
    def height(self) -> float:
        return self.heights[-1]

    def portion_at(self, x: Array, y: Array, z: Array) -> Labels:
        """Return the label of the portion at each point of the poured, undrawn loaf; -1 above the batter.

        Args:
            x, y, z: flat arrays of one length, mm.
        """
        import numpy as np

        x, y, z = (np.array(each, dtype=float, copy=True) for each in (x, y, z))
        found = np.full(z.shape, -1, dtype=np.int8)
        open_ = np.flatnonzero(z <= self.height + 1e-9)
        for number in range(len(self.stages) - 1, -1, -1):
            if open_.size == 0:
                break
            low, high = self.heights[number], self.heights[number + 1]
            stage, at = self.stages[number], (x[open_], y[open_], z[open_])
            if isinstance(stage, Columns):
                inside, labels = _in_columns(stage, self.box, at, low)
            else:
                inside, labels = _in_lens(stage, self.box, at, low, high)
                back = before_lens(stage, self.box, at, low, high) if low > 0 else at
                x[open_], y[open_], z[open_] = back
            found[open_[inside]] = labels[inside]
            open_ = open_[~inside]
        return found


def _in_columns(stage: Columns, box: Box, at: tuple[Array, Array, Array], low: float) -> tuple[Mask, Labels]:
    import numpy as np

    x, y, z = at
    side, where = (box.width, y) if stage.along == "y" else (box.length, x)
    edges = np.cumsum([volume for _label, volume in stage.portions]) / stage.volume * side
    labels = np.array([label for label, _volume in stage.portions], dtype=np.int8)
    return z >= low, labels[np.minimum(np.searchsorted(edges, where, side="right"), len(labels) - 1)]


def _in_lens(stage: Lens, box: Box, at: tuple[Array, Array, Array], low: float, high: float) -> tuple[Mask, Labels]:
    import numpy as np

    x, y, z = at
    thick = thickness(stage, box, x, y)
    floor = stage.level * (high - thick)
    inside = (z >= floor) & (z < floor + thick) if low > 0 else z >= 0
    return inside, np.full(z.shape, stage.label, dtype=np.int8)


def _scale(stage: Lens, box: Box) -> float:
    """Return the factor that makes the lens hold its volume."""
    import numpy as np

    length, width = np.array([box.length]), np.array([box.width])
    total = sum(float(bx.filled(length)[0] * by.filled(width)[0]) for bx, by in stage.places)
    if total <= 0:
        raise OutOfRange(say("This pour lies outside the mould. Move it inwards."))
    return stage.volume / total


def thickness(stage: Lens, box: Box, x: Array, y: Array) -> Array:
    """Return how thick a lens is over the floor, mm; its integral is its volume.

    Raises:
        OutOfRange: the lens lies outside the mould.

    Source: bumps (1 - t²)², scaled to the volume.
    """
    import numpy as np

    return np.asarray(_scale(stage, box) * sum(bx.at(x) * by.at(y) for bx, by in stage.places))


def before_lens(
    stage: Lens, box: Box, at: tuple[Array, Array, Array], low: float, high: float
) -> tuple[Array, Array, Array]:
    """Return where old batter was before a lens pushed it aside.

    Args:
        at: points outside the lens, mm. low, high: the level before and after it, mm.

    Raises:
        OutOfRange: the lens lies outside the mould or is deeper than the batter, or a level is not above zero.

    Source: triangular rearrangement; determinant 1, floor and walls stay where they are.
    """
    import numpy as np

    x, y, z = at
    scale, width = _scale(stage, box), np.array([box.width])
    thick = thickness(stage, box, x, y)
    positive(low, "The level before", "mm")
    if positive(high, "The level after", "mm") <= float(np.max(thick, initial=0.0)):
        raise OutOfRange(say("This pour is deeper than the batter. Let it spread."))
    whole = [(bx, by, float(by.filled(width)[0])) for bx, by in stage.places]
    filled_x = scale * sum(bx.filled(x) * across for bx, _by, across in whole)
    filled_xy = scale * sum(bx.at(x) * by.filled(y) for bx, by, _across in whole)
    row = scale * sum(bx.at(x) * across for bx, _by, across in whole)
    under = z < stage.level * (high - thick) + thick / 2
    x0 = (box.width * high * x - filled_x) / (box.width * low)
    y0 = box.width * (high * y - filled_xy) / (box.width * high - row)
    z0 = np.where(under, z, z - thick) * low / (high - thick)
    return x0, y0, z0


def lens_fits(stage: Lens, box: Box, low: float) -> bool:
    """Return whether a lens takes no more of the depth than batter lets it: else it spreads.

    Raises:
        OutOfRange: the lens lies outside the mould.

    Source: own choice.
    """
    import numpy as np

    high = low + stage.volume / box.floor
    xs = np.array([bx.centre if bx.half else box.length / 2 for bx, _by in stage.places])
    ys = np.array([by.centre if by.half else box.width / 2 for _bx, by in stage.places])
    return bool(np.max(thickness(stage, box, xs, ys)) <= STEEPEST.value * high)


def volumes(stages: Sequence[Stage]) -> dict[int, float]:
    """Return mm³ by label.

    Source: addition.
    """
    found: dict[int, float] = {}
    for stage in stages:
        parts = stage.portions if isinstance(stage, Columns) else ((stage.label, stage.volume),)
        for label, volume in parts:
            found[label] = found.get(label, 0.0) + volume
    return found


CONSTANTS = (STEEPEST,)
_HERE = "soapbench.science.pattern.pool."
RELATIONS = (
    Relation("Thickness of a lens", "k·Σ X(x)·Y(y), ∬τ = V", "mm", REARRANGED, _HERE + "thickness"),
    Relation("Old batter before a lens", "x0, y0, z0 with determinant 1", "mm", REARRANGED, _HERE + "before_lens"),
    Relation("Does a lens stand", "max τ ≤ 0.6·h", "", OWN_CHOICE, _HERE + "lens_fits"),
    Relation("Volume of each portion poured", "Σ V", "mm³", REARRANGED, _HERE + "volumes"),
)
