"""The drawing as the screen shows it: its strokes, its steps, and the drawings that could be made instead."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.formula import Drawing
from soapbench.bench.cut_words import way_words
from soapbench.bench.pictures.drawing import hanger_picture, stroke_picture, strokes_of
from soapbench.bench.pictures.drawn import Picture
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.plan import Choice
from soapbench.science.cut_advice import advise_cut
from soapbench.science.drawing_fit import STIFFER_AT, THICK_AT, Trace, bears, cannot_show, is_borne, trace_now
from soapbench.science.strokes import Stroke, rod_of

PATHS: dict[str, str | Promise] = {
    "none": gettext_lazy("No drawing"),
    "zigzag": gettext_lazy("Zigzag across, from end to end"),
    "lengthwise zigzag": gettext_lazy("Zigzag along, from side to side"),
    "figure eights": gettext_lazy("Figure eights along the loaf"),
    "spiral": gettext_lazy("One spiral from the rim to the middle"),
    "s curve": gettext_lazy("One long S from end to end"),
    "round the edge": gettext_lazy("Once round the edge"),
    "lifted loops": gettext_lazy("Loops, lifted at each turn"),
    "down and up": gettext_lazy("Straight down, a step, straight up"),
}
NO_TOOL = Choice("", "", "", "none")


@dataclass(frozen=True)
class Way:
    """One drawing with one tool: its picture, its steps, which cut shows it, or why it is not offered."""

    choice: Choice
    title: str | Promise
    picture: Picture | None
    second: Picture | None  # where a hanger's bar begins
    count: int  # strokes
    steps: tuple[str, ...]
    cut: str
    bears: Trace  # the thickest trace in which it can be drawn
    is_borne: bool  # by the batter as it is now
    why_not: str  # for reasons that the batter's trace does not change


@dataclass(frozen=True)
class DrawScreen:
    trace: Trace  # of the batter now, as far as can be told
    planned: Way
    drawn: Way | None  # as really drawn, when it was done otherwise
    others: tuple[Way, ...]
    stiffer_at: float = STIFFER_AT.value  # for the phone, whose clock goes on
    thick_at: float = THICK_AT.value

    @property
    def shown(self) -> Way:
        return self.drawn or self.planned


def draw_screen(loaf: Loaf, now: datetime | None = None) -> DrawScreen:
    """Return the drawing of the plan with every other one that the workshop's tools could make.

    Args:
        now: counts how long scented portions wait; None leaves that out.
    """
    trace = batter_now(loaf, now)
    wanted = loaf.plan.formula.drawing
    tools = {choice.tool: choice for choice in loaf.plan.drawings}
    tool = replace(tools.get(wanted.tool, replace(NO_TOOL, tool=wanted.tool, tool_name=wanted.tool)), path=wanted.path)
    choices = [each for each in loaf.plan.drawings if (each.tool, each.path) != (wanted.tool, wanted.path)]
    # The nearest first: the same drawing with another tool, then another drawing with the same tool.
    choices.sort(key=lambda each: (each.path != wanted.path, each.tool != wanted.tool))
    choices.append(NO_TOOL)
    others = tuple(_way(loaf, trace, each) for each in choices)
    return DrawScreen(trace, _way(loaf, trace, tool, wanted), _drawn(loaf, trace, wanted), others)


def batter_now(loaf: Loaf, now: datetime | None) -> Trace:
    """Return the trace that the batter has now: as seen, and thicker the more of a working time is gone."""
    state = loaf.state
    seen: Trace = "thick" if state.thickened else state.trace or loaf.plan.formula.process.trace  # type: ignore[assignment]  # a trace by its kind
    used = (
        [(now - one.started_at) / (one.ends_at - one.started_at) for one in state.timers if one.portion] if now else []
    )
    return trace_now(seen, max(used, default=0.0))


def _drawn(loaf: Loaf, trace: Trace, wanted: Drawing) -> Way | None:
    found = loaf.state.drawing
    if found is None or (found["path"], found["tool"]) == (wanted.path, wanted.tool):
        return None
    choices = {(each.tool, each.path): each for each in loaf.plan.drawings}
    fallback = Choice(found["tool"], found["tool"], "", found["path"])
    return _way(loaf, trace, choices.get((found["tool"], found["path"]), fallback))


def _way(loaf: Loaf, trace: Trace, choice: Choice, wanted: Drawing | None = None) -> Way:
    rod, title = rod_of(choice.tool_kind), PATHS.get(choice.path, choice.path)
    wanted = wanted or Drawing(choice.path, choice.tool)  # type: ignore[arg-type]  # a choice is made from the paths
    thickest = bears(wanted.path, choice.tool_kind, wanted.spacing_mm)
    strokes = strokes_of(loaf, choice.path, rod, wanted.passes, wanted.spacing_mm)
    steps = drawing_steps(wanted, choice.tool_name, strokes)
    formula = loaf.plan.formula
    pours = tuple(stage.way for stage in loaf.poured_stages)
    advice = advise_cut(choice.path, rod, pours, loaf.mould.shape, formula.cut.way)
    return Way(
        choice=choice,
        title=title,
        picture=stroke_picture(loaf, strokes, f"{title}. {' '.join(steps)}"),
        second=hanger_picture(loaf, strokes),
        count=len(strokes),
        steps=steps,
        cut=f"{way_words(advice.way)}. {advice.why}",
        bears=thickest,
        is_borne=is_borne(thickest, trace),
        why_not=_missing(loaf, choice) or cannot_show(choice.path, rod, pours),
    )


def _missing(loaf: Loaf, choice: Choice) -> str:
    if loaf.state.ticked.get(f"tool:{choice.tool}") is False:
        return _("%s is not at hand.") % choice.tool_name
    return ""


def drawing_steps(drawing: Drawing, tool: str, strokes: tuple[Stroke, ...]) -> tuple[str, ...]:
    """Return the drawing as numbered steps in words."""
    if drawing.path == "none" or not strokes:
        return (_("Leave the batter as it was poured."),)
    steps = [_start(strokes[0], tool or _("tool")), _lines(drawing, strokes)]
    steps.append(_("Slow and even, no stirring. Lift it straight out at the end and wipe it."))
    return (*steps, drawing.note) if drawing.note else tuple(steps)


def _start(first: Stroke, tool: str) -> str:
    if first.view == "end":
        place = {"tool": tool, "mm": f"{first.start[0]:.0f}"}
        return _("%(tool)s: its bar lies along the loaf, %(mm)s mm from one wall.") % place
    if first.view == "side":
        return _("%(tool)s: in at one end, %(mm)s mm from the wall.") % {"tool": tool, "mm": f"{first.start[0]:.0f}"}
    return _("%s: straight down to the floor, at 1.") % tool


def _lines(drawing: Drawing, strokes: tuple[Stroke, ...]) -> str:
    gap = _gap(strokes)
    said = {"path": PATHS[drawing.path], "count": len(strokes), "gap": f"{gap:.0f}"}
    if len(strokes) == 1:
        return _("%(path)s: one stroke.") % said
    if gap >= 1:
        return _("%(path)s: %(count)d strokes, %(gap)s mm apart.") % said
    return _("%(path)s: %(count)d strokes.") % said


def _gap(strokes: tuple[Stroke, ...]) -> float:
    """Return how far the first two strokes begin from one another along the line that they step along."""
    if len(strokes) < 2:
        return 0.0
    one, other = strokes[0].start, strokes[1].start
    sideways = sorted((abs(one[0] - other[0]), abs(one[1] - other[1])))
    return sideways[0] if sideways[0] > 1 else sideways[1]
