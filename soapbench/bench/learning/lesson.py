"""What one run teaches: how its pots cooled, when it came to trace, how long its scents held, what stayed behind."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import msgspec

from soapbench.bench.folding.book import COMBINE
from soapbench.bench.plan import Line, Plan, Prompt
from soapbench.bench.pots import POTS, Pot, heat_capacity_of, vessel_of
from soapbench.bench.pour_screen import stage_of
from soapbench.bench.state import RunState
from soapbench.science.cooling import Reading, fit, prior_for, rate_of
from soapbench.science.errors import OutOfRange

MINUTE = 60.0
LONGEST_HOURS_TO_CUT = 72.0  # later the loaf has dried, and its loss is no longer what stayed in the pots; own choice
LEAST_OF_BATTER = 0.80  # less than this in bars and offcuts was lost otherwise; own choice


@dataclass(frozen=True)
class PotRate:
    """How a pot cooled: mean and spread of ln k as science.cooling_law has it, and its heat capacity in kJ/K."""

    vessel: str
    ln_k_mean: float
    ln_k_sd: float
    heat_capacity: float


@dataclass(frozen=True)
class ScentTime:
    """Minutes for which scented batter stayed pourable; when it did not thicken, it would have held for longer."""

    material: str
    minutes: float
    mixed_c: float | None
    thickened: bool


@dataclass(frozen=True)
class Lesson:
    """What one run teaches. Empty parts teach nothing."""

    bar: str
    pots: tuple[PotRate, ...] = ()
    scents: tuple[ScentTime, ...] = ()
    trace: str = ""
    trace_minutes: float | None = None
    made_g: float | None = None  # everything that went in
    cut_g: float | None = None  # bars and offcuts
    bars_planned: int = 0
    bars_cut: int = 0


def lesson_of(plan: Plan, state: RunState) -> Lesson:
    """Return what a run has taught so far; it is asked for once the mould is full, and again at the cut."""
    made, cut = _masses(state)
    return Lesson(
        bar=plan.bar_slug,
        pots=tuple(rate for pot in POTS if (rate := _rate(plan, state, pot))),
        scents=tuple(_scents(plan, state)),
        trace=state.trace,
        trace_minutes=_minutes(state.done.get(COMBINE), state.done.get("trace")),
        made_g=made,
        cut_g=cut,
        bars_planned=plan.size.bars,
        bars_cut=state.cut["bars"] if state.cut else 0,
    )


def _minutes(begin: datetime | None, end: datetime | None) -> float | None:
    if begin is None or end is None or end <= begin:
        return None
    return round((end - begin).total_seconds() / MINUTE, 2)


def _rate(plan: Plan, state: RunState, pot: Pot) -> PotRate | None:
    readings = [Reading(reading.minutes, reading.temp_c) for reading in state.readings if reading.pot == pot]
    vessel = vessel_of(plan.lines, pot)
    if len(readings) < 2 or not vessel:
        return None
    try:
        capacity = heat_capacity_of(plan, pot)
        found = rate_of(fit(readings, plan.room_c, prior_for(capacity), room_measured=False))
    except OutOfRange:  # readings that no curve can hold teach nothing
        return None
    return PotRate(vessel, *found, capacity) if found else None


def _scents(plan: Plan, state: RunState) -> Iterator[ScentTime]:
    mixed = _mixed_c(state)
    for line in plan.in_group("scent"):
        begin = state.done.get(f"add:{line.key}")
        weight = state.weights.get(line.key)
        if begin is None or weight is None:
            continue
        thick = _thickened_after(state, line, begin)
        minutes = thick or _minutes(begin, _poured_at(plan, state, line.portion))
        if minutes:
            yield ScentTime(weight.material, minutes, mixed, thickened=thick is not None)


def _mixed_c(state: RunState) -> float | None:
    """Return the mean of the last readings of both pots before they met; both are in one narrow window by then."""
    met = state.done.get(COMBINE)
    last = {one.pot: one.temp_c for one in state.readings if met and one.at <= met and one.pot in POTS}
    return round(sum(last.values()) / len(last), 1) if len(last) == len(POTS) else None


def _thickened_after(state: RunState, line: Line, begin: datetime) -> float | None:
    """Return the minutes after which the portion was said to thicken: as typed, else as the clock has it."""
    for change in state.changes:
        portion = change.details.get("portion", line.portion)
        if change.what == "thickened early" and change.at > begin and portion in (line.portion, "all"):
            return change.details.get("minutes") or _minutes(begin, change.at)
    return None


def _poured_at(plan: Plan, state: RunState, portion: str) -> datetime | None:
    """Return when the last of a portion was poured; of the whole batter, when the last pour was."""
    poured = [prompt for prompt in plan.prompts if prompt.kind == "pour" and _pours(plan, prompt, portion)]
    times = [state.done.get(prompt.key) for prompt in poured]
    return max((time for time in times if time), default=None) if all(times) else None


def _pours(plan: Plan, prompt: Prompt, portion: str) -> bool:
    stage = stage_of(plan, prompt.key)
    return portion == "all" or (portion in stage.portions if stage else prompt.portion in (portion, ""))


def _masses(state: RunState) -> tuple[float | None, float | None]:
    """Return what went in and what came out as bars and offcuts, g; nothing where the gap has another reason."""
    cut, poured = state.cut, [at for key, at in state.done.items() if key.startswith("pour:")]
    if cut is None or not poured or any(change.what == "lost or spilt" for change in state.changes):
        return None, None
    made = round(sum(weight.mass_g for weight in state.weights.values()), 3)
    out = round(cut["mass_g"] + cut["offcuts_g"], 3)
    hours = (cut["at"] - max(poured)).total_seconds() / MINUTE / MINUTE
    if hours > LONGEST_HOURS_TO_CUT or not LEAST_OF_BATTER * made <= out <= made:
        return None, None
    return made, out


def to_document(lesson: Lesson) -> Any:
    """Return the lesson as plain JSON data."""
    return msgspec.to_builtins(lesson)


def from_document(document: Any) -> Lesson:
    """Return the lesson that a run keeps."""
    return msgspec.convert(document, Lesson)
