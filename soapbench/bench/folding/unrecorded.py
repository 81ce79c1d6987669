"""What should be in a portion before it is poured, and of which nobody has said that it is."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bench.folding.book import ADDITIONS
from soapbench.bench.plan import Line, Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.science.words import say


@dataclass(frozen=True)
class NotIn:
    """An addition that may be missing: its line, the prompt that adds it, and its name with its portion."""

    line: Line
    prompt: str
    words: str


def asked_before(plan: Plan, prompt: Prompt) -> tuple[NotIn, ...]:
    """Return every addition that belongs into the portions of a pour, in the order of work."""
    adds = {f"add:{line.key}": line for line in plan.lines if line.group in ADDITIONS}
    letters = {*poured_at(plan, prompt), "all"}
    found = [(each.key, adds[each.key]) for each in plan.prompts if each.key in adds]
    return tuple(NotIn(line, key, _words(line)) for key, line in found if line.portion in letters)


def not_in_yet(plan: Plan, state: RunState, prompt: Prompt) -> tuple[NotIn, ...]:
    """Return those that are neither in nor left out."""
    return tuple(
        each
        for each in asked_before(plan, prompt)
        if each.prompt not in state.done and each.prompt not in state.skipped
    )


def poured_at(plan: Plan, prompt: Prompt) -> tuple[str, ...]:
    """Return the letters that a pour prompt pours."""
    number = prompt.key.removeprefix("pour:")
    stages = plan.formula.pour
    if number.isdigit() and 1 <= int(number) <= len(stages):
        return stages[int(number) - 1].portions
    return tuple(portion.letter for portion in plan.portions)


def _words(line: Line) -> str:
    return say("{name} for {portion}", name=line.name, portion=line.portion) if line.portion != "all" else line.name
