"""What is not at hand, and what is done about it."""

from __future__ import annotations

from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Tick
from soapbench.science.words import say


def dealt(tally: Tally) -> dict[str, str]:
    """Return what is done about each item that a change deals with, by the item's key."""
    found = {key: _what_is_done(tally, tick) for key, tick in tally.book.ticks.items()}
    return {key: words for key, words in found.items() if words}


def _what_is_done(tally: Tally, tick: Tick) -> str:
    said = tally.dealt_with.get(tick.key, "")
    if said or not tick.lines:
        return said
    answers = [_instead(tally, key) for key in tick.lines]
    return ", ".join(dict.fromkeys(answers)) if all(answers) else ""


def _instead(tally: Tally, line: str) -> str:
    """Return what goes in for a line, "left out", or "" for as planned."""
    if line in tally.left_out:
        return "left out"
    if line not in tally.used_instead:
        return ""
    return say("{name} instead", name=tally.name_of(tally.book.lines[line]))
