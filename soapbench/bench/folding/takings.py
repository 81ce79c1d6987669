"""How much of each colour, scent and addition goes in, now that the portions are what they are."""

from __future__ import annotations

from collections.abc import Mapping

from soapbench.bench.folding.book import ADDITIONS
from soapbench.bench.folding.pot import mass_of
from soapbench.bench.folding.tally import Tally
from soapbench.bench.folding.tolerances import tolerance_of
from soapbench.bench.plan import Line, Plan
from soapbench.science.taking import Taking, taking


def takings(tally: Tally, targets: Mapping[str, float]) -> dict[str, Taking]:
    """Return, by line key, what to take of each addition that is weighed already, its carrier with it."""
    found = {}
    for line in tally.plan.in_group(*ADDITIONS):
        weight = tally.weights.get(line.key)
        if weight is None or weight.mass_g <= 0:
            continue
        carrier_g = sum(mass_of(tally, one) for one in carriers_of(tally.plan, line))
        needed = targets[line.key]
        found[line.key] = taking(weight.mass_g, needed, tolerance_of(tally, line, needed), carrier_g)
    return found


def carriers_of(plan: Plan, line: Line) -> list[Line]:
    """Return the lines of what an addition is dispersed in."""
    start = f"carrier:{line.portion}:{line.material}:"
    return [one for one in plan.lines if one.group == "carrier" and one.key.startswith(start)]
