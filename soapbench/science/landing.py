"""Where each stage of a pour meets the batter, seen from above."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import Literal

from soapbench.science.pour import ROUNDS, Room, Stage
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation

Form = Literal["band", "spot"]
Volumes = tuple[tuple[str, float], ...]  # letter, ml

STREAM = Constant(
    "Width of a thin stream, of the mould's width",
    "",
    0.14,
    "",
    OWN_CHOICE,
    "landings",
    why="A jug poured low makes a stream about a finger wide in a usual loaf.",
)
DROPS = Constant("Drops of one portion in a line", "", 12, "", COMMON_PRACTICE, "landings: about a dozen")
RING_SHARE = Constant(
    "Width that rings take, of the mould's width",
    "",
    0.84,
    "",
    OWN_CHOICE,
    "landings",
    why="Rings stop short of the walls.",
)
BANDS = Constant(
    "Bands shown of a pot swirl",
    "",
    9,
    "",
    OWN_CHOICE,
    "landings: an example",
    why="Enough to read as mixed, few enough to see on a phone.",
)


@dataclass(frozen=True, slots=True)
class Landing:
    """One place that batter lands on: its middle and half sizes in mm; a spot is round or an ellipse."""

    letter: str
    form: Form
    along_mm: float
    across_mm: float
    half_along_mm: float
    half_across_mm: float


def landings(room: Room, stage: Stage) -> tuple[Landing, ...]:
    """Return where a stage lands, in the order in which it is poured: bands, lines of drops, or rings."""
    poured = tuple((letter, volume) for letter, volume in stage.portions if volume > 0)
    if stage.way == "side by side":
        return _columns(room, poured)
    if stage.way == "drops":
        return tuple(spot for at, one in enumerate(poured) for spot in _drops(room, one, (at + 1) / (len(poured) + 1)))
    if stage.way == "rings":
        return _rings(room, poured)
    if stage.way == "in the pot":
        return _bands(room, poured)
    if stage.way in ("down the middle", "against the walls"):
        return _streams(room, stage, poured)
    return tuple(_band(letter, room, 0.0, room.width_mm) for letter, _volume in poured[-1:])


def _band(letter: str, room: Room, left: float, right: float) -> Landing:
    return Landing(letter, "band", room.length_mm / 2, (left + right) / 2, room.length_mm / 2, (right - left) / 2)


def _columns(room: Room, poured: Volumes) -> tuple[Landing, ...]:
    whole, edge, found = sum(volume for _letter, volume in poured), 0.0, []
    for letter, volume in poured:
        right = edge + room.width_mm * volume / whole
        found.append(_band(letter, room, edge, right))
        edge = right
    return tuple(found)


def _streams(room: Room, stage: Stage, poured: Volumes) -> tuple[Landing, ...]:
    width = STREAM.value * room.width_mm
    middle, wall = room.width_mm / 2, room.width_mm - width
    if stage.way == "down the middle":
        return tuple(_band(letter, room, middle - width / 2, middle + width / 2) for letter, _volume in poured[-1:])
    places = [0.0, wall] if len(poured) == 1 else [wall * (at % 2) for at in range(len(poured))]
    letters = [poured[0][0]] * 2 if len(poured) == 1 else [letter for letter, _volume in poured]
    return tuple(_band(letter, room, left, left + width) for letter, left in zip(letters, places, strict=True))


def _drops(room: Room, one: tuple[str, float], across: float) -> list[Landing]:
    letter, volume = one
    count, step = int(DROPS.value), room.length_mm / DROPS.value
    radius = min((3 * volume * 1000 / count / 4 / pi) ** (1 / 3), step / 2.2)
    return [Landing(letter, "spot", (at + 0.5) * step, across * room.width_mm, radius, radius) for at in range(count)]


def _rings(room: Room, poured: Volumes) -> tuple[Landing, ...]:
    """Return the rings from the first and outermost to the last, their areas as the volumes."""
    order = [one for _ in range(int(ROUNDS.value)) for one in poured]
    left, whole = sum(volume for _letter, volume in order), sum(volume for _letter, volume in order)
    middle, found = (room.length_mm / 2, room.width_mm / 2), []
    for letter, volume in order:
        radius = RING_SHARE.value * room.width_mm / 2 * sqrt(left / whole)
        found.append(Landing(letter, "spot", *middle, radius, radius))
        left = max(0.0, left - volume)
    return tuple(found)


def _bands(room: Room, poured: Volumes) -> tuple[Landing, ...]:
    count, half = int(BANDS.value), room.length_mm / BANDS.value / 2
    letters = [poured[at % len(poured)][0] for at in range(count)] if poured else []
    return tuple(
        Landing(letter, "band", (2 * at + 1) * half, room.width_mm / 2, half, room.width_mm / 2)
        for at, letter in enumerate(letters)
    )


CONSTANTS = (STREAM, DROPS, RING_SHARE, BANDS)
RELATIONS = (
    Relation(
        "Where a stage lands",
        "bands, drops (3V/4πn)^⅓, rings by area",
        "mm",
        COMMON_PRACTICE,
        "soapbench.science.landing.landings",
    ),
)
