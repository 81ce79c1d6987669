"""The pour as the maker tells it, turned into the stages of a pool: layers, columns, streams, drops, rings, bands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from soapbench.science.errors import OutOfRange, not_negative, positive
from soapbench.science.landing import DROPS, RING_SHARE
from soapbench.science.pattern.pool import Box, Bump, Columns, Lens, Pool, Stage, lens_fits
from soapbench.science.pour import DROP_HALF, HALF_WIDTH, ROUNDS, Room, sinks_to
from soapbench.science.pour import Stage as Told
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.words import say

WIDER = 1.15  # a stream too deep for the batter spreads by this until it fits
POT_BANDS = Constant(
    "Bands of each portion in an example of a pot swirl",
    "",
    3,
    "",
    OWN_CHOICE,
    "pool_of",
    why="Enough to read as mixed in the pot.",
)
HAIR_ML = 1e-9
Places = tuple[tuple[Bump, Bump], ...]


@dataclass(frozen=True, slots=True)
class Loaf:
    """A poured loaf, and the letter of each of its labels."""

    pool: Pool
    letters: tuple[str, ...]

    @property
    def height(self) -> float:
        return self.pool.height


def pool_of(room: Room, told: Sequence[Told]) -> Loaf:
    """Return the poured loaf; every portion has exactly the volume that was told.

    A stream or a ring that would be deeper than the batter lets it spreads, at last to a layer.

    Args:
        room: the inside of a loaf or a slab, mm.
        told: the stages in their order, ml by letter.

    Raises:
        OutOfRange: the room has no floor, a volume is negative, or nothing is poured.

    Source: common practice of the trade for what each way of pouring does, triangular rearrangement for the volumes.
    """
    box = Box(positive(room.length_mm, "The mould's length", "mm"), positive(room.width_mm, "The mould's width", "mm"))
    letters = tuple(sorted({letter for stage in told for letter, _volume in stage.portions}))
    stages: list[Stage] = []
    for stage in told:
        parts = tuple(
            (letters.index(letter), 1000 * volume)
            for letter, volume in stage.portions
            if not_negative(volume, "The batter", "ml") > HAIR_ML
        )
        if parts:
            low = sum(each.volume for each in stages) / box.floor
            stages += _WAYS.get(stage.way, _layers)(_Pour(box, parts, stage.height_mm, low))
    if not stages:
        raise OutOfRange(say("Nothing is poured yet. Tell at least one stage."))
    return Loaf(Pool(box, tuple(stages)), letters)


@dataclass(frozen=True, slots=True)
class _Pour:
    box: Box
    parts: tuple[tuple[int, float], ...]  # label, mm³
    height: float
    low: float  # the level before


def _layers(pour: _Pour) -> list[Stage]:
    return [Columns(volume, ((label, volume),)) for label, volume in pour.parts]


def _columns(pour: _Pour) -> list[Stage]:
    return [Columns(sum(volume for _label, volume in pour.parts), pour.parts)]


def _bands(pour: _Pour) -> list[Stage]:
    count = int(POT_BANDS.value)
    bands = tuple((label, volume / count) for _ in range(count) for label, volume in pour.parts)
    return [Columns(sum(volume for _label, volume in pour.parts), bands)]


def _middle(pour: _Pour) -> list[Stage]:
    half = HALF_WIDTH.value * pour.box.width
    return _lenses(pour, pour.parts, lambda _at: ((Bump(), Bump(pour.box.width / 2, half)),), 0.0)


def _walls(pour: _Pour) -> list[Stage]:
    half, width = HALF_WIDTH.value * pour.box.width, pour.box.width
    both = tuple((Bump(), Bump(wall, half)) for wall in (0.0, width))
    return _lenses(pour, pour.parts, lambda at: both if len(pour.parts) == 1 else (both[at % 2],), 0.0)


def _drops(pour: _Pour) -> list[Stage]:
    box, count = pour.box, int(DROPS.value)
    half, step = DROP_HALF.value * box.width, box.length / count

    def places(at: int) -> Places:
        across = (at + 1) / (len(pour.parts) + 1) * box.width
        return tuple((Bump((each + 0.5) * step, half), Bump(across, half)) for each in range(count))

    return _lenses(pour, pour.parts, places, sinks_to(pour.height))


def _rings(pour: _Pour) -> list[Stage]:
    box, rounds = pour.box, int(ROUNDS.value)
    along, across = (Bump(side / 2, RING_SHARE.value * box.width / 2) for side in (box.length, box.width))
    parts = tuple((label, volume / rounds) for _ in range(rounds) for label, volume in pour.parts)
    return _lenses(pour, parts, lambda _at: ((along, across),), 1.0)


def _lenses(
    pour: _Pour, parts: Sequence[tuple[int, float]], places: Callable[[int], Places], level: float
) -> list[Stage]:
    found: list[Stage] = []
    for at, (label, volume) in enumerate(parts):
        low = pour.low + sum(each.volume for each in found) / pour.box.floor
        found.append(_spread(Lens(volume, label, places(at), level), pour.box, low))
    return found


def _spread(lens: Lens, box: Box, low: float) -> Stage:
    """Return a lens that the batter under it lets stand: wider where it must be, at last a layer."""
    layer = Columns(lens.volume, ((lens.label, lens.volume),))
    while low > 0 and not lens_fits(lens, box, low):
        wider = tuple((_wider(bx), _wider(by)) for bx, by in lens.places)
        if max(by.half for _bx, by in wider) > 4 * box.width:
            return layer
        lens = replace(lens, places=wider)
    return lens if low > 0 else layer


def _wider(bump: Bump) -> Bump:
    return replace(bump, half=bump.half * WIDER)


_WAYS = {
    "layer": _layers,
    "side by side": _columns,
    "down the middle": _middle,
    "against the walls": _walls,
    "drops": _drops,
    "rings": _rings,
    "in the pot": _bands,
}
CONSTANTS = (POT_BANDS,)
RELATIONS = (
    Relation(
        "Poured loaf from the stages told",
        "layers, columns, lenses with V exact",
        "mm³",
        COMMON_PRACTICE,
        "soapbench.science.pattern.stages.pool_of",
    ),
)
