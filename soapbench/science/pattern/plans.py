"""The faces that each way of cutting lays open, and which of them shows a drawing best."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import get_args

from soapbench.science.cut import CutPlan, CutYield, Way, cut_yield
from soapbench.science.cut_planes import Axis as CutAxis
from soapbench.science.cut_planes import Planes, planes, turned
from soapbench.science.errors import OutOfRange, chosen
from soapbench.science.mould import Mould
from soapbench.science.pattern.draw import Drawn
from soapbench.science.pattern.face import Plane, label_face
from soapbench.science.pattern.pool import Pool
from soapbench.science.pattern.reveal import SCORE_PIXEL, TENSOR, Verdict, gain_of, recommend
from soapbench.science.sources import OWN_CHOICE, Constant, Relation
from soapbench.science.words import say

WAYS: tuple[Way, ...] = ("slices", "blocks on their sides", "long planks")
MAIN: dict[Way, CutAxis] = {"slices": "along", "blocks on their sides": "up", "long planks": "across"}
FACES = Constant(
    "Faces that stand for a plan", "", 3, "", OWN_CHOICE, "faces_of", why="They show whether faces differ."
)


@dataclass(frozen=True, slots=True)
class Offer:
    """One way to cut the loaf: its plan, what it gives, every cut, and the faces that stand for it."""

    way: Way
    plan: CutPlan
    gives: CutYield
    cuts: tuple[Planes, ...]
    faces: tuple[Plane, ...]  # whole planes of the loaf
    bar: Plane  # how much of the middle face one bar shows


def offers(mould: Mould, height: float, planned: CutPlan, density: float) -> tuple[Offer, ...]:
    """Return every way to cut a loaf or a slab, the planned one as planned, the others with bars of the same mass.

    A way that this loaf cannot be cut by is left out.

    Raises:
        OutOfRange: the mould is no loaf, or the planned cut does not suit it.

    Source: arithmetic along each axis.
    """
    if mould.shape not in ("box", "slab"):
        raise OutOfRange(say("Faces are computed for loaves and slabs only."))
    bar_ml = cut_yield(mould, height, planned, density).bar_mass_g / density
    found = []
    for way in WAYS:
        try:
            plan = planned if way == planned.way else turned(mould, height, way, bar_ml, planned.trim_mm)
            gives, cuts = cut_yield(mould, height, plan, density), planes(mould, height, plan)
        except OutOfRange:
            continue
        faces = faces_of(way, cuts, mould, height)
        found.append(Offer(way, plan, gives, cuts, faces, _bar(way, cuts, faces[len(faces) // 2])))
    return tuple(found)


def faces_of(way: Way, cuts: Sequence[Planes], mould: Mould, height: float) -> tuple[Plane, ...]:
    """Return whole planes of the loaf where this way lays it open: some of its cuts, spread over the loaf.

    Raises:
        OutOfRange: the way is unknown.

    Source: geometry.
    """
    axis = MAIN[chosen(way, WAYS, "a way to cut")]  # type: ignore[index]  # chosen from the ways
    size = {"along": mould.length_mm, "across": mould.width_mm, "up": height}[axis]
    at = next((one.at_mm for one in cuts if one.axis == axis), ())
    between = at[1:-1] if len(at) > 3 else at or (size / 2,)
    count = min(int(FACES.value), len(between))
    picked = [between[round((each + 0.5) * len(between) / count - 0.5)] for each in range(count)]
    return tuple(_plane(axis, each, mould, height) for each in dict.fromkeys(picked))


def _plane(axis: CutAxis, at: float, mould: Mould, height: float) -> Plane:
    if axis == "along":
        return Plane("x", at, 0, mould.width_mm, 0, height)
    if axis == "across":
        return Plane("y", at, 0, mould.length_mm, 0, height)
    return Plane("z", at, 0, mould.length_mm, 0, mould.width_mm)


def _bar(way: Way, cuts: Sequence[Planes], face: Plane) -> Plane:
    """Return the part of a face that one bar shows: between the cuts nearest its middle."""
    sides: dict[str, tuple[CutAxis, CutAxis]] = {"x": ("across", "up"), "y": ("along", "up"), "z": ("along", "across")}
    across, up = sides[face.normal]
    left, right = _between(cuts, across, face.left, face.right)
    bottom, top = _between(cuts, up, face.bottom, face.top)
    return Plane(face.normal, face.at, left, right, bottom, top)


def _between(cuts: Sequence[Planes], axis: CutAxis, low: float, high: float) -> tuple[float, float]:
    edges = [low, *(at for one in cuts if one.axis == axis for at in one.at_mm), high]
    middle = (low + high) / 2
    pairs = zip(edges, edges[1:], strict=False)
    return min(pairs, key=lambda pair: (round(abs(sum(pair) / 2 - middle), 3), pair[0] - pair[1]))


def gains(
    found: Sequence[Offer], pool: Pool, strokes: Sequence[Drawn], before: Sequence[Drawn] = ()
) -> dict[str, float]:
    """Return what the drawing adds to the faces of each way, cm/cm².

    Args:
        strokes: the drawing.
        before: what chance did to the batter before it was drawn, in both pictures.

    Raises:
        OutOfRange: a stroke cannot be followed.

    Source: windowed tensor of colour edges.
    """
    pixel = SCORE_PIXEL.value
    return {
        each.way: gain_of(
            [label_face(face, pixel, pool, (*before, *strokes)) for face in each.faces],
            [label_face(face, pixel, pool, before) for face in each.faces],
        )
        for each in found
    }


def best_cut(scores: Sequence[Mapping[str, float]], found: Sequence[Offer]) -> Verdict:
    """Return the way to cut, among ways as good the one with more bars first.

    Args:
        scores: by way, at each reach that was tried, the likely one in the middle.

    Raises:
        OutOfRange: nothing was scored.

    Source: own choice.
    """
    verdict = recommend(scores)
    known = {each.way: each for each in found if each.way in get_args(Way)}
    as_good = [verdict.best, *verdict.also] if verdict.best else []
    if len(as_good) < 2 or any(way not in known for way in as_good):
        return verdict
    ranked = sorted(as_good, key=lambda way: (-known[way].gives.count, known[way].gives.leftover_g))  # type: ignore[index]  # as asked above
    return Verdict(ranked[0], tuple(ranked[1:]), verdict.gains)


CONSTANTS = (FACES,)
_HERE = "soapbench.science.pattern.plans."
RELATIONS = (
    Relation("Ways to cut a loaf", "bars of the same volume each way", "", OWN_CHOICE, _HERE + "offers"),
    Relation("Faces of a cut", "planes at the cuts, spread over the loaf", "mm", OWN_CHOICE, _HERE + "faces_of"),
    Relation("What a drawing adds to each cut", "mean over its faces", "cm/cm²", TENSOR, _HERE + "gains"),
    Relation("Cut among equals", "more bars, then less left over", "", OWN_CHOICE, _HERE + "best_cut"),
)
