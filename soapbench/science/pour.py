"""Where the batter lies in the mould, stage by stage: a section across the mould and what is seen from above.

The end view stands for the whole length: an area in it, times the length, is the volume of that batter. A cylinder is
taken as a box as wide as its diameter with the same floor; a mould with cavities as one cavity.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt
from typing import Literal

from soapbench.science.errors import not_negative, positive
from soapbench.science.mould import GEOMETRY, Mould
from soapbench.science.pour_bump import Curve, between, bump, grid, look_up, running
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

Way = Literal["layer", "side by side", "down the middle", "drops", "in the pot", "against the walls", "rings"]

REARRANGED = Source(
    "triangular-map",
    "Knothe–Rosenblatt rearrangement, in two dimensions",
    "pushes what is in aside so that every portion keeps its area and the surface stays level; areas tested",
    "from memory",
)
HALF_WIDTH = Constant(
    "Half width of a stream, of the mould's width",
    "",
    0.3,
    "",
    OWN_CHOICE,
    "pour",
    why="A stream spreads to about two thirds of a usual loaf.",
)
DROP_HALF = Constant(
    "Half width of a drop, of the mould's width",
    "",
    0.17,
    "",
    OWN_CHOICE,
    "pour",
    why="A drop spreads to about a third of a usual loaf.",
)
MOST_DEEP = Constant(
    "Most of the depth that a stream takes",
    "",
    0.6,
    "",
    OWN_CHOICE,
    "pour: it spreads beyond",
    why="A stream deeper than this would stand out of the batter rather than push it aside.",
)
STAYS_UP = Constant(
    "Height from which a drop stays on top", "", 30.0, "mm", COMMON_PRACTICE, "sinks_to: direction only"
)
GOES_DOWN = Constant(
    "Height from which a drop reaches the floor", "", 200.0, "mm", COMMON_PRACTICE, "sinks_to: direction only"
)
ROUNDS = Constant(
    "Rounds in which rings and pot swirls are laid",
    "",
    3,
    "",
    OWN_CHOICE,
    "pour: an example",
    why="Enough to show that the portions alternate.",
)
HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Room:
    """The inside of a mould as a box, mm; height_mm is 0 where it is not known."""

    length_mm: float
    width_mm: float
    height_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the pour: letters with their volumes in pouring order."""

    way: Way
    portions: tuple[tuple[str, float], ...]  # letter, ml
    height_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Cell:
    """One body of batter in the end view: between two curves over the width, from left to right."""

    letter: str
    stage: int
    places: Curve
    floor: Curve
    top: Curve
    left_mm: float
    right_mm: float

    @property
    def area_mm2(self) -> float:
        thick = [top - floor for top, floor in zip(self.top, self.floor, strict=True)]
        return between(self.places, thick, self.left_mm, self.right_mm)

    def height_at(self, place: float) -> tuple[float, float]:
        """Return the floor and the top of the body at a place across the mould."""
        return look_up(self.places, self.floor, place), look_up(self.places, self.top, place)

    @property
    def outline(self) -> tuple[tuple[float, float], ...]:
        """Return the body's outline as (across, up) in mm: along its floor and back along its top."""
        inside = [place for place in self.places if self.left_mm < place < self.right_mm]
        places = [self.left_mm, *inside, self.right_mm]
        heights = [self.height_at(place) for place in places]
        floor = [(place, low) for place, (low, _high) in zip(places, heights, strict=True)]
        top = [(place, high) for place, (_low, high) in zip(places, heights, strict=True)]
        return (*floor, *reversed(top))


@dataclass(frozen=True, slots=True)
class Poured:
    """The mould after one stage: every body in it, how high the batter stands, and what its surface shows."""

    cells: tuple[Cell, ...]
    level_mm: float

    @property
    def surface(self) -> tuple[tuple[str, float, float], ...]:
        """Return the strips that are seen from above, as (letter, from, to) across the mould in mm."""
        edges = sorted({edge for cell in self.cells for edge in (cell.left_mm, cell.right_mm)})
        strips: list[tuple[str, float, float]] = []
        for left, right in zip(edges, edges[1:], strict=False):
            letter = self._seen_at((left + right) / 2)
            if strips and strips[-1][0] == letter:
                strips[-1] = (letter, strips[-1][1], right)
            elif right - left > HAIR:
                strips.append((letter, left, right))
        return tuple(strips)

    def _seen_at(self, place: float) -> str:
        thick = [cell for cell in self.cells if cell.left_mm <= place <= cell.right_mm and _is_there(cell, place)]
        return max(thick, key=lambda cell: cell.height_at(place)[1]).letter


