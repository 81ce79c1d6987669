"""Rules on prompts in hand, on who did what, and on answers that stand against each other."""

from __future__ import annotations

from soapbench.bench.kinds import Credited, Decided, GivenBack, TakenInHand
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.words import Asked

NOT_CREDITED = ("taken-in-hand", "given-back", "credited", "took-back")


def check_in_hand(asked: Asked) -> None:
    """Refuse taking nothing; one that was done meanwhile is no trouble."""
    if isinstance(asked.payload, TakenInHand | GivenBack) and not asked.prompt_key:
        raise Refused("Say which step is in hand.", "prompt")


def check_credited(asked: Asked) -> None:
    if not isinstance(asked.payload, Credited):
        return
    found = next((fact for fact in asked.facts if fact.id == asked.payload.event), None)
    if found is None:
        raise Refused("That entry is not one of this batch.", "event")
    if found.kind in NOT_CREDITED:
        raise Refused("Only what was done at the bench has somebody who did it.", "event")


def check_decided(asked: Asked) -> None:
    """Refuse a decision about entries that are not here, or in favour of one that it does not name."""
    chosen = asked.payload
    if not isinstance(chosen, Decided):
        return
    found = [fact for fact in asked.facts if fact.id in chosen.events]
    if len(found) < len(set(chosen.events)):
        raise Refused("One of these entries is not in this batch. Load the page again.", "events")
    if not set(chosen.counts) <= set(chosen.events):
        raise Refused("Choose one of the answers that are shown.", "counts")
    if len(set(chosen.counts)) > 1 and any(fact.kind != "weighed" for fact in found):
        raise Refused("Only one of these can be true. Choose it.", "counts")
