"""The cut: how many bars, how large, how heavy, and what is left over."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from soapbench.science.errors import SMALLEST, OutOfRange, not_negative, positive
from soapbench.science.mould import Mould
from soapbench.science.sources import COMMON_PRACTICE, Constant, Relation, Source

from .words import plural, say

Way = Literal["slices", "blocks on their sides", "long planks", "rounds", "cavities"]
Size = tuple[float, float, float]

ALONG_AXES = Source("cut-arithmetic", "Arithmetic of cutting along one axis", "worked by hand in the tests", "computed")
BATTER_DENSITY = Constant(
    "Density of batter where it was not measured", "ρ", 1.03, "g/ml", COMMON_PRACTICE, "cut_yield"
)
WHOLE = 1e-9  # keeps 9.0000000001 pieces from being 10 and 8.9999999999 from being 8


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How the loaf is cut; all in mm.

    thickness_mm is measured along the loaf for slices, along the axis for rounds, across the loaf for long planks,
    and upright (the layer) for blocks on their sides. The other sizes of a bar are length_mm (along the loaf),
    width_mm (across) and height_mm (upright); 0 means that this way is not cut, so that the bar keeps the loaf's own
    size. trim_mm comes off each end, trim_side_mm off each side, the other two off the bottom and the top.
    kerf_mm is soap that the tool removes: 0 for wire and blade.
    """

    way: Way
    thickness_mm: float = 0
    trim_mm: float = 0
    kerf_mm: float = 0
    length_mm: float = 0
    width_mm: float = 0
    height_mm: float = 0
    trim_side_mm: float = 0
    trim_bottom_mm: float = 0
    trim_top_mm: float = 0
    even: bool = False


@dataclass(frozen=True, slots=True)
class Pieces:
    """Pieces along one axis: how many, how thick, what is left, and the thickness that leaves nothing."""

    count: int
    size_mm: float
    leftover_mm: float
    even_mm: float


@dataclass(frozen=True, slots=True)
class CutYield:
    """What a cut gives. leftover_mm is along the axis of thickness_mm; leftover_g is all that is no bar."""

    count: int
    bar_mass_g: float
    bar_size_mm: tuple[float, ...]
    leftover_mm: float
    sentence: str
    leftover_g: float = 0
    even_size_mm: tuple[float, ...] = ()
    even_bar_mass_g: float = 0


@dataclass(frozen=True, slots=True)
class WireCut:
    """What a frame of wires at a fixed pitch does to a loaf: whether it spans it, full bars, the two end pieces."""

    fits: bool
    full_bars: int
    end_piece_mm: float


def pieces_along(size_mm: float, target_mm: float, trim_mm: float = 0, kerf_mm: float = 0) -> Pieces:
    """Return the pieces that one axis gives: n = ⌊(u + k)/(T + k)⌋ of the length u that the trims leave.

    Args:
        size_mm: the loaf along this axis.
        target_mm: thickness wanted; 0 keeps the axis whole.
        trim_mm: taken off in all, both ends together.
        kerf_mm: lost at each cut between two pieces.

    Raises:
        OutOfRange: a measure is negative, the trims eat the loaf, or not one piece comes out.

    Source: arithmetic along one axis.
    """
    usable = positive(size_mm, "The loaf", "mm") - not_negative(trim_mm, "The trim", "mm")
    not_negative(kerf_mm, "The cut", "mm")
    if usable <= 0:
        raise OutOfRange(
            say("Trimming {trim:g} mm leaves nothing of {size:.4g} mm. Trim less.", trim=trim_mm, size=size_mm)
        )
    if not_negative(target_mm, "The thickness of a bar", "mm") < SMALLEST:
        return Pieces(1, usable, 0, usable)
    count = math.floor((usable + kerf_mm) / (target_mm + kerf_mm) + WHOLE)
    if count < 1:
        raise OutOfRange(
            say(
                "{usable:.4g} mm is less than one bar of {target:g} mm. Cut thinner or trim less.",
                usable=usable,
                target=target_mm,
            )
        )
    cuts = (count - 1) * kerf_mm
    leftover = max(0.0, usable - count * target_mm - cuts)
    return Pieces(count, target_mm, leftover, (usable - cuts) / count)


