"""Why a drawing wants its trace: from the formula, in a few words. Common practice of the trade, no source."""

from __future__ import annotations

from soapbench.bars.formula import Formula, Trace
from soapbench.science.words import mark, say, word

# What the batter must do, by the path of the drawing and, where nothing is drawn, by the way of the pour.
PATHS: dict[str, tuple[Trace, str]] = {
    "lifted loops": ("thin", mark("the loops must flow back behind the tool")),
    "down and up": ("thin", mark("the batter must flow back behind the tool")),
    "zigzag": ("thin", mark("fine lines close behind the tool")),
    "lengthwise zigzag": ("thin", mark("fine lines close behind the tool")),
    "figure eights": ("thin", mark("fine lines close behind the tool")),
    "spiral": ("thin", mark("fine lines close behind the tool")),
    "s curve": ("thin", mark("fine lines close behind the tool")),
    "round the edge": ("thin", mark("fine lines close behind the tool")),
}
WAYS: dict[str, tuple[Trace, str]] = {
    "rings": ("thin", mark("each ring must push the last one outwards")),
    "against the walls": ("thin", mark("it must run down the walls")),
    "drops": ("thin", mark("drops must sink in")),
    "side by side": ("thin", mark("both sides must run level")),
    "down the middle": ("thin", mark("the line must sink and spread")),
    "in the pot": ("thin", mark("the colours must fold without mixing")),
    "layer": ("medium", mark("a layer must carry the next one")),
}
ONE_COLOUR: tuple[Trace, str] = ("medium", mark("one colour needs no flow, and it holds together while it sets"))


def why_trace(formula: Formula) -> str:
    """Return why the planned trace suits the drawing, or what would be usual for it."""
    usual, reason = _needed(formula)
    planned, why = formula.process.trace, say(reason)
    if planned == usual:
        return say("{planned}, because {why}.", planned=word("trace", planned.capitalize()), why=why)
    told = {"planned": word("trace", planned), "usual": word("trace", usual), "why": why}
    return say("Planned {planned}; {usual} is usual here, because {why}.", **told)


def _needed(formula: Formula) -> tuple[Trace, str]:
    if formula.drawing.path in PATHS:
        return PATHS[formula.drawing.path]
    if len(formula.portions) < 2:
        return ONE_COLOUR
    ways = [stage.way for stage in formula.pour]
    # The pour that needs the most flow decides; layers alone ask for body.
    return next((WAYS[way] for way in WAYS if way in ways), ONE_COLOUR)
