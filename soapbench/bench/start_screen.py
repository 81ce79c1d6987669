"""Before the alkali goes in: how cold the water should be, how much of it ice, and what the water really reads."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bars.to_science import solute_of
from soapbench.bench.folding.book import LYE
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import start_warning
from soapbench.science.lye_start import lye_start


@dataclass(frozen=True)
class StartWords:
    """advice says how to start; warning what the water that was read means, stops that nothing may go in yet."""

    advice: str = ""
    short: str = ""  # beside the figure of the water and of the alkali
    is_cold: bool = False  # the advice asks for more than water from the shelf
    warning: str = ""
    stops: bool = False


def is_asked_at(prompt: Prompt, plan: Plan) -> bool:
    """Return whether this prompt is one at which the start of the lye is decided."""
    groups = {line.key: line.group for line in plan.lines}
    return prompt.key == LYE or (prompt.phase == "lye" and groups.get(prompt.line) in ("water", "liquid", "alkali"))


def start_words(plan: Plan, state: RunState) -> StartWords:
    """Return how to start the lye with the masses as they are to be weighed now; empty once the alkali is in."""
    if state.lye_made:
        return StartWords()
    read = [reading.temp_c for reading in state.readings if reading.pot == "lye"]
    found = start_warning(read[-1]) if read else None
    advice, short, is_cold = _advice(plan, state, read[-1] if read else plan.room_c)
    return StartWords(advice, short, is_cold, found.sentence if found else "", bool(found and found.stops))


def _advice(plan: Plan, state: RunState, water_c: float) -> tuple[str, str, bool]:
    alkali, water = _mass(plan, state, "alkali"), _mass(plan, state, "water", "liquid")
    try:
        found = lye_start(
            alkali,
            water,
            max(water_c, 0.0),
            plan.resolution_g,
            jug_c=plan.jug_hottest_c,
            solute=solute_of(plan.formula),
            purity=plan.formula.alkali.naoh_purity,
        )
    except OutOfRange as error:
        return str(error), "", True
    return found.sentence, found.short, found.needs_cold


def _mass(plan: Plan, state: RunState, *groups: str) -> float:
    """Return the grams of what goes into the jug: as weighed, else as asked for now."""
    into_fats = {liquid.material for liquid in plan.formula.liquids if liquid.goes_into == "fats"}
    lines = [line for line in plan.lines if line.group in groups and line.material not in into_fats]
    weights, targets = state.weights, state.targets
    return sum(weights[line.key].mass_g if line.key in weights else targets[line.key] for line in lines)
