"""Which cut shows what was really drawn: a plain table, each line with its reason.

A straight rod moves batter only across itself. A face that holds the rod's direction shows straight bands, the face
across it shows the drawing: that is why the tool decides the cut.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from soapbench.science.cut import Way
from soapbench.science.mould import Shape
from soapbench.science.sources import OWN_CHOICE, Relation, Source
from soapbench.science.strokes import GOES_UP, Rod

from .words import say

Strength = Literal["clear", "either", "hardly shows", "no drawing"]

ACROSS_THE_ROD = Source(
    "across-the-rod",
    "A rod draws in the plane across itself",
    "geometry of a straight tool; how strongly each face shows it was not measured on real soap",
    "computed",
)
LEVEL = ("layer",)  # pours whose level planes are all one colour
NESTED = ("rings",)  # bowls that differ at every depth


@dataclass(frozen=True, slots=True)
class CutAdvice:
    """The way of cutting that suits a drawing, why, and how sure that is; the planned way where none is better."""

    way: Way
    why: str
    strength: Strength
    also: tuple[Way, ...] = ()  # as good


def advise_cut(path: str, rod: Rod, pours: Collection[str], shape: Shape, planned: Way) -> CutAdvice:
    """Return the cut that shows a drawing best.

    Args:
        path: what was drawn, "none" for nothing.
        rod: how the tool lay in the batter.
        pours: the ways in which the portions were poured.
        shape, planned: the mould and the cut of the plan.
    """
    if path == "none":
        return CutAdvice(planned, say("Nothing was drawn: cut as planned."), "no drawing")
    if shape == "cavities":
        return CutAdvice("cavities", say("These bars are not cut. What was drawn shows on top."), "clear")
    if shape == "cylinder":
        return CutAdvice("rounds", say("A round across the loaf shows what an upright tool drew."), "clear")
    if shape == "slab" and rod == "upright" and path not in GOES_UP:
        return CutAdvice(
            planned, say("A slab shows what was drawn from above on its large face, however it is cut."), "clear"
        )
    if rod == "upright" and path in GOES_UP:
        rod = "across"
    return _by_rod(rod, pours, planned)


def _by_rod(rod: Rod, pours: Collection[str], planned: Way) -> CutAdvice:
    if rod == "along":
        why = say("The bar lay along the loaf, so the drawing stands on every slice across it, and on no other face.")
        return CutAdvice("slices", why, "clear")
    if rod == "across":
        why = say("The tool went up and down along the loaf: faces along the loaf show it, slices show bands.")
        return CutAdvice("long planks", why, "either", ("blocks on their sides",))
    if all(pour in LEVEL for pour in pours):
        why = say("An upright tool moves level layers within themselves: no cut shows it. Cut as planned.")
        return CutAdvice(planned, why, "hardly shows")
    if any(pour in NESTED for pour in pours):
        why = say("Rings drawn from above show on level faces and on slices alike. Take what gives the better bars.")
        also: tuple[Way, ...] = ("slices",) if planned != "slices" else ("blocks on their sides",)
        return CutAdvice(planned, why, "either", also)
    why = say("Drawn from above with an upright tool: it shows on level faces. Slices would show plain stripes.")
    return CutAdvice("blocks on their sides", why, "clear")


CONSTANTS = ()
RELATIONS = (
    Relation(
        "Cut that shows a drawing",
        "the faces across the rod",
        "",
        ACROSS_THE_ROD,
        "soapbench.science.cut_advice.advise_cut",
    ),
    Relation(
        "Cut of nested rings, and of a tool drawn upwards",
        "no firm winner: either",
        "",
        OWN_CHOICE,
        "soapbench.science.cut_advice.advise_cut",
    ),
)
