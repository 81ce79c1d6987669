"""One weighing as the screen shows it, and the questions that a typed weight raises."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from soapbench.bench.folding.tolerances import KIND
from soapbench.bench.parts_screen import PartsScreen, parts_screen
from soapbench.bench.plan import Line, LineGroup, Plan
from soapbench.bench.state import Change, RunState
from soapbench.science.errors import OutOfRange
from soapbench.science.weighing import Doubt, Kind, entry_doubts
from soapbench.shelf.facts import MaterialFacts

MAY_BE_TAKEN_AS_SHOWN: frozenset[LineGroup] = frozenset({"colourant", "scent", "addition", "carrier"})
NARROW_SPACE = "\u202f"


@dataclass(frozen=True)
class LineScreen:
    """A line to weigh, every number in the scale's own decimals."""

    key: str
    name: str
    group: LineGroup
    kind: Kind
    target_g: float
    whole: str
    part: str
    target: str
    tolerance: str
    step: str
    ten_steps: str
    decimals: int
    vessel: str
    tare: str
    lot_code: str
    lot: int | None
    pot: str
    weighed: str
    may_be_as_shown: bool
    tare_g: float
    parts: PartsScreen
    so_far: str
    gross: str  # what the scale shows with the vessel on it, if it is not set to zero
    whole_target: str  # of which the figure is what is still to go
    instead: str  # name of the stand-in that is used, "" as planned


def line_screen(plan: Plan, state: RunState, line: Line) -> LineScreen:
    """Return how a line is shown now: the target and the name follow what happened so far."""
    decimals = decimals_of(plan.resolution_g)
    whole = state.targets.get(line.key, line.planned_g)
    target = to_go_g(state, line)
    weighed = state.weights.get(line.key)
    parts = parts_screen(plan, state, line, whole, target)
    words = grams(target, decimals)
    tare = plan.tares.get(line.vessel)
    instead = stand_in(plan, state, line)
    return LineScreen(
        key=line.key,
        name=name_of(plan, state, line),
        group=line.group,
        kind=KIND[line.group],
        target_g=target,
        whole=words.partition(".")[0],
        part=words.partition(".")[2],
        target=words,
        tolerance=grams(state.tolerances.get(line.key, line.tolerance_g), decimals),
        step=grams(plan.resolution_g, decimals),
        ten_steps=grams(plan.resolution_g * 10, decimals),
        decimals=decimals,
        vessel=line.vessel,
        tare=grams(tare, decimals) if tare else "",
        lot_code=instead.lot_code if instead else line.lot_code,
        lot=instead.lot if instead else line.lot,
        instead=instead.name if instead else "",
        pot=grams(state.pot_g, decimals) if line.group == "fat" else "",
        weighed=grams(weighed.mass_g, decimals) if weighed else "",
        tare_g=tare or 0.0,
        parts=parts,
        so_far=grams(whole - target, decimals),
        gross=grams((tare or 0.0) + parts.inside_g, decimals),
        whole_target=grams(whole, decimals),
        may_be_as_shown=line.group in MAY_BE_TAKEN_AS_SHOWN,
    )


def name_of(plan: Plan, state: RunState, line: Line) -> str:
    """Return the name of what is to be weighed: a stand-in's after a substitution."""
    weighed = state.weights.get(line.key)
    if weighed:
        return weighed.name
    instead = stand_in(plan, state, line)
    return instead.name if instead else line.name


def stand_in(plan: Plan, state: RunState, line: Line) -> MaterialFacts | None:
    """Return what is used in place of a line's material, None as planned."""
    instead = [change.details["material"] for change in state.changes if _replaces(change, line)]
    if not instead:
        return None
    return plan.stand_ins.get(instead[-1]) or plan.materials.get(instead[-1])


def _replaces(change: Change, line: Line) -> bool:
    details = change.details
    return change.what == "substituted" and details.get("line") == line.key and "material" in details


def doubts(plan: Plan, state: RunState, line: Line, mass_g: float) -> tuple[Doubt, ...]:
    """Return the questions that this weight raises; none when there is nothing to hold it against."""
    try:
        return entry_doubts(
            mass_g,
            to_go_g(state, line),
            kind=KIND[line.group],
            resolution_g=plan.resolution_g,
            tares=plan.tares,
            running_total_g=state.pot_g if line.group == "fat" else None,
            other_targets=_other_targets(plan, state, line),
            tolerance_g=state.tolerances.get(line.key),
        )
    except OutOfRange:  # a target of nought, or a weight that the event itself will refuse
        return ()


def to_go_g(state: RunState, line: Line) -> float:
    """Return the grams of a line that are still to weigh."""
    return round(max(0.0, state.targets.get(line.key, line.planned_g) - state.so_far_g(line.key)), 6)


def _other_targets(plan: Plan, state: RunState, line: Line) -> dict[str, float]:
    others = [other for other in plan.lines if other.key != line.key and other.key not in state.weights]
    return {other.name: state.targets.get(other.key, other.planned_g) for other in others}


def decimals_of(resolution_g: float) -> int:
    """Return how many decimals a scale of this step shows."""
    exponent = Decimal(str(resolution_g)).normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def grams(mass_g: float, decimals: int) -> str:
    """Return a mass with exactly these decimals, thousands apart by a narrow space."""
    return f"{mass_g:,.{decimals}f}".replace(",", NARROW_SPACE)
