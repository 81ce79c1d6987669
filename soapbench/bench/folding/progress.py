"""Which prompt is next, which are not needed, what runs on the clock, and where the batch stands."""

from __future__ import annotations

from datetime import datetime, timedelta

from soapbench.bench.folding.book import COMBINE, FIRM
from soapbench.bench.folding.firming import again, rest
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Prompt
from soapbench.bench.state import RunningTimer, Settlement, Status
from soapbench.science.words import say

RESTING = ("rest", "cut")
CURING = ("cure", "release")


def skipped(tally: Tally, settlement: Settlement | None) -> dict[str, str]:
    """Return the prompts that are not needed, each with the reason."""
    found = {}
    for prompt in tally.plan.prompts:
        reason = _why_skipped(tally, prompt, settlement)
        if reason and prompt.key not in tally.done:
            found[prompt.key] = reason
    return found


def _why_skipped(tally: Tally, prompt: Prompt, settlement: Settlement | None) -> str:
    if prompt.kind == "settle":
        return _why_not_settled(tally, settlement)
    if prompt.kind == "draw" and is_left_undrawn(tally):
        return say("Nothing is drawn this time.")
    if prompt.kind == "act" and prompt.line in tally.left_out:
        return say("{name} is left out.", name=tally.book.lines[prompt.line].name)
    if prompt.portion and f"portion:{prompt.portion}" in tally.left_out and prompt.phase == "portions":
        return say("Portion {portion} is left out.", portion=prompt.portion)
    return ""


def is_left_undrawn(tally: Tally) -> bool:
    """Return whether it was decided before there was batter that nothing is drawn."""
    return tally.drawing_ahead is not None and tally.drawing_ahead["path"] == "none"


def _why_not_settled(tally: Tally, settlement: Settlement | None) -> str:
    if settlement is None:
        return ""
    if not settlement.is_needed:
        return say("Every fat is as planned.")
    if any(line.key in tally.weights for line in tally.plan.in_group("alkali")):
        return say("The alkali is weighed already.")
    return ""


def current(tally: Tally, not_needed: dict[str, str]) -> str:
    """Return the first prompt that is neither done nor skipped; "" when the run has ended."""
    if tally.ended is not None:
        return ""
    open_prompts = (p.key for p in tally.plan.prompts if p.key not in tally.done and p.key not in not_needed)
    return next(open_prompts, "")


def timers(tally: Tally, not_needed: dict[str, str]) -> tuple[RunningTimer, ...]:
    """Return the timers that run: each from when its prompt was done until the prompt that ends it is."""
    if tally.ended is not None:
        return ()
    found = []
    for prompt in tally.plan.prompts:
        timer, began = prompt.timer, tally.done.get(prompt.key)
        if timer is None or began is None or timer.until in tally.done or timer.until in not_needed:
            continue
        resting = rest(tally) if timer.until == "rest" else None
        ends = resting.earliest if resting else began + timedelta(minutes=timer.minutes)
        found.append(RunningTimer(timer.key, timer.label, began, ends, timer.portion))
    soft = again(tally)
    return (*found, soft) if soft else tuple(found)


def batter_since(tally: Tally, not_needed: dict[str, str]) -> datetime | None:
    """Return when lye met fats, as long as not everything is poured; the batter thickens from then on."""
    pours = (prompt.key for prompt in tally.plan.prompts if prompt.phase == "pour")
    is_poured = all(key in tally.done or key in not_needed for key in pours)
    return None if tally.ended is not None or is_poured else tally.done.get(COMBINE)


def due_at(tally: Tally, now_at: str, running: tuple[RunningTimer, ...]) -> datetime | None:
    """Return when the current prompt's wait is over, or None when it does not wait."""
    keys = {p.timer.key for p in tally.plan.prompts if p.timer is not None and p.timer.until == now_at}
    if now_at == FIRM:
        keys.add("firm-again")
    return min((timer.ends_at for timer in running if timer.key in keys), default=None)


def status(tally: Tally, now_at: str) -> Status:
    """Return where the batch is: at the bench, resting in its mould, curing, or ended."""
    if tally.ended is not None:
        return tally.ended.kind  # type: ignore[return-value]  # the endings are named like their statuses
    prompt = tally.book.prompts.get(now_at)
    phase = prompt.phase if prompt else "release"
    if phase in RESTING:
        return "resting"
    return "curing" if phase in CURING else "bench"
