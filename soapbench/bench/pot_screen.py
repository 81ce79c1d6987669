"""The pot of fats on the scale: what it should show, and what a typed reading is held against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from soapbench.bench.folding.book import Book
from soapbench.bench.folding.pot import pot_checked
from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState
from soapbench.bench.weigh_screen import decimals_of, grams
from soapbench.science.errors import OutOfRange


@dataclass(frozen=True)
class PotOnScale:
    """The pot as the scale must show it, in the scale's own decimals; "" for what is not known."""

    vessel: str
    tare: str
    tare_g: float
    gross: str
    allowed: str


def pot_on_scale(plan: Plan, state: RunState) -> PotOnScale:
    """Return what to hold the pot on the scale against."""
    decimals = decimals_of(plan.resolution_g)
    vessel = next((line.vessel for line in plan.in_group("fat")), "")
    tare = plan.tares.get(vessel, 0.0)
    allowed = allowed_g(plan, state)
    return PotOnScale(
        vessel=vessel,
        tare=grams(tare, decimals) if tare else "",
        tare_g=tare,
        gross=grams(state.pot_g + tare, decimals) if tare else "",
        allowed=grams(allowed, decimals) if allowed else "",
    )


def allowed_g(plan: Plan, state: RunState) -> float:
    """Return the gap that is still believed, g; nought before the first fat is in."""
    try:
        return pot_checked(plan, state.weights, state.pot_g).allowed_g
    except OutOfRange:
        return 0.0


def pour_part(plan: Plan, state: RunState) -> str:
    """Return "308.3 of 485.2 g" of a lye of which only a part is poured, "" when all of it is."""
    if state.lye_share >= 1:
        return ""
    decimals = decimals_of(plan.resolution_g)
    made = sum(state.weights[key].mass_g for key in Book(plan).jug_keys if key in state.weights)
    return f"{grams(made * state.lye_share, decimals)} / {grams(made, decimals)} g"


def pot_document(plan: Plan, state: RunState) -> dict[str, Any]:
    """Return what the page's script holds a typed reading against."""
    weights = [state.weights[line.key] for line in plan.in_group("fat") if line.key in state.weights]
    return {"allowed_g": allowed_g(plan, state), "parts": [[weight.name, weight.mass_g] for weight in weights]}