def _is_there(cell: Cell, place: float) -> bool:
    low, high = cell.height_at(place)
    return high - low > HAIR


def room_of(mould: Mould) -> Room:
    """Return the inside of a mould as a box with the same floor and depth; one cavity of a mould with cavities.

    Raises:
        OutOfRange: a measure is missing.

    Source: geometry.
    """
    if mould.shape == "cavities":
        not_negative(mould.height_mm, "The depth of the cavities", "mm")
        cavity = positive(mould.cavity_ml, "The volume of a cavity", "ml") * 1000
        side = sqrt(cavity / mould.height_mm) if mould.height_mm else float(cavity ** (1 / 3))
        return Room(side, side, mould.height_mm or side)
    if mould.shape == "cylinder":
        depth = not_negative(mould.depth_mm, "The mould's depth", "mm")
        return Room(mould.floor_mm2 / mould.diameter_mm, mould.diameter_mm, depth)
    return Room(
        mould.floor_mm2 / mould.width_mm, mould.width_mm, not_negative(mould.depth_mm, "The mould's depth", "mm")
    )


def sinks_to(height_mm: float) -> float:
    """Return where a drop from this height stops: 0 on the floor, 1 on top. Poured high it goes deep.

    Raises:
        OutOfRange: a negative height.

    Source: common practice for the direction; the two heights are taken from it.
    """
    span = GOES_DOWN.value - STAYS_UP.value
    return min(1.0, max(0.0, (GOES_DOWN.value - not_negative(height_mm, "The height", "mm")) / span))


def pour(room: Room, stages: Sequence[Stage]) -> tuple[Poured, ...]:
    """Return the mould after each stage, its areas being exact: area in the end view × length = volume.

    Layers lie level; side by side parts the width as the volumes; a stream down the middle or along the walls goes to
    the floor and pushes aside what is in; drops stop by their height; rings stay on top; a pot swirl is an example of
    bands, since where they come to lie is chance.

    Raises:
        OutOfRange: the room has no floor, or a volume is negative.
    """
    positive(room.length_mm, "The mould's length", "mm")
    places = grid(positive(room.width_mm, "The mould's width", "mm"))
    found, now = [], Poured((), 0.0)
    for number, stage in enumerate(stages, 1):
        for body in _bodies(stage):
            area = not_negative(body.volume_ml, "The batter", "ml") * 1000 / room.length_mm
            if area > HAIR:
                now = _put(now, places, body, area, number)
        found.append(now)
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Body:
    """Batter that goes in at once: letters beside one another, or one stream at its places across the mould."""

    letters: tuple[tuple[str, float], ...]
    centres: tuple[float, ...] = ()  # of the stream, as shares of the width; none lies level
    half: float = 0.0
    sinks: float = 1.0

    @property
    def volume_ml(self) -> float:
        return sum(volume for _letter, volume in self.letters)


def _bodies(stage: Stage) -> list[_Body]:
    each = [((letter, volume),) for letter, volume in stage.portions]
    half, count = HALF_WIDTH.value, len(each)
    if stage.way == "side by side":
        return [_Body(stage.portions)]
    if stage.way == "in the pot":
        return [_Body(part) for part in _rounds(stage)]
    if stage.way == "down the middle":
        return [_Body(one, (0.5,), half, 0.0) for one in each]
    if stage.way == "against the walls":
        walls = [(0.0, 1.0)] if count == 1 else [(float(at % 2),) for at in range(count)]
        return [_Body(one, walls[at % len(walls)], half, 0.0) for at, one in enumerate(each)]
    if stage.way == "drops":
        sinks = sinks_to(stage.height_mm)
        return [_Body(one, ((at + 1) / (count + 1),), DROP_HALF.value, sinks) for at, one in enumerate(each)]
    if stage.way == "rings":
        return [_Body(part, (0.5,), half, 1.0) for part in _rounds(stage)]
    return [_Body(one) for one in each]


def _rounds(stage: Stage) -> list[tuple[tuple[str, float]]]:
    count = int(ROUNDS.value)
    return [((letter, volume / count),) for _ in range(count) for letter, volume in stage.portions]


def _put(now: Poured, places: Curve, body: _Body, area: float, stage: int) -> Poured:
    if not body.centres or not now.cells:
        return _level(now, places, body, area, stage)
    return _stream(now, places, body, area, stage)


