"""Splitting off and scenting as the screen says it: the cup with its tare, what stays in the pot, how much to take."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from soapbench.bench.folding.takings import carriers_of
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.bench.weigh_screen import decimals_of, grams


@dataclass(frozen=True)
class SplitScreen:
    vessel: str
    tare: str  # "" where it is not known
    with_tare: str  # what the scale shows when the cup stands on it and was not zeroed
    rest_letter: str  # the portion that stays in the pot, "" when others are split off before it
    rest: str


@dataclass(frozen=True)
class TakeScreen:
    """How much of what was weighed goes in."""

    name: str
    take: str
    of: str
    is_all: bool
    is_short: bool
    share: str  # per cent of the dose that this is


def split_screen(plan: Plan, state: RunState, prompt: Prompt) -> SplitScreen | None:
    """Return what a split prompt shows beside its target; None when it is no split."""
    if prompt.kind != "split":
        return None
    decimals, vessel = decimals_of(plan.resolution_g), plan.cups.get(prompt.portion, "")
    target, tare = state.targets.get(f"portion:{prompt.portion}", 0.0), plan.tares.get(vessel)
    split = {one.portion for one in plan.prompts if one.kind == "split"}
    rest = next((one.letter for one in plan.portions if one.letter not in split), "")
    return SplitScreen(
        vessel=vessel,
        tare="" if tare is None else grams(tare, decimals),
        with_tare="" if tare is None else grams(target + tare, decimals),
        rest_letter=rest,
        rest=grams(state.targets.get(f"portion:{rest}", 0.0), decimals) if rest else "",
    )


def take_screen(plan: Plan, state: RunState, prompt: Prompt) -> TakeScreen | None:
    """Return how much of its line an adding prompt takes; None where nothing of it is weighed yet."""
    is_adding = prompt.kind == "act" and prompt.key == f"add:{prompt.line}"
    found = state.takings.get(prompt.line) if is_adding else None
    if found is None:
        return None
    decimals, line = decimals_of(plan.resolution_g), plan.line(prompt.line)
    weight = state.weights[line.key]
    carriers = carriers_of(plan, line)
    name = (
        _("%(what)s in %(carrier)s") % {"what": weight.name, "carrier": carriers[0].name} if carriers else weight.name
    )
    take, of = grams(found.take_g, decimals), grams(found.of_g, decimals)
    return TakeScreen(name, take, of, found.is_all, found.is_short, f"{100 * found.share:.0f}")
