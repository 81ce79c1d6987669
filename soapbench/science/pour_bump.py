"""Curves over the width of a mould, sampled on a grid: bumps of batter, their integrals, and looking them up."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from soapbench.science.sources import Relation, Source

TRAPEZOID = Source("trapezoid", "Trapezoid rule", "areas tested against the volumes poured", "computed")
SAMPLES = 96  # steps over the width; areas come out right to about 0.1 %

Curve = tuple[float, ...]


def grid(width_mm: float) -> Curve:
    """Return the places across the mould at which every curve is kept, mm."""
    return tuple(width_mm * step / SAMPLES for step in range(SAMPLES + 1))


def bump(places: Sequence[float], centre_mm: float, half_mm: float) -> Curve:
    """Return (1 - t²)² with t the distance from the centre over the half width; 0 outside."""
    return tuple(max(0.0, 1 - ((place - centre_mm) / half_mm) ** 2) ** 2 for place in places)


def running(places: Sequence[float], curve: Sequence[float]) -> Curve:
    """Return the integral of a curve from the first place to each place, by the trapezoid rule."""
    total, found = 0.0, [0.0]
    for at in range(1, len(places)):
        total += (curve[at - 1] + curve[at]) / 2 * (places[at] - places[at - 1])
        found.append(total)
    return tuple(found)


def look_up(places: Sequence[float], curve: Sequence[float], place: float) -> float:
    """Return the value of a curve at a place, straight between its samples; its ends go on level."""
    at = bisect_right(places, place)
    if at == 0:
        return curve[0]
    if at == len(places):
        return curve[-1]
    low, high = places[at - 1], places[at]
    part = (place - low) / (high - low) if high > low else 0.0
    return curve[at - 1] + part * (curve[at] - curve[at - 1])


def between(places: Sequence[float], curve: Sequence[float], left_mm: float, right_mm: float) -> float:
    """Return the integral of a curve between two places."""
    inside = [left_mm, *(place for place in places if left_mm < place < right_mm), right_mm]
    return running(inside, [look_up(places, curve, place) for place in inside])[-1]


CONSTANTS = ()
_HERE = "soapbench.science.pour_bump."
RELATIONS = (
    Relation("Places across the mould", "W·k/96", "mm", TRAPEZOID, _HERE + "grid"),
    Relation("Shape of a stream of batter", "(1 − t²)²", "", TRAPEZOID, _HERE + "bump"),
    Relation("Running integral of a curve", "Σ (a + b)/2·Δ", "mm²", TRAPEZOID, _HERE + "running"),
    Relation("Value of a curve between its samples", "straight line", "mm", TRAPEZOID, _HERE + "look_up"),
    Relation("Area under a curve between two places", "Σ (a + b)/2·Δ", "mm²", TRAPEZOID, _HERE + "between"),
)
