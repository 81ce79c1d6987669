"""Stop and make safe: what has to be dealt with, by how far the batch has come.

The order and the cautions follow published safety sheets of the two alkalis where they speak of them (label, lock,
no acid, drain by the local rules); what to do with half-made soap is common practice, no source. Local rules on
caustic waste come before all of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bench.folding.book import CLEAN
from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState

Stage = Literal["start", "dry", "lye", "batter", "loaf", "bars"]


@dataclass(frozen=True)
class SafeStep:
    """One thing to deal with, at the stages where there is such a thing."""

    code: str
    text: str | Promise
    stages: tuple[Stage, ...]


STEPS = (
    SafeStep("gear", _("Goggles and gloves stay on until the last tick here."), ("dry", "lye", "batter")),
    SafeStep("jar", _("Alkali jar: shut, dry, locked away."), ("start", "dry", "lye")),
    SafeStep("cup", _("Weighed alkali: lid on, its name on it, locked away. Never into a food jar."), ("dry",)),
    SafeStep("hot", _("Hot jug: leave it where it stands until it is cool. Nobody near it."), ("lye",)),
    SafeStep("jug", _("Jug covered, marked LYE – BURNS with day and batch, out of reach."), ("lye",)),
    SafeStep("no-acid", _("No vinegar or acid into it, no cleaner or bleach to it."), ("lye",)),
    SafeStep("fats", _("Fats without lye: covered, marked with what is in them."), ("start", "dry", "lye")),
    SafeStep("blender", _("Blender off and pulled out before it leaves the batter."), ("batter",)),
    SafeStep("tub", _("Batter into a lined mould or a plastic tub, marked RAW SOAP – BURNS."), ("batter",)),
    SafeStep("wait", _("Left for 2 to 3 days, then tested before bare hands or the bin."), ("batter", "loaf")),
    SafeStep("loaf", _("Loaf in its mould, marked NOT TESTED. Swells: uncovered, in the cool, goggles on."), ("loaf",)),
    SafeStep("bars", _("Bars apart from all others, marked NOT FOR USE."), ("bars",)),
    SafeStep("rules", _("Thrown away only as the local rules on caustic waste say."), ("batter", "loaf", "bars")),
    SafeStep("bench", _("Bench and floor wiped twice. Towels wet, in a lidded tub."), ("dry", "lye", "batter")),
)
# Where lye can be that was made and met no fats; the log keeps the key.
LYE_IS: dict[str, str | Promise] = {
    "kept": _("Kept: covered, marked, locked away"),
    "handed in": _("Handed in as caustic waste"),
    "poured away": _("Thinned and poured away, as the local rules allow"),
    "other batch": _("Went into another batch"),
    "spilt": _("Spilt and cleaned up"),
}
REASONS = (
    _("Somebody was hurt"),
    _("Spilt"),
    _("Weighed wrong"),
    _("A tool or a jug broke"),
    _("No time left"),
    _("It cannot be saved"),
)


def stage_of(plan: Plan, state: RunState) -> Stage:
    """Return how far the batch has come, by what would have to be made safe."""
    if state.cut is not None:
        return "bars"
    pours = [prompt.key for prompt in plan.prompts if prompt.phase == "pour"]
    if state.is_combined:
        return "loaf" if all(key in state.done for key in pours) else "batter"
    if state.lye_made:
        return "lye"
    is_weighed = any(line.key in state.weights for line in plan.in_group("alkali"))
    return "dry" if is_weighed else "start"


@dataclass(frozen=True)
class SafetyScreen:
    """Every step and every answer: the page hides those of other stages, so that it holds without a network."""

    codes: frozenset[str]  # of the steps that there are now
    asks_lye: bool
    stage: Stage
    steps: tuple[SafeStep, ...]
    lye_is: tuple[tuple[str, str | Promise], ...]
    reasons: tuple[str | Promise, ...]


def safety_screen(plan: Plan, state: RunState) -> SafetyScreen:
    codes = frozenset(step.code for step in steps_now(plan, state))
    return SafetyScreen(codes, is_lye_unaccounted(state), stage_of(plan, state), STEPS, tuple(LYE_IS.items()), REASONS)


def stages_now(plan: Plan, state: RunState) -> tuple[Stage, ...]:
    """Return the stage, and "lye" beside it while a part of the lye that met no fats stands somewhere."""
    stage = stage_of(plan, state)
    return (stage, "lye") if is_lye_unaccounted(state) and stage != "lye" else (stage,)


def steps_now(plan: Plan, state: RunState) -> tuple[SafeStep, ...]:
    """Return what to deal with now, in order."""
    stages = set(stages_now(plan, state))
    return tuple(step for step in STEPS if stages & set(step.stages))


def is_lye_unaccounted(state: RunState) -> bool:
    """Return whether lye was made that met no fats, all of it or a part, and nobody has said yet where it is."""
    is_part_left = state.lye_share < 1 and CLEAN not in state.done
    return state.lye_made and (not state.is_combined or is_part_left)
