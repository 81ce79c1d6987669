"""Rules on what is set out, on the scale that is tried, and on putting the batch off."""

from __future__ import annotations

from soapbench.bench.folding.book import PROTECTION
from soapbench.bench.kinds import Changed, Done, Postponed, ScaleChecked
from soapbench.bench.plan import Prompt, Tick
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.words import Asked
from soapbench.bench.words import listed
from soapbench.science.words import say

NO_STAND_IN = ("protection", "room")


def check_gathered(asked: Asked) -> None:
    if isinstance(asked.payload, Done) and asked.prompt is not None and asked.prompt.kind == "tick":
        _check_list(asked, asked.prompt, all_here=asked.payload.all_here)
    if isinstance(asked.payload, ScaleChecked):
        _check_known(asked, asked.payload.known_g)
    if isinstance(asked.payload, Postponed) and asked.state.lye_made:
        raise Refused(say("The lye is made: it cannot wait. Go on, or stop the batch and make it safe."))
    if isinstance(asked.payload, Changed) and asked.payload.item:
        _check_item(asked, asked.payload.item)


def _check_list(asked: Asked, prompt: Prompt, *, all_here: bool) -> None:
    """Refuse to close a list of the gate with an open item; the later lists only ask."""
    if prompt.phase != "gather" and prompt.key != PROTECTION:
        return
    open_items = [tick.text for tick in prompt.ticks if _is_open(asked, tick, all_here=all_here)]
    if open_items:
        raise Refused(
            say("Still open: {open_items}. Tick it, or say that it is not here.", open_items=listed(open_items))
        )


def _is_open(asked: Asked, tick: Tick, *, all_here: bool) -> bool:
    is_answered = asked.is_settled(tick)
    return not is_answered and not (all_here and not tick.alone and tick.key not in asked.state.ticked)


def _check_known(asked: Asked, known_g: float) -> None:
    if known_g == 0:
        raise Refused(say("Type what the known thing weighs, as its label says."), "known_g")
    if known_g > asked.book.plan.capacity_g:
        raise Refused(
            say("The scale carries {capacity:g} g. Take something lighter.", capacity=asked.book.plan.capacity_g),
            "known_g",
        )


def _check_item(asked: Asked, item: str) -> None:
    tick = asked.book.ticks.get(item)
    if tick is None:
        raise Refused(say("That item is not on this list."), "item")
    if tick.what in NO_STAND_IN:
        raise Refused(
            say("Nothing stands in for this: {text}. Put the batch off until it is so.", text=tick.text), "item"
        )