def cut_yield(mould: Mould, fill_height_mm: float, plan: CutPlan, density: float = BATTER_DENSITY.value) -> CutYield:
    """Return count, size and fresh mass of the bars that a cut plan gives.

    Args:
        mould: what the soap was poured into.
        fill_height_mm: how high it stood (the length of the soap for a cylinder). For cavities it only counts
            where the mould's height_mm is given; otherwise they are taken as full.
        plan: the cut. With even=True the bars share the leftover.
        density: of the batter in g/ml.

    Raises:
        OutOfRange: the plan does not suit the mould, or not one bar comes out of it.

    Source: geometry.
    """
    _check_way(mould, plan)
    positive(density, "The density of the batter", "g/ml")
    if mould.shape == "cavities":
        return _cavity_yield(mould, fill_height_mm, density)
    positive(fill_height_mm, "The height of the soap in the mould", "mm")
    axes = _axes(mould, fill_height_mm, plan)
    floor = math.pi * mould.diameter_mm**2 / 4 if mould.shape == "cylinder" else 1.0
    total_g = mould.floor_mm2 * fill_height_mm * density / 1000
    sizes = tuple(axis.size_mm for axis in axes)
    evens = tuple(axis.even_mm for axis in axes)
    count = math.prod(axis.count for axis in axes)
    mass, even_mass = (math.prod(s) * floor * density / 1000 for s in (sizes, evens))
    left = 0.0 if plan.even else axes[_main_axis(plan.way)].leftover_mm
    chosen, chosen_mass = (evens, even_mass) if plan.even else (sizes, mass)
    across = (mould.diameter_mm,) if mould.shape == "cylinder" else ()
    leftover_g = max(0.0, total_g - count * chosen_mass)
    sentence = _sentence(count, across + chosen, chosen_mass, leftover_g)
    return CutYield(count, chosen_mass, across + chosen, left, sentence, leftover_g, across + evens, even_mass)


def thickness_for_mass(mould: Mould, fill_height_mm: float, mass_g: float, density: float, plan: CutPlan) -> float:
    """Return the thickness in mm that gives bars of a fresh mass, the other two sizes being those of the plan.

    Raises:
        OutOfRange: the mass is not above zero, the plan does not suit the mould, or the mould has no thickness to
            choose (cavities).

    Source: geometry.
    """
    _check_way(mould, plan)
    if mould.shape == "cavities":
        raise OutOfRange(say("Cavities set the size of a bar; there is nothing to cut."))
    positive(mass_g, "The mass of a bar")
    positive(density, "The density of the batter", "g/ml")
    if mould.shape == "cylinder":
        return mass_g * 1000 / (density * mould.floor_mm2)
    axes = list(_axes(mould, fill_height_mm, plan))
    del axes[_main_axis(plan.way)]
    return mass_g * 1000 / (density * math.prod(axis.even_mm if plan.even else axis.size_mm for axis in axes))


def cut_into(mould: Mould, fill_height_mm: float, plan: CutPlan, bars: int, density: float) -> CutYield:
    """Return what the soap gives when it is shared out evenly among so many bars along the plan's main axis.

    The plan's own thickness is not used: it follows from the number.

    Raises:
        OutOfRange: as cut_yield does, or there is not one bar, or the mould has cavities (see cast_into).

    Source: geometry.
    """
    _check_way(mould, plan)
    if mould.shape == "cavities":
        raise OutOfRange(say("Cavities set the size of a bar; there is nothing to cut."))
    positive(bars, "The number of bars", "")
    whole = _axes(mould, fill_height_mm, replace(plan, thickness_mm=0))[_main_axis(plan.way)]
    thickness = (whole.size_mm - (bars - 1) * plan.kerf_mm) / bars
    return cut_yield(mould, fill_height_mm, replace(plan, thickness_mm=thickness), density)


def cast_into(mould: Mould, volume_ml: float, bars: int, density: float = BATTER_DENSITY.value) -> CutYield:
    """Return what a mould with cavities gives when the batter is shared out evenly among so many of them.

    Raises:
        OutOfRange: there are not so many cavities, or a share is more than a cavity holds.

    Source: mass is density times volume.
    """
    positive(density, "The density of the batter", "g/ml")
    positive(mould.cavity_ml, "The volume of a cavity", "ml")
    not_negative(mould.height_mm, "The depth of the cavities", "mm")
    if positive(bars, "The number of bars", "") > mould.cavities:
        raise OutOfRange(
            say("This mould has {cavities} cavities. Ask for so many bars at most.", cavities=mould.cavities)
        )
    share_ml = positive(volume_ml, "The batter", "ml") / bars
    if share_ml > mould.cavity_ml * (1 + WHOLE):
        raise OutOfRange(
            say(
                "A bar of {share:.0f} ml is more than a cavity of {cavity:g} ml. Ask for less.",
                share=share_ml,
                cavity=mould.cavity_ml,
            )
        )
    mass = share_ml * density
    size = (mould.height_mm * share_ml / mould.cavity_ml,) if mould.height_mm else ()
    return CutYield(
        bars,
        mass,
        size,
        0,
        say("{bars} of {mass:.0f} g fresh, no cutting.", bars=_bars(bars), mass=mass),
        0,
        size,
        mass,
    )


def mass_to_pour(mould: Mould, bars_g: float, plan: CutPlan, density: float) -> float:
    """Return the grams to pour so that the bars weigh bars_g together after the trims are off; kerfs not counted.

    Raises:
        OutOfRange: the bars weigh nothing, or the trims eat the loaf.

    Source: geometry.
    """
    positive(bars_g, "The bars")
    positive(density, "The density of the batter", "g/ml")
    if mould.shape == "cavities":
        return bars_g
    per_mm = mould.floor_mm2 * density / 1000
    if mould.shape == "cylinder":
        return bars_g + 2 * not_negative(plan.trim_mm, "The trim", "mm") * per_mm
    kept = (
        pieces_along(mould.length_mm, 0, 2 * plan.trim_mm).size_mm
        / mould.length_mm
        * pieces_along(mould.width_mm, 0, 2 * plan.trim_side_mm).size_mm
        / mould.width_mm
    )
    flat = not_negative(plan.trim_bottom_mm + plan.trim_top_mm, "The trim", "mm")
    return bars_g / kept + flat * per_mm


