"""The pour, stage by stage, and the drawing."""

from __future__ import annotations

from dataclasses import replace

from soapbench.bars.formula import PourStage
from soapbench.bench.plan import Choice, Prompt
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import BATTER, short
from soapbench.bench.planning.given import Batch, Tool
from soapbench.bench.words import grams, listed
from soapbench.science.words import mark, say, word

FREE_ORDER = ("side by side", "in the pot")
TITLES = {
    "layer": mark("Pour {letters} as a layer"),
    "side by side": mark("Pour {letters} side by side"),
    "down the middle": mark("Pour {letters} down the middle"),
    "drops": mark("Drop {letters} in from above"),
    "in the pot": mark("Swirl {letters} in the pot, then pour"),
    "against the walls": mark("Pour {letters} against the walls"),
    "rings": mark("Pour {letters} in rings"),
}
HOW = {
    "layer": mark("Over a spatula, so that the layer below holds."),
    "side by side": mark("Both sides together, the divider upright; then lift it straight up."),
    "down the middle": mark("One thin line along the middle, back and forth."),
    "drops": mark("From changing heights: high goes deep, low stays up."),
    "in the pot": mark("Pour into the pot at several places, one turn with the spatula, then into the mould."),
    "against the walls": mark("Along the walls, slowly, turning the mould."),
    "rings": mark("Small amounts in turn, always on the same spot."),
}
# Which path which kind of tool can make; common practice, no source.
PATHS = {
    "skewer": ("zigzag", "lengthwise zigzag", "figure eights", "spiral", "s curve", "round the edge"),
    "hanger": ("lifted loops", "down and up", "round the edge", "lengthwise zigzag"),
    "comb": ("zigzag", "lengthwise zigzag", "s curve"),
    "spoon": ("lifted loops", "figure eights", "s curve"),
    "spatula": ("s curve", "figure eights", "zigzag"),
}


def stages_of(batch: Batch, order: tuple[str, ...]) -> tuple[PourStage, ...]:
    """Return the stages of the pour; where the order of its portions is free, the quickest comes first."""
    stages = batch.formula.pour or (PourStage("layer", tuple(batch.made.portions)),)
    if len(stages) == 1 and stages[0].way in FREE_ORDER:
        first = tuple(letter for letter in order if letter in stages[0].portions)
        return (replace(stages[0], portions=first or stages[0].portions),)
    return tuple(stages)


def pour_prompt(batch: Batch, number: int, stage: PourStage) -> Prompt:
    """Return the prompt for one stage: which letters, how much, from how high, which way."""
    letters = list(stage.portions)
    masses = [f"{letter} {grams(round(stage.share * batch.made.of_portion(letter)))}" for letter in letters]
    height = (
        say(", from {height:g} mm", height=stage.height_mm)
        if stage.way in ("drops", "layer", "down the middle")
        else ""
    )
    note = f" {stage.note}" if stage.note else ""
    return Prompt(
        key=f"pour:{number}",
        phase="pour",
        kind="pour",
        title=short(say(TITLES[stage.way], letters=listed(letters))),
        detail=f"{', '.join(masses)}{height}. {say(HOW[stage.way])}{note}",
        portion=letters[0] if len(letters) == 1 else "",
        pot="batter",
        cautions=(cautions.BATTER_OUT,),
        changes=BATTER,
    )


def drawing(batch: Batch) -> list[Prompt]:
    """Return the prompt for the drawing, or none when nothing is drawn."""
    wanted = batch.formula.drawing
    if wanted.path == "none":
        return []
    tool = batch.bench.tool_by_key(wanted.tool)
    passes = say("{passes} passes", passes=wanted.passes) if wanted.passes else ""
    spacing = say("{spacing:g} mm apart", spacing=wanted.spacing_mm) if wanted.spacing_mm else ""
    parts = [part for part in (passes, spacing, wanted.note.rstrip(".")) if part]
    return [
        Prompt(
            key="draw",
            phase="drawing",
            kind="draw",
            title=short(_title(word("drawing", wanted.path), tool)),
            detail=f"{', '.join(parts)}." if parts else "",
            cautions=(cautions.BATTER_OUT,),
            changes=("drawn differently", "thickened early", "interrupted", "other"),
        )
    ]


def _title(path: str, tool: Tool | None) -> str:
    return say("Draw: {path}, with {tool}", path=path, tool=tool.name) if tool else say("Draw: {path}", path=path)


def choices(tools: tuple[Tool, ...]) -> tuple[Choice, ...]:
    """Return every drawing that the workshop's tools could make."""
    return tuple(Choice(tool.key, tool.name, tool.kind, path) for tool in tools for path in PATHS.get(tool.kind, ()))
