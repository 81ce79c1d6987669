"""The pours that are left, with the working time that each portion still has."""

from __future__ import annotations

from datetime import datetime
from math import inf

from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Prompt
from soapbench.science.errors import OutOfRange
from soapbench.science.late_pour import pours_left
from soapbench.science.working_time import ScentedPortion

SCENT_MINUTES = 1.0  # hands-on time of scenting one portion; own choice, as in the plan
LEAST_MINUTES = 0.1  # a portion whose time is over is late, however it is poured
MINUTE = 60.0


def order_now(tally: Tally, thickened: str, at: datetime) -> str:
    """Return in words the order of pours that is still possible; "" when the portion is poured already."""
    stages = tally.plan.formula.pour
    is_layered = all(stage.way == "layer" and len(stage.portions) == 1 for stage in stages)
    try:
        return pours_left(_left(tally, at), thickened, scent_all_first=not is_layered).sentence
    except OutOfRange:
        return ""


def _left(tally: Tally, at: datetime) -> list[ScentedPortion]:
    """Return the portions that are not all poured, in the order of their next stage."""
    stages = tally.plan.formula.pour
    open_stages = [(n, stage) for n, stage in enumerate(stages, 1) if f"pour:{n}" not in tally.done]
    is_free = len(stages) <= 1 and all(stage.way in ("side by side", "in the pot") for stage in stages)
    letters = dict.fromkeys(letter for _n, stage in open_stages for letter in stage.portions)
    left = [letter for letter in letters if f"portion:{letter}" not in tally.left_out]
    return [_portion(tally, letter, None if is_free else place, at) for place, letter in enumerate(left, 1)]


def _portion(tally: Tally, letter: str, place: int | None, at: datetime) -> ScentedPortion:
    scents = [prompt for prompt in tally.plan.prompts if _is_scent(tally, prompt, letter)]
    waiting = [prompt for prompt in scents if prompt.key not in tally.done]
    left = [_minutes_left(tally, prompt, at) for prompt in scents if prompt.timer is not None]
    return ScentedPortion(letter, min(left, default=inf), SCENT_MINUTES * len(waiting), place)


def _is_scent(tally: Tally, prompt: Prompt, letter: str) -> bool:
    line = tally.book.lines.get(prompt.line)
    is_one = prompt.kind == "act" and prompt.phase == "portions" and line is not None and line.group == "scent"
    return is_one and prompt.portion == letter and prompt.line not in tally.left_out


def _minutes_left(tally: Tally, prompt: Prompt, at: datetime) -> float:
    minutes = prompt.timer.minutes if prompt.timer else inf
    began = tally.done.get(prompt.key)
    gone = (at - began).total_seconds() / MINUTE if began else 0.0
    return max(LEAST_MINUTES, minutes - gone)
