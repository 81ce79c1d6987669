"""A stage of the pour and the drawing as the screen says them: letters, amounts, heights and steps in words."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.formula import Drawing, PourStage
from soapbench.bench.plan import Plan, PlanPortion, Prompt
from soapbench.bench.state import RunState

PATHS: dict[str, str | Promise] = {
    "none": gettext_lazy("No drawing"),
    "zigzag": gettext_lazy("Zigzag across, from end to end"),
    "lengthwise zigzag": gettext_lazy("Zigzag along, from side to side"),
    "figure eights": gettext_lazy("Figure eights along the loaf"),
    "spiral": gettext_lazy("One spiral from the rim to the middle"),
    "s curve": gettext_lazy("One long S from end to end"),
    "round the edge": gettext_lazy("Once round the edge"),
    "lifted loops": gettext_lazy("Loops along the loaf, lifted at each turn"),
    "down and up": gettext_lazy("Straight down, a step along, straight up"),
}


@dataclass(frozen=True)
class Pouring:
    """One portion of a stage: how much of it, now."""

    portion: PlanPortion
    grams: str
    is_rest: bool


@dataclass(frozen=True)
class PourScreen:
    how: str  # what the plan says about it, the masses left out: they are shown as they really are
    height_mm: int
    pourings: tuple[Pouring, ...]


def pour_screen(plan: Plan, state: RunState, prompt: Prompt) -> PourScreen | None:
    """Return how a stage is poured, with the masses that the portions really have; None when it is no pour."""
    stage = stage_of(plan, prompt.key)
    if stage is None:
        return None
    masses, _dot, how = prompt.detail.partition(". ")
    # The plan puts the quickest portion first where the order is free: its own words name the order.
    letters = sorted(stage.portions, key=lambda letter: masses.find(f"{letter} "))
    return PourScreen(
        how=how,
        height_mm=round(stage.height_mm),
        pourings=tuple(_pouring(plan, state, stage, letter) for letter in letters),
    )


def _pouring(plan: Plan, state: RunState, stage: PourStage, letter: str) -> Pouring:
    portion = next(portion for portion in plan.portions if portion.letter == letter)
    mass = state.portions_g.get(letter, portion.planned_g) * stage.share
    return Pouring(portion, f"{mass:.0f}", is_rest=stage.share >= 1)


def stage_of(plan: Plan, key: str) -> PourStage | None:
    """Return the stage of the formula that a pour prompt stands for; its key ends in the number, counted from 1."""
    place, _colon, number = key.partition(":")
    stages = plan.formula.pour
    is_stage = place == "pour" and number.isdigit() and 0 < int(number) <= len(stages)
    return stages[int(number) - 1] if is_stage else None


def drawing_steps(drawing: Drawing, tool: str) -> tuple[str, ...]:
    """Return the drawing as numbered steps in words."""
    if drawing.path == "none":
        return (_("Leave the batter as it was poured."),)
    steps = [_("Take the %s. Set it straight down to the bottom, at one end.") % (tool or _("tool"))]
    if drawing.spacing_mm:
        steps.append(_("%(path)s, lines %(gap)g mm apart.") % {"path": PATHS[drawing.path], "gap": drawing.spacing_mm})
    else:
        steps.append(f"{PATHS[drawing.path]}.")
    if drawing.passes:
        steps.append(_("%d passes. Slow and even, no stirring.") % drawing.passes)
    steps.append(_("Lift it straight out at the end. Wipe it."))
    return (*steps, drawing.note) if drawing.note else tuple(steps)
