"""What to do about a spill, by what was spilt. Order and stuff as safety sheets give them; the rest common practice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bench.plan import Plan
from soapbench.bench.safety import stage_of
from soapbench.bench.state import RunState

Words = str | Promise


@dataclass(frozen=True)
class Spill:
    """One kind of spill: what to do, and what the batch has less of by it."""

    code: Literal["dry", "lye", "batter"]
    title: Words
    steps: tuple[Words, ...]
    line: str  # of the plan, "" for batter
    asks_mass: bool
    is_here: bool  # it can be of this batch now: a loss; else only a remark


_DRY = (
    _("Keep it dry."),
    _("Sweep it up with plastic tools, into a plastic tub."),
    _("Then wipe the place with much water."),
)
_LYE = (
    _("Soak it up with something dry: sand, earth or vermiculite."),
    _("Into a plastic tub, marked LYE – BURNS."),
    _("Rinse the floor with much water."),
    _("Only then weak vinegar may wipe the last film. Never on skin."),
)
_BATTER = (
    _("Scrape it up with plastic, into a tub."),
    _("Wipe, then wash with hot soapy water."),
    _("Towels stay wet, in a lidded tub, until they are washed."),
)


def spills(plan: Plan, state: RunState) -> tuple[Spill, ...]:
    """Return every kind of spill, for people and floor alike; one that this batch may have lost counts as its loss."""
    stage = stage_of(plan, state)
    alkali = next((line.key for line in plan.in_group("alkali")), "")
    return (
        Spill("dry", _("Dry alkali"), _DRY, alkali, True, stage == "dry"),
        # How much alkali went with the lye nobody can weigh any more: the log takes it as unknown.
        Spill("lye", _("Lye"), _LYE, alkali, False, stage == "lye"),
        Spill("batter", _("Batter"), _BATTER, "", True, stage == "batter"),
    )