def wires_along(size_mm: float, wires: int, pitch_mm: float) -> WireCut:
    """Return what a frame of wires does along one axis: it fits when (wires - 1)·pitch is within the size.

    Raises:
        OutOfRange: there are fewer than two wires, or a measure is not above zero.

    Source: arithmetic along one axis.
    """
    if wires < 2:
        raise OutOfRange(say("A frame needs two wires or more to set the thickness of a bar."))
    spare = positive(size_mm, "The loaf", "mm") - (wires - 1) * positive(pitch_mm, "The pitch of the wires", "mm")
    return WireCut(spare >= -WHOLE, wires - 1, max(0.0, spare / 2))


def _check_way(mould: Mould, plan: CutPlan) -> None:
    ways = {"cylinder": ("rounds",), "cavities": ("cavities",)}
    allowed = ways.get(mould.shape, ("slices", "blocks on their sides", "long planks"))
    if plan.way not in allowed:
        raise OutOfRange(
            say(
                "A {shape} mould is not cut into {way}. Choose {allowed}.",
                shape=mould.shape,
                way=plan.way,
                allowed=" or ".join(allowed),
            )
        )


def _main_axis(way: Way) -> int:
    return {"blocks on their sides": 2, "long planks": 1}.get(way, 0)


def _axes(mould: Mould, fill_height_mm: float, plan: CutPlan) -> tuple[Pieces, ...]:
    ends, kerf = 2 * plan.trim_mm, plan.kerf_mm
    if plan.way == "rounds":
        return (pieces_along(fill_height_mm, plan.thickness_mm, ends, kerf),)
    targets = [plan.length_mm, plan.width_mm, plan.height_mm]
    targets[_main_axis(plan.way)] = plan.thickness_mm
    sizes = (mould.length_mm, mould.width_mm, fill_height_mm)
    trims = (ends, 2 * plan.trim_side_mm, plan.trim_bottom_mm + plan.trim_top_mm)
    return tuple(pieces_along(*axis, kerf) for axis in zip(sizes, targets, trims, strict=True))


def _cavity_yield(mould: Mould, fill_height_mm: float, density: float) -> CutYield:
    fill = fill_height_mm / mould.height_mm if mould.height_mm else 1.0
    if not 0 < fill <= 1 + WHOLE:
        raise OutOfRange(say("Cavities cannot be filled above their rim. Look at the height."))
    mass = mould.volume_ml / mould.cavities * fill * density
    size = (mould.height_mm * fill,) if mould.height_mm else ()
    sentence = say("{bars} of {mass:.0f} g fresh, no cutting.", bars=_bars(mould.cavities), mass=mass)
    return CutYield(mould.cavities, mass, size, 0, sentence, 0, size, mass)


def _bars(count: int) -> str:
    return plural("{count} bar", "{count} bars", count)


def _sentence(count: int, sizes: tuple[float, ...], mass_g: float, leftover_g: float) -> str:
    size = " × ".join(f"{size:.3g}" for size in sizes)
    rest = " " + say("{leftover:.0f} g of trimmings.", leftover=leftover_g) if leftover_g >= 0.5 else ""
    return say(
        "{bars} of {size} mm, {mass:.0f} g each before drying.{rest}",
        bars=_bars(count),
        size=size,
        mass=mass_g,
        rest=rest,
    )


CONSTANTS = (BATTER_DENSITY,)
_HERE = "soapbench.science.cut."
RELATIONS = (
    Relation("Pieces along an axis", "n = ⌊(u + k)/(T + k)⌋", "pieces", ALONG_AXES, _HERE + "pieces_along"),
    Relation("Bars from a loaf", "product over the axes; mass = ρ·volume", "bars, g", ALONG_AXES, _HERE + "cut_yield"),
    Relation("Thickness for a mass", "T = m/(ρ·w·h)", "mm", ALONG_AXES, _HERE + "thickness_for_mass"),
    Relation("Bars of equal share", "T = (u - (n - 1)·k)/n", "mm, g", ALONG_AXES, _HERE + "cut_into"),
    Relation("Cast bars of equal share", "m = ρ·V/n", "g", ALONG_AXES, _HERE + "cast_into"),
    Relation("Soap to pour for bars after trimming", "m = m_bars·L/(L - 2t)", "g", ALONG_AXES, _HERE + "mass_to_pour"),
    Relation("Wires of a frame", "(m - 1)·s ≤ size", "mm", ALONG_AXES, _HERE + "wires_along"),
)
