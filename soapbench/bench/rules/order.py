"""Rules on the order of a run: it begins once, ends once, and takes back only what is there."""

from __future__ import annotations

from soapbench.bench.folding.book import COMBINE, LYE
from soapbench.bench.folding.log import TOOK_BACK
from soapbench.bench.folding.pot import pot_checked
from soapbench.bench.kinds import PotChecked, Read, ScaleChecked, TookBack
from soapbench.bench.reading_doubt import doubt_about
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.words import Asked
from soapbench.science.errors import OutOfRange
from soapbench.science.scale_check import scale_check
from soapbench.science.words import say

# Which events may answer which kind of prompt; a remark, a change or a reading may come at any.
ANSWERS = {
    "tick": ("ticked", "done"),
    "scale check": ("scale-checked",),
    "weigh": ("weighed", "part-weighed"),
    "act": ("done",),
    "hold": ("done",),
    "settle": ("settled",),
    "read": ("done",),
    "cool": ("done",),
    "pot check": ("pot-checked",),
    "trace": ("trace-seen",),
    "rest test": ("rest-tested",),
    "split": ("split",),
    "pour": ("done",),
    "draw": ("drawn",),
    "look": ("looked", "done"),
    "firmness": ("firmness-checked",),
    "wait": ("done", "looked"),
    "cut": ("cut",),
    "cure": ("cure-weighed", "done"),
    "test": ("tested", "done"),
    "release": ("released", "rejected"),
}
AT_ANY = (
    "started", "read", "changed", "remedied", "noted", "attached", "paused", "resumed", "rinsed", TOOK_BACK,
    "postponed", "stopped", "taken-in-hand", "given-back", "credited", "decided",
)  # fmt: skip
# What may still be written into a closed batch: bars and floors can burn after it.
AFTER_THE_END = ("noted", "attached", "rinsed")


def check_ended(asked: Asked) -> None:
    if asked.state.ended is not None and asked.kind not in AFTER_THE_END:
        raise Refused(say("This batch is closed. You can still add a remark, nothing else."))


def check_started(asked: Asked) -> None:
    begun = asked.state.started_at is not None
    if asked.kind == "started" and begun:
        raise Refused(say("This batch has begun already."))
    if asked.kind not in ("started", "rinsed") and not begun:
        raise Refused(say("Read the caution and begin the batch first."))


def check_prompt(asked: Asked) -> None:
    """Refuse an unknown prompt, and an answer that belongs to another kind of prompt."""
    if not asked.prompt_key:
        if asked.kind == "done":
            raise Refused(say("Say what was done."), "prompt")
        return
    prompt = asked.prompt
    if prompt is None:
        raise Refused(say("This batch has no such step. Load the page again."), "prompt")
    if asked.kind not in AT_ANY and asked.kind not in ANSWERS[prompt.kind]:
        raise Refused(say("That does not answer “{title}”.", title=prompt.title), "prompt")


def check_take_back(asked: Asked) -> None:
    if not isinstance(asked.payload, TookBack):
        return
    found = next((fact for fact in asked.facts if fact.id == asked.payload.event), None)
    if found is None:
        raise Refused(say("That entry is not one of this batch."), "event")
    if found.kind in ("started", "rinsed", "taken-in-hand", "given-back", TOOK_BACK):
        raise Refused(say("That entry cannot be taken back. Enter it again if it was right."), "event")
    if found.id in asked.state.withdrawn:
        raise Refused(say("That entry was taken back already."), "event")


def remark_on(asked: Asked) -> str:
    """Return what to say about an accepted event: a reading that cannot be, a pot that is off, an act not undone."""
    if isinstance(asked.payload, Read):
        answered = bool(asked.payload.doubts_answered)
        return "" if answered else doubt_about(asked.book.plan, asked.state, asked.payload.pot, asked.payload.temp_c)
    if isinstance(asked.payload, PotChecked):
        return _gap_in_pot(asked, asked.payload)
    if isinstance(asked.payload, ScaleChecked):
        return _off_scale(asked, asked.payload)
    if not isinstance(asked.payload, TookBack):
        return ""
    found = next(fact for fact in asked.facts if fact.id == asked.payload.event)
    prompt = asked.book.prompts.get(found.prompt)
    if found.kind != "done" or prompt is None or prompt.kind not in ("hold", "pour"):
        return ""
    if prompt.key in (LYE, COMBINE):
        return say("This corrects a mistaken tap only. If it was really done, it cannot be undone: confirm it again.")
    return say("This corrects a mistaken tap only. What is poured stays poured.")


def _off_scale(asked: Asked, tried: ScaleChecked) -> str:
    """Return what to do about a scale that is off; "" when it may be used."""
    found = scale_check(tried.known_g, tried.read_g, asked.book.plan.resolution_g)
    return "" if found.ok else found.sentence


def _gap_in_pot(asked: Asked, checked: PotChecked) -> str:
    """Return what is wrong with the pot of fats on the scale; "" when it agrees with what was weighed."""
    try:
        found = pot_checked(asked.book.plan, asked.state.weights, checked.mass_g)
    except OutOfRange:  # every fat was left out
        return ""
    return "" if found.ok else found.sentence
