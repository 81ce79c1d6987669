"""A stage of the pour as the screen says it: letters, amounts, vessels, height and place, with its pictures."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bars.formula import PourStage
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.pictures.pouring import PourPictures, pour_pictures
from soapbench.bench.plan import Plan, PlanPortion, Prompt
from soapbench.bench.state import RunState

PLACES: dict[str, str | Promise] = {
    "layer": _("over the whole length"),
    "side by side": _("each on its own side"),
    "down the middle": _("along the middle"),
    "drops": _("drops, evenly along the loaf"),
    "in the pot": _("in the pot, then in the mould"),
    "against the walls": _("along the walls"),
    "rings": _("always on the same spot"),
}


@dataclass(frozen=True)
class Pouring:
    """One portion of a stage: how much of it, now, and what it is in."""

    portion: PlanPortion
    grams: str
    share: float
    is_rest: bool  # nothing of it is poured later
    vessel: str
    is_thick: bool


@dataclass(frozen=True)
class PourScreen:
    how: str  # what the plan says about it, the masses left out: they are shown as they really are
    place: str | Promise
    height_mm: int
    level_mm: int  # how high the batter stands after it, 0 where that is not known
    number: int
    count: int
    pourings: tuple[Pouring, ...]
    pictures: PourPictures | None


def pour_screen(loaf: Loaf, prompt: Prompt) -> PourScreen | None:
    """Return how a stage is poured, with the masses that the portions really have; None when it is no pour."""
    number = stage_number(loaf.plan, prompt.key)
    if number is None:
        return None
    stage = loaf.poured_stages[number - 1]
    masses, _dot, how = prompt.detail.partition(". ")
    # The plan puts the quickest portion first where the order is free: its own words name the order.
    letters = sorted(stage.portions, key=lambda letter: (_waits(loaf.state, letter), masses.find(f"{letter} ")))
    return PourScreen(
        how=how,
        place=PLACES[stage.way],
        height_mm=round(stage.height_mm),
        level_mm=round(loaf.poured[number - 1].level_mm) if loaf.poured else 0,
        number=number,
        count=len(loaf.poured_stages),
        pourings=tuple(_pouring(loaf, number, stage, letter) for letter in letters),
        pictures=pour_pictures(loaf, number),
    )


def _waits(state: RunState, letter: str) -> int:
    """Return the place of a portion by how early it thickened; the others come after it."""
    return state.thickened.index(letter) if letter in state.thickened else len(state.thickened)


def _pouring(loaf: Loaf, number: int, stage: PourStage, letter: str) -> Pouring:
    later = loaf.poured_stages[number:]
    return Pouring(
        portion=next(portion for portion in loaf.plan.portions if portion.letter == letter),
        grams=f"{loaf.masses[letter] * stage.share:.0f}",
        share=stage.share,
        is_rest=not any(letter in one.portions for one in later),
        vessel=loaf.plan.cups.get(letter, ""),
        is_thick=letter in loaf.state.thickened,
    )


def stage_of(plan: Plan, key: str) -> PourStage | None:
    """Return the stage that a pour prompt stands for; None for another prompt, or a formula without stages."""
    number = stage_number(plan, key)
    return plan.formula.pour[number - 1] if number is not None and plan.formula.pour else None


def stage_number(plan: Plan, key: str) -> int | None:
    """Return the stage that a pour prompt stands for, counted from 1: its key ends in it; None for another prompt."""
    place, _colon, number = key.partition(":")
    count = len(plan.formula.pour) or 1
    is_stage = place == "pour" and number.isdigit() and 0 < int(number) <= count
    return int(number) if is_stage else None
