"""What a tool does along a path: a skewer, a comb, a spoon or a hanger, turned into drawn strokes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from soapbench.science.errors import not_negative, positive
from soapbench.science.pattern.draw import ENDLESS_MM, Axis, Drawn, reach_mm
from soapbench.science.pattern.pool import Box
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.strokes import Stroke, View

AXES: dict[View, Axis] = {"top": "z", "end": "x", "side": "y"}
USUAL = {
    "skewer": Constant("Thickness of a skewer where none is given", "D", 4, "mm", COMMON_PRACTICE, "drawn_by: 3 to 6"),
    "hanger": Constant("Thickness of a hanger where none is given", "D", 5, "mm", COMMON_PRACTICE, "drawn_by: 2 to 8"),
    "comb": Constant("Thickness of a comb's tooth", "D", 3, "mm", COMMON_PRACTICE, "drawn_by: where none is given"),
    "spoon": Constant("Width of a spoon", "D", 20, "mm", COMMON_PRACTICE, "drawn_by: where none is given"),
}
TEETH = Constant("Teeth of a comb", "", 4, "", OWN_CHOICE, "drawn_by", why="A comb as makers cut them for a loaf.")
TOOTH_PITCH = Constant(
    "Teeth of a comb apart", "", 15, "mm", OWN_CHOICE, "drawn_by", why="Closer teeth drag the batter as a block."
)
END_GAP = Constant(
    "Bar of a hanger ends before the wall", "", 6, "mm", OWN_CHOICE, "drawn_by", why="So that it goes in."
)
WALL_MM = 1.0  # a tooth that would come nearer a wall is held there


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool by its kind and thickness; diameter_mm 0 takes the usual one."""

    kind: str
    diameter_mm: float = 0.0

    @property
    def width(self) -> float:
        """Return its thickness, mm: as given, else the usual one of its kind.

        Raises:
            OutOfRange: the thickness is negative or no number.
        """
        given = not_negative(self.diameter_mm, "The thickness of the tool", "mm")
        return given or USUAL.get(self.kind, USUAL["skewer"]).value


def drawn_by(
    tool: Tool, strokes: Sequence[Stroke], box: Box, height: float, trace: str, share: float = 1.0
) -> tuple[Drawn, ...]:
    """Return the strokes as the model draws them, in their order.

    Strokes that go on where the last ended are one; a comb draws each with all its teeth.

    Args:
        strokes: as path_of gives them, or as drawn by hand.
        height: of the batter, mm.
        trace: of the batter; it sets how far the tool pulls.
        share: of that reach, such as 0.6 and 1.6 to see how firm a picture is, or the maker's own by calibration.

    Raises:
        OutOfRange: the trace is unknown, or a measure is not above zero.

    Source: common practice for the tools; the bar of a hanger, the legs of which are left out, is straight.
    """
    reach = reach_mm(trace, tool.width) * positive(share, "The reach", "")
    found: list[Drawn] = []
    for view, line in _joined(strokes):
        low, high = _ends(view, tool, box, height, strokes[0].depth_mm)
        for corners in _teeth(tool, view, line, box):
            found.append(Drawn(AXES[view], corners, tool.width, reach, low, high))
    return tuple(found)


def _joined(strokes: Sequence[Stroke]) -> list[tuple[View, tuple[tuple[float, float], ...]]]:
    found: list[tuple[View, tuple[tuple[float, float], ...]]] = []
    for stroke in strokes:
        if found and found[-1][0] == stroke.view and found[-1][1][-1] == stroke.start:
            found[-1] = (stroke.view, found[-1][1] + stroke.points[1:])
        else:
            found.append((stroke.view, stroke.points))
    return found


def _ends(view: View, tool: Tool, box: Box, height: float, depth: float) -> tuple[float, float]:
    """Return where the rod begins and ends along itself."""
    if view == "end":
        return END_GAP.value, box.length - END_GAP.value
    if view == "side":  # an upright tool that is pumped: only as wide as it is
        return box.width / 2 - tool.width / 2, box.width / 2 + tool.width / 2
    return -ENDLESS_MM if depth >= height else height - depth, ENDLESS_MM


def _teeth(
    tool: Tool, view: View, line: tuple[tuple[float, float], ...], box: Box
) -> list[tuple[tuple[float, float], ...]]:
    if tool.kind != "comb" or view != "top":
        return [line]
    count = int(TEETH.value)
    gaps = [(at - (count - 1) / 2) * TOOTH_PITCH.value for at in range(count)]
    return [tuple((min(max(u + gap, WALL_MM), box.length - WALL_MM), v) for u, v in line) for gap in gaps]


CONSTANTS = (*USUAL.values(), TEETH, TOOTH_PITCH, END_GAP)
RELATIONS = (
    Relation(
        "Strokes of a tool",
        "rod along its axis; a comb as its teeth",
        "mm",
        COMMON_PRACTICE,
        "soapbench.science.pattern.tools.drawn_by",
    ),
)
