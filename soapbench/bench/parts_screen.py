"""One weighing in several parts: what is in already, what is to go, and what the scale and the vessel can take."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from soapbench.bars.to_science import USUAL_FAT_DENSITY
from soapbench.bench.plan import Line, Plan
from soapbench.bench.state import RunState
from soapbench.bench.words import grams, listed
from soapbench.science.errors import OutOfRange
from soapbench.science.split_weighing import SplitWeighing, split_weighing
from soapbench.science.words import say


@dataclass(frozen=True)
class PartsScreen:
    """What stands beside the figure of a weighing, in words; "" where there is nothing to say."""

    has_begun: bool  # something of it is in already
    inside_g: float  # what stands in its vessel, of this line or of the fats before it
    advice: str  # in which parts, and why
    is_split: bool


def parts_screen(plan: Plan, state: RunState, line: Line, target_g: float, to_go_g: float) -> PartsScreen:
    """Return what to say about the parts of a line, each mass in plain grams."""
    begun = target_g - to_go_g > 1e-6
    inside = in_vessel_g(plan, state, line)
    try:
        split = _split(plan, line, to_go_g, plan.tares.get(line.vessel, 0.0), inside)
    except OutOfRange as error:
        return PartsScreen(begun, inside, str(error), True)
    return PartsScreen(begun, inside, _advice(plan, line, split), len(split.parts) > 1 or begun)


def parts_advice(plan: Plan, state: RunState) -> dict[str, str]:
    """Return by line in which parts to weigh it, for the lines that are still open and need it."""
    found = {}
    for line in plan.lines:
        if line.key in state.weights and line.key not in state.owed:
            continue
        target = state.targets.get(line.key, line.planned_g)
        said = parts_screen(plan, state, line, target, round(max(0.0, target - state.so_far_g(line.key)), 6)).advice
        if said:
            found[line.key] = said
    return found


def in_vessel_g(plan: Plan, state: RunState, line: Line) -> float:
    """Return the grams that stand in a line's vessel already: the fats of one pot, the parts of one line."""
    parts = sum(state.parts.get(line.key, ()))
    if line.group != "fat":
        return round(state.so_far_g(line.key), 6)
    open_parts = sum(sum(parts) for key, parts in state.parts.items() if key in {f.key for f in plan.in_group("fat")})
    return round(state.pot_g + (open_parts or parts), 6)


def _split(plan: Plan, line: Line, to_go_g: float, tare_g: float, in_it_g: float) -> SplitWeighing:
    return split_weighing(
        to_go_g,
        capacity_g=plan.capacity_g,
        resolution_g=plan.resolution_g,
        tare_g=tare_g,
        in_it_g=in_it_g,
        room_g=_room_g(plan, line, line.vessel, in_it_g),
        cup_tare_g=plan.tares.get(plan.cup, 0.0),
        cup_room_g=_room_g(plan, line, plan.cup, 0.0),
    )


def _room_g(plan: Plan, line: Line, vessel: str, in_it_g: float) -> float:
    volume = plan.volumes_ml.get(vessel)
    if not volume or line.group not in ("fat", "water", "liquid"):
        return inf  # the bulk of a powder is not known
    density = USUAL_FAT_DENSITY if line.group == "fat" else 1.0
    return max(0.0, volume * density - in_it_g)


def _advice(plan: Plan, line: Line, split: SplitWeighing) -> str:
    aside = (
        say("Weigh it in {cup}: with the pot it is too heavy for the scale.", cup=plan.cup or say("a cup"))
        if split.is_aside
        else ""
    )
    if len(split.parts) < 2:
        return aside
    first, last = split.parts[0], split.parts[-1]
    several = f"{len(split.parts) - 1} × {grams(first)}" if len(split.parts) > 2 else grams(first)
    who = (
        say("the scale carries no more")
        if split.limit == "scale"
        else say("{vessel} holds no more", vessel=line.vessel)
    )
    return say(
        "{aside} In {parts} parts: {several}, then {last}; {who}.",
        aside=aside,
        parts=len(split.parts),
        several=several,
        last=grams(last),
        who=who,
    ).strip()


def part_words(parts: tuple[float, ...]) -> str:
    """Return "900 g and 451.5 g" of a line that was weighed in parts, "" of one that was not."""
    return listed([grams(part) for part in parts]) if len(parts) > 1 else ""
