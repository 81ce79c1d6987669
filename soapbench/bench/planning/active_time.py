"""How long a batch keeps its maker at the bench: from setting out to the end of the drawing."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from soapbench.bench.folding.book import LYE
from soapbench.bench.plan import Prompt, PromptKind

# Minutes of hands-on work by kind of prompt; own choice, until they are learnt from finished runs.
USUAL: dict[PromptKind, float] = {
    "tick": 1.0,
    "scale check": 1.0,
    "weigh": 1.5,
    "act": 2.0,
    "hold": 2.0,
    "read": 1.0,
    "pot check": 1.0,
    "trace": 5.0,
    "split": 1.5,
    "pour": 2.0,
    "draw": 3.0,
}
MELTING = 15.0  # own choice
STEP = 5.0
LEAST = 60.0  # what to keep free in any case; own choice


def minutes_at_work(prompts: Sequence[Prompt]) -> float:
    """Return about how many minutes lie between the first prompt and the last pour or drawing, in steps of five.

    What is done while the lye cools counts only where it takes longer than the cooling.
    """
    ends = [number for number, prompt in enumerate(prompts) if prompt.kind in ("pour", "draw")]
    work = prompts[: ends[-1] + 1] if ends else prompts
    cooling = next((prompt.timer.minutes for prompt in work if prompt.key == LYE and prompt.timer), 0.0)
    meanwhile = sum(_minutes(prompt) for prompt in work if prompt.phase == "meanwhile")
    other = sum(_minutes(prompt) for prompt in work if prompt.phase != "meanwhile")
    return max(LEAST, ceil((other + max(cooling, meanwhile)) / STEP) * STEP)


def _minutes(prompt: Prompt) -> float:
    return MELTING if prompt.key == "melt" else USUAL.get(prompt.kind, 0.0)