def _level(now: Poured, places: Curve, body: _Body, area: float, stage: int) -> Poured:
    width = places[-1]
    low, high = now.level_mm, now.level_mm + area / width
    cells, edge = list(now.cells), 0.0
    for letter, volume in body.letters:
        right = edge + width * volume / body.volume_ml
        cells.append(Cell(letter, stage, places, (low,) * len(places), (high,) * len(places), edge, right))
        edge = right
    cells[-1] = replace(cells[-1], right_mm=width)
    return Poured(tuple(cells), high)


def _stream(now: Poured, places: Curve, body: _Body, area: float, stage: int) -> Poured:
    width, old = places[-1], now.level_mm
    high = old + area / width
    thick = _thickness(places, body, area, high)
    pushed = _Push(places, thick, running(places, thick), old, high)
    parts = [part for cell in now.cells for part in _parted(cell, body.sinks * old)]
    moved = [pushed.move(cell, lifted=is_above) for cell, is_above in parts]
    floor = tuple(body.sinks * (high - one) for one in thick)
    top = tuple(low + one for low, one in zip(floor, thick, strict=True))
    there = [place for place, one in zip(places, thick, strict=True) if one > 0]
    step = places[1]
    left, right = max(0.0, there[0] - step), min(width, there[-1] + step)
    return Poured((*moved, Cell(body.letters[0][0], stage, places, floor, top, left, right)), high)


def _thickness(places: Curve, body: _Body, area: float, high: float) -> Curve:
    """Return the stream's thickness over the width; where it would be too deep it spreads, at last to a layer."""
    width, half = places[-1], body.half * places[-1]
    while half < 4 * width:
        shapes = [bump(places, centre * width, half) for centre in body.centres]
        shape = tuple(map(sum, zip(*shapes, strict=True)))
        found = tuple(one * area / running(places, shape)[-1] for one in shape)
        if max(found) <= MOST_DEEP.value * high:
            return found
        half *= 1.15
    return (area / width,) * len(places)


def _parted(cell: Cell, cut_mm: float) -> list[tuple[Cell, bool]]:
    """Return a body's parts under and over the height at which the stream stops, and whether each is over it."""
    under = replace(cell, floor=_at_most(cell.floor, cut_mm), top=_at_most(cell.top, cut_mm))
    over = replace(cell, floor=_at_least(cell.floor, cut_mm), top=_at_least(cell.top, cut_mm))
    return [(part, is_over) for part, is_over in ((under, False), (over, True)) if part.area_mm2 > HAIR]


def _at_most(curve: Curve, limit: float) -> Curve:
    return tuple(min(one, limit) for one in curve)


def _at_least(curve: Curve, limit: float) -> Curve:
    return tuple(max(one, limit) for one in curve)


@dataclass(frozen=True, slots=True)
class _Push:
    """How a stream moves what is in: aside and upwards, each place coming from one place of the level pool before."""

    places: Curve
    thick: Curve
    filled: Curve  # integral of thick
    old: float
    high: float

    def move(self, cell: Cell, *, lifted: bool) -> Cell:
        came_from = tuple(
            (self.high * place - filled) / self.old for place, filled in zip(self.places, self.filled, strict=True)
        )
        return replace(
            cell,
            floor=self._curve(cell.floor, came_from, lifted),
            top=self._curve(cell.top, came_from, lifted),
            left_mm=look_up(came_from, self.places, cell.left_mm),
            right_mm=look_up(came_from, self.places, cell.right_mm),
        )

    def _curve(self, curve: Curve, came_from: Curve, lifted: bool) -> Curve:
        before = [look_up(self.places, curve, place) for place in came_from]
        return tuple(
            height * (self.high - thick) / self.old + (thick if lifted else 0.0)
            for height, thick in zip(before, self.thick, strict=True)
        )


CONSTANTS = (HALF_WIDTH, DROP_HALF, MOST_DEEP, STAYS_UP, GOES_DOWN, ROUNDS)
_HERE = "soapbench.science.pour."
RELATIONS = (
    Relation("Mould as a box", "same floor, same depth", "mm", GEOMETRY, _HERE + "room_of"),
    Relation("Bodies of batter in the mould", "level layers; a stream pushes aside", "mm", REARRANGED, _HERE + "pour"),
    Relation("How deep a drop goes", "(200 mm − h)/(200 − 30)", "share of the depth", OWN_CHOICE, _HERE + "sinks_to"),
)
