"""What a batch waits for on the clock: what runs already, and by the plan what comes after it.

Nothing here reads the clock, so that the same events always make the same calendar.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time, timedelta

from django.utils import timezone
from django.utils.translation import gettext as _

from soapbench.bench.folding.book import CURE, FIRM, RELEASE, TEST
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.rack.due import ACTS, weighing_due

MORNING = time(8)  # what has no hour of its own is due then; own choice
WEIGH = "weigh"  # the key of a wait that is no prompt: the next weighing while bars cure
REST, CUT_WAIT = "rest", "cut-wait"  # as planning.resting names them
RACK_PHASES = ("rest", "cut", "cure", "release")


@dataclass(frozen=True)
class Wait:
    """One thing to do later."""

    key: str  # of the prompt that waits, or WEIGH; stays the same when the hour moves
    act: str
    due_at: datetime
    is_running: bool  # False: by the plan, and moves with what comes before

    @property
    def rings_at_night(self) -> bool:
        """Return whether an alarm may not wait for the morning: an oven, and all that runs at the bench."""
        return self.key not in (*ACTS, CURE, WEIGH)


def waits_of(plan: Plan, state: RunState) -> tuple[Wait, ...]:
    """Return what the batch waits for, the soonest first; nothing once it has ended."""
    if state.ended is not None:
        return ()
    found = [*_waiting(plan, state), *_by_morning(plan, state)]
    found = _with_weighing(state, found)
    return tuple(sorted(found, key=lambda wait: wait.due_at))


def _waiting(plan: Plan, state: RunState) -> list[Wait]:
    """Return the waits that end at an hour: those that run, and those that their end will start."""
    running, planned, at = _running(plan, state), dict[str, datetime](), _reached(plan, state)
    found = []
    for prompt in _open(plan, state):
        due = running.get(prompt.key) or planned.get(prompt.key)
        if due is not None:
            found.append(Wait(prompt.key, _act(plan, prompt), due, prompt.key in running))
            at = max(at or due, due) if prompt.phase in RACK_PHASES else at
        if prompt.timer is not None and at is not None:
            planned[prompt.timer.until] = at + timedelta(minutes=prompt.timer.minutes)
    return found


def _running(plan: Plan, state: RunState) -> dict[str, datetime]:
    """Return when each running wait is over, by the key of the prompt that waits; of several the soonest."""
    ends = {timer.key: timer.ends_at for timer in state.timers}
    found: dict[str, datetime] = {}
    if state.due_at is not None:
        found[state.current] = state.due_at
    for prompt in plan.prompts:
        if prompt.timer is not None and prompt.key in state.done and prompt.timer.key in ends:
            due = ends[prompt.timer.key]
            found[prompt.timer.until] = min(due, found.get(prompt.timer.until, due))
    return found


def _reached(plan: Plan, state: RunState) -> datetime | None:
    """Return when the prompt before the current one was done, from the full mould on; None while at the bench."""
    if not state.current or plan.prompt(state.current).phase not in RACK_PHASES:
        return None
    return max(state.done.values(), default=None)


def _open(plan: Plan, state: RunState) -> list[Prompt]:
    return [prompt for prompt in plan.prompts if prompt.key not in state.done and prompt.key not in state.skipped]


def _act(plan: Plan, prompt: Prompt) -> str:
    """Return what is to be done when the wait is over."""
    if prompt.key == CURE:
        return _("Weigh: are the bars cured?")
    if prompt.key in (REST, FIRM):
        is_cut_later = any(other.key == CUT_WAIT for other in plan.prompts)
        return _("Press the loaf; firm: unmould it") if is_cut_later else _("Press the loaf; firm: unmould and cut it")
    if prompt.key in ACTS:
        return str(ACTS[prompt.key])
    timer = next((p.timer for p in plan.prompts if p.timer and p.timer.until == prompt.key), None)
    return timer.label if timer and prompt.kind != "wait" else prompt.title


def _by_morning(plan: Plan, state: RunState) -> list[Wait]:
    """Return the test or the decision: they wait for somebody, not for an hour, so the next morning reminds."""
    reached = _reached(plan, state)
    if state.current not in (TEST, RELEASE) or reached is None:
        return []
    return [Wait(state.current, str(ACTS[state.current]), morning_after(reached), True)]


def morning_after(moment: datetime) -> datetime:
    """Return eight o'clock of the next day, in the workshop's own time."""
    day = timezone.localdate(moment) + timedelta(days=1)
    return timezone.make_aware(datetime.combine(day, MORNING))


def _with_weighing(state: RunState, found: list[Wait]) -> list[Wait]:
    """Return the waits with the next weighing of bars that cure, and the test the morning after the cure."""
    cured = next((wait for wait in found if wait.key == CURE), None)
    if cured is None:
        return found
    test = Wait(TEST, _("Test a bar, then release or reject the bars"), morning_after(cured.due_at), False)
    if state.current != CURE or state.cut is None:
        return [*found, test]
    weighed_at = max([state.cut["at"], *(at for at, _bars, _mass in state.cure_weighings)])
    due = weighing_due(weighed_at, cured.due_at)
    if due == cured.due_at:
        return [*found, test]
    return [*found, test, Wait(WEIGH, _("Turn the bars, weigh the marked ones"), due, True)]
