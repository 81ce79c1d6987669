"""Which drawings the batter still takes: by its trace, the working time used up, the tool and the pour."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from soapbench.science.cut_advice import ACROSS_THE_ROD, LEVEL
from soapbench.science.errors import OutOfRange
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.strokes import GOES_UP, Rod

from .words import say

Trace = Literal["emulsion", "thin", "medium", "thick"]
TRACES: tuple[Trace, ...] = ("emulsion", "thin", "medium", "thick")

STIFFER_AT = Constant(
    "Working time used when the batter is a trace thicker",
    "",
    0.5,
    "",
    OWN_CHOICE,
    "trace_now",
    why="The working time is the time to too thick; half way there it is no longer as thin as seen.",
)
THICK_AT = Constant(
    "Working time used when the batter is thick",
    "",
    1.0,
    "",
    OWN_CHOICE,
    "trace_now",
    why="The working time is the time until a portion no longer pours.",
)
FINE_MM = Constant(
    "Lines nearer than this are fine",
    "",
    15.0,
    "mm",
    OWN_CHOICE,
    "bears",
    why="Lines nearer than a hand's usual step need a batter that flows.",
)

# The thickest trace in which a path can still be drawn; common practice in direction, the steps our own choice.
BEARS: dict[str, Trace] = {
    "none": "thick",
    "zigzag": "medium",
    "lengthwise zigzag": "medium",
    "figure eights": "medium",
    "spiral": "medium",
    "s curve": "thick",
    "round the edge": "thick",
    "lifted loops": "medium",
    "down and up": "thick",
}
COMB_BEARS: Trace = "thin"  # its teeth stand close


def bears(path: str, tool_kind: str, spacing_mm: float = 0.0) -> Trace:
    """Return the thickest trace in which this path can be drawn with this tool.

    Raises:
        OutOfRange: the path is unknown.
    """
    if path not in BEARS:
        raise OutOfRange(say("“{path}” is no drawing. Choose one of: {known}.", path=path, known=", ".join(BEARS)))
    if tool_kind == "comb":
        return COMB_BEARS
    if 0 < spacing_mm < FINE_MM.value and TRACES.index(BEARS[path]) > TRACES.index("thin"):
        return "medium" if BEARS[path] == "thick" else "thin"
    return BEARS[path]


def trace_now(seen: Trace, used: float) -> Trace:
    """Return how thick the batter is likely to be: as seen, and one trace thicker from half of a working time on.

    Args:
        seen: the trace that was seen last.
        used: share of the working time that is gone, of the portion that has least left; 1 and more is thick.
    """
    if used >= THICK_AT.value:
        return "thick"
    step = 1 if used >= STIFFER_AT.value else 0
    return TRACES[min(TRACES.index(seen) + step, len(TRACES) - 1)]


def is_borne(thickest: Trace, now: Trace) -> bool:
    """Return whether a batter as it is now is still thin enough."""
    return TRACES.index(now) <= TRACES.index(thickest)


def cannot_show(path: str, rod: Rod, pours: Collection[str]) -> str:
    """Return why a drawing would not show on any cut, "" where one shows it."""
    is_upright = rod == "upright" and path not in GOES_UP and path != "none"
    if is_upright and all(pour in LEVEL for pour in pours):
        return say("The layers lie level: an upright tool moves nothing there that a cut would show.")
    return ""


CONSTANTS = (STIFFER_AT, THICK_AT, FINE_MM)
_HERE = "soapbench.science.drawing_fit."
RELATIONS = (
    Relation(
        "Thickest trace that a path bears", "table by path; a comb thin only", "", COMMON_PRACTICE, _HERE + "bears"
    ),
    Relation("Whether a drawing is still possible", "trace now ≤ thickest", "", COMMON_PRACTICE, _HERE + "is_borne"),
    Relation("Drawings that no cut shows", "upright rod in level layers", "", ACROSS_THE_ROD, _HERE + "cannot_show"),
    Relation("Trace of a batter that waits", "one step at half its working time", "", OWN_CHOICE, _HERE + "trace_now"),
)
