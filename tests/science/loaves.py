"""Loaves of 240 × 84 × 64 mm, poured and drawn in the ways whose faces are known."""

from soapbench.science.cut import CutPlan
from soapbench.science.mould import Mould
from soapbench.science.pattern.plans import best_cut, gains, offers
from soapbench.science.pattern.reveal import REACHES
from soapbench.science.pattern.stages import pool_of
from soapbench.science.pattern.tools import Tool, drawn_by
from soapbench.science.pour import Room, Stage
from soapbench.science.strokes import path_of

MOULD = Mould("box", 240.0, 84.0, 90.0)
ROOM = Room(240.0, 84.0, 90.0)
FILL = 64.0
WHOLE = 240 * 84 * 64 / 1000  # ml
SLICES = CutPlan("slices", 25.0, 3.0)

POURS = {
    "columns": (Stage("side by side", tuple((letter, WHOLE / 6) for letter in "ABCDEF")),),
    "layers": (Stage("layer", tuple((letter, WHOLE / 6) for letter in "ABABAB")),),
    "streams": (
        Stage("layer", (("A", WHOLE / 3),)),
        Stage("down the middle", tuple((letter, WHOLE / 6) for letter in "BCBC")),
    ),
    "rings": (Stage("layer", (("A", WHOLE / 3),)), Stage("rings", (("B", WHOLE / 3), ("C", WHOLE / 3)))),
    "drops": (Stage("layer", (("A", WHOLE * 0.7),)), Stage("drops", (("B", WHOLE * 0.15), ("C", WHOLE * 0.15)), 100.0)),
    "walls": (Stage("layer", (("A", WHOLE / 2),)), Stage("against the walls", (("B", WHOLE / 4), ("C", WHOLE / 4)))),
    "pot": (Stage("in the pot", (("A", WHOLE / 2), ("B", WHOLE / 2))),),
}


def loaf_of(pour):
    return pool_of(ROOM, POURS[pour])


def strokes_of(loaf, kind, path, spacing, share=1.0, trace="medium"):
    rod = "along" if kind == "hanger" else "upright"
    lines = path_of(path, 240, 84, 0, spacing, height_mm=loaf.height, rod=rod)
    return drawn_by(Tool(kind), lines, loaf.pool.box, loaf.height, trace, share)


def verdict_of(pour, kind, path, spacing):
    """Return the cut for a drawing, scored at three reaches."""
    loaf = loaf_of(pour)
    found = offers(MOULD, loaf.height, SLICES, 1.03)
    scores = [gains(found, loaf.pool, strokes_of(loaf, kind, path, spacing, share)) for share in REACHES]
    return best_cut(scores, found)
