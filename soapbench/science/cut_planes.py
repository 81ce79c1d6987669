"""Where the knife goes: the planes of a cut, in mm from the end, the side and the floor."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Literal, get_args

from soapbench.science.cut import ALONG_AXES, CutPlan, Way, cut_yield, pieces_along
from soapbench.science.errors import OutOfRange, chosen, not_negative, positive
from soapbench.science.mould import Mould
from soapbench.science.sources import OWN_CHOICE, Constant, Relation

from .words import say

Axis = Literal["along", "across", "up"]
Trims = tuple[float, float]

LAYER = Constant(
    "Thickness of a bar cut on its side",
    "",
    30.0,
    "mm",
    OWN_CHOICE,
    "turned: between 25 and 35 mm",
    why="A bar on its side is as thick as a slice.",
)
TOP_TRIM = Constant(
    "Uneven top that is cut off",
    "",
    4.0,
    "mm",
    OWN_CHOICE,
    "turned: over bars on their sides",
    why="The top of a loaf is seldom level.",
)
HAIR = 0.05  # mm: no cut so close to a face or to another cut


@dataclass(frozen=True, slots=True)
class Planes:
    """The cuts across one axis, in mm from the end (along), from one side (across) or from the floor (up)."""

    axis: Axis
    at_mm: tuple[float, ...]


def planes(mould: Mould, fill_height_mm: float, plan: CutPlan) -> tuple[Planes, ...]:
    """Return every cut of a plan, axis by axis; the bars lie between them, what is trimmed outside them.

    Raises:
        OutOfRange: as cut_yield does.

    Source: arithmetic along each axis.
    """
    cut_yield(mould, fill_height_mm, plan)  # refuses what does not suit the mould
    if mould.shape == "cavities":
        return ()
    ends = (plan.trim_mm, plan.trim_mm)
    if mould.shape == "cylinder":
        return _cuts("along", fill_height_mm, plan.thickness_mm, ends, plan)
    is_side, is_plank = plan.way == "blocks on their sides", plan.way == "long planks"
    length = plan.length_mm if is_side or is_plank else plan.thickness_mm
    width = plan.thickness_mm if is_plank else plan.width_mm
    height = plan.thickness_mm if is_side else plan.height_mm
    return (
        *_cuts("along", mould.length_mm, length, ends, plan),
        *_cuts("across", mould.width_mm, width, (plan.trim_side_mm, plan.trim_side_mm), plan),
        *_cuts("up", fill_height_mm, height, (plan.trim_bottom_mm, plan.trim_top_mm), plan),
    )


def _cuts(axis: Axis, size: float, wanted: float, trims: Trims, plan: CutPlan) -> tuple[Planes, ...]:
    pieces = pieces_along(size, wanted, sum(trims), plan.kerf_mm)
    step = (pieces.even_mm if plan.even else pieces.size_mm) + plan.kerf_mm
    edges = [trims[0] + number * step for number in range(pieces.count)]
    edges += [edges[-1] + step - plan.kerf_mm, size - trims[1]]
    found: list[float] = []
    for edge in edges:
        if HAIR < edge < size - HAIR and (not found or edge > found[-1] + HAIR):
            found.append(round(edge, 6))
    return (Planes(axis, tuple(found)),) if found else ()


def turned(mould: Mould, fill_height_mm: float, way: Way, bar_ml: float, trim_mm: float = 0.0) -> CutPlan:
    """Return a cut another way than planned, its bars of about the same volume, the leftovers shared out.

    Raises:
        OutOfRange: the volume, the height or a measure of the mould is not above zero, the way is unknown, the mould
            has cavities, or the loaf is too large to be shared out.

    Source: geometry; the layer and the trim are own choices.
    """
    chosen(way, get_args(Way), "a way to cut")
    not_negative(trim_mm, "The trim", "mm")
    if mould.shape == "cavities":
        raise OutOfRange(say("Cavities set the size of a bar; there is nothing to cut."))
    positive(mould.floor_mm2, "The mould's floor", "mm²")
    bar = positive(bar_ml, "A bar", "ml") * 1000
    high = positive(fill_height_mm, "The height of the soap", "mm")
    if mould.shape == "cylinder":
        return CutPlan("rounds", bar / (pi * mould.diameter_mm**2 / 4), trim_mm, even=True)
    if way == "blocks on their sides":
        usable = max(high - TOP_TRIM.value, high / 2)
        thick = usable / max(1, round(usable / LAYER.value))
        length = _along(mould, bar / (thick * mould.width_mm), trim_mm)
        return CutPlan(way, thick, trim_mm, length_mm=length, trim_top_mm=high - usable, even=True)
    if way == "long planks":
        thick = mould.width_mm / max(1, round(mould.width_mm / LAYER.value))
        return CutPlan(way, thick, trim_mm, length_mm=_along(mould, bar / (thick * high), trim_mm), even=True)
    return CutPlan("slices", _along(mould, bar / (mould.width_mm * high), trim_mm), trim_mm, even=True)


def _along(mould: Mould, wanted: float, trim_mm: float) -> float:
    """Return a length near the wanted one that shares the loaf out without a leftover."""
    usable = positive(mould.length_mm - 2 * trim_mm, "The loaf without its trims", "mm")
    return usable / max(1, round(usable / positive(wanted, "A bar", "mm")))


CONSTANTS = (LAYER, TOP_TRIM)
_HERE = "soapbench.science.cut_planes."
RELATIONS = (
    Relation("Planes of a cut", "trim + k·T from the end", "mm", ALONG_AXES, _HERE + "planes"),
    Relation("The same bars cut another way", "V/(w·t), shared out evenly", "mm", OWN_CHOICE, _HERE + "turned"),
)
