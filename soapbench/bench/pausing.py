"""Called away and back: what to look at first, by where the run stands. The phone's half is pausing.js."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal

from soapbench.bench.folding.book import COMBINE, LYE, TRACE
from soapbench.bench.folding.effects import LONG_PAUSE_MINUTES
from soapbench.bench.plan import Line, Phase, Plan, Prompt
from soapbench.bench.state import RunState

Check = Literal["finish", "pour", "stir", "read", "added", "stirred in"]

FLUID: frozenset[Phase] = frozenset({"combine", "portions", "pour", "drawing"})


def is_no_pause(plan: Plan, prompt: Prompt) -> bool:
    """Return whether this is no place to stop: alkali goes into water, or lye is in the fats and not in the mould."""
    keys = [each.key for each in plan.prompts]
    is_after = COMBINE in keys and keys.index(prompt.key) >= keys.index(COMBINE)
    return prompt.key == LYE or (is_after and prompt.phase in FLUID)


def checks(plan: Plan, state: RunState, since: datetime, now: datetime) -> tuple[Check, ...]:
    """Return what to look at first after being away, the urgent ones before the others."""
    if not state.current:
        return ()
    prompt = plan.prompt(state.current)
    is_fluid = state.is_combined and prompt.phase in FLUID
    is_long = now - since >= timedelta(minutes=LONG_PAUSE_MINUTES)
    asked: dict[Check, bool] = {
        "finish": prompt.key in (LYE, COMBINE),
        "pour": is_fluid,
        "stir": is_fluid and is_long and TRACE in state.done and prompt.phase != "drawing",
        "read": state.lye_made and not state.is_combined and prompt.kind != "cool",
        "added": prompt.kind == "weigh" and not is_fluid,
        "stirred in": prompt.kind == "act" and bool(prompt.line),
    }
    return tuple(check for check, is_asked in asked.items() if is_asked)


def in_vessel(plan: Plan, state: RunState, line: Line) -> tuple[float, float]:
    """Return what the line's vessel holds without it and with it, g: its own weight, and what was weighed into it."""
    others = [each for each in plan.lines if each.vessel == line.vessel and each.portion == line.portion]
    held = sum(state.weights[each.key].mass_g for each in others if each.key in state.weights and each.key != line.key)
    without = round(plan.tares.get(line.vessel, 0.0) + held, 6)
    return without, round(without + state.targets.get(line.key, line.planned_g), 6)
