"""The question that a temperature raises before it is kept."""

from __future__ import annotations

from soapbench.bench.folding.book import COOL, LYE
from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState, TemperatureReading
from soapbench.science.cooling import Reading, reading_doubt

CODE = "reading"  # of the doubt, as the answered event carries it


def doubt_about(plan: Plan, state: RunState, pot: str, temp_c: float) -> str:
    """Return why a pot left alone cannot read this, as of its latest reading; "" when it can.

    What was read in the jug before the alkali is its water, and what was read before somebody warmed or cooled a pot
    tells nothing of it now: only later readings are held against a new one.
    """
    if pot not in ("lye", "fats"):
        return ""
    since = [change.at for change in state.changes if change.what == "temperature off" and change.prompt == COOL]
    since += [state.done[LYE]] if pot == "lye" and LYE in state.done else []
    before = [one for one in state.readings if one.pot == pot and all(one.at >= at for at in since)]
    return reading_doubt(_last(before), Reading(0.0, temp_c), plan.room_c) or ""


def _last(readings: list[TemperatureReading]) -> list[Reading]:
    return [Reading(0.0, readings[-1].temp_c)] if readings else []
