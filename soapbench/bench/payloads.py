"""Reads what came from outside: a payload becomes its dataclass, or a plain sentence says what is wrong."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import fields
from typing import Any

import msgspec

from soapbench.bench.kinds import KINDS, Payload
from soapbench.bench.refusal import Refused
from soapbench.science.words import mark, say

# One sentence a field: what it must be, which is also what to do.
SENTENCES = {
    "all_here": mark("Say whether all of the list is here: yes or no."),
    "by": mark("Choose who it was from the list."),
    "adds": mark("What is still to weigh could not be read. Load the page again and choose once more."),
    "code": mark("Choose one of the ways out."),
    "factor": mark("The batch can be made a tenth to ten times as large."),
    "lye_share": mark("Pour a part of the lye: more than nothing, at most all of it."),
    "bars": mark("Type the number of bars: a whole number from 0 to 10 000."),
    "cautions_read": mark("Read the caution first, then confirm that you have read it."),
    "checked": mark("What was found is too long. Use up to 200 letters."),
    "way": mark("Choose how the loaf was cut from the list."),
    "counts": mark("Choose which of the answers counts."),
    "choice": mark("Choose the recomputed or the planned alkali."),
    "crumbles": mark("Say whether the loaf crumbles: yes or no."),
    "decision": mark("Write what you decided, in a few words (up to 2000 letters)."),
    "doubts_answered": mark("The answers to the questions could not be read. Enter the weight again."),
    "entered": mark("What was typed is too long. Type the weight in grams."),
    "event": mark("Say which entry this is about: its id of 36 characters."),
    "events": mark("The answers could not be read. Load the page again and decide once more."),
    "gel": mark("Say whether the loaf gels: yes, no or unknown."),
    "is_firm": mark("Say whether the loaf is firm: yes or no."),
    "is_here": mark("Say whether the item is at hand: yes or no."),
    "is_running": mark("Say whether the rinsing begins or ends."),
    "jar": mark("Choose what the jar says: NaOH or KOH."),
    "known_g": mark("Type what the known thing weighs in grams: a number from 0 to 100 000."),
    "item": mark("Say which item is at hand."),
    "line": mark("Say which material this is about."),
    "lot": mark("Choose the lot from the list."),
    "lye": mark("Say where the lye is now: kept, handed in, poured away, in another batch or spilt."),
    "made_safe": mark("Write how the batch was made safe (up to 2000 letters)."),
    "mass_g": mark("Type the weight in grams: a number from 0 to 100 000."),
    "material": mark("Choose the material from the list."),
    "media": mark("This kind of file is not known here. Take the photo or the recording again."),
    "method": mark("Choose how the bar was tested from the list."),
    "minutes": mark("Type the minutes: a number from 0 to 100 000."),
    "note": mark("The note is too long. Use up to 200 letters."),
    "oil_film": mark("Say whether there is oil on top: yes or no."),
    "offcuts_g": mark("Type the trimmings in grams: a number from 0 to 100 000."),
    "passed": mark("Say whether the bar passed: yes or no."),
    "passes": mark("Type the number of passes: a whole number from 0 to 500."),
    "path": mark("Choose the drawing from the list."),
    "portion": mark("Choose the portion by its letter."),
    "pot": mark("Choose what was measured: lye, fats, batter, loaf, oven or room."),
    "read_g": mark("Type what the scale shows in grams: a number from 0 to 100 000."),
    "reason": mark("Write the reason, in a few words (up to 2000 letters)."),
    "steps": mark("What was made safe could not be read. Tick it again."),
    "sha256": mark("The file has lost its digest. Take the photo or the recording again."),
    "size": mark("The file is empty or too large. Take the photo or the recording again."),
    "temp_c": mark("Type the temperature in °C: a number from −30 to 150."),
    "to": mark("Choose who takes it from the list."),
    "text": mark("Write the remark, in a few words (up to 2000 letters)."),
    "thickens_as_it_cools": mark("Say whether it thickens while it cools: yes or no."),
    "tool": mark("Choose the tool from the list."),
    "trace": mark("Choose the trace: emulsion, thin, medium or thick."),
    "until": mark("Write until when, in a few words (up to 200 letters)."),
    "value": mark("Type the result of the test: a number from 0 to 100."),
    "what": mark("Choose what is different from the list."),
    "where": mark("Say where it was rinsed: eye or skin."),
    "words": mark("The caption is too long. Use up to 200 letters."),
    "why": mark("Write why, in a few words (up to 2000 letters)."),
}
_AT = re.compile(r"\$\.(\w+)")
_MISSING = re.compile(r"required field `(\w+)`")


def parse(kind: str, payload: Any) -> Payload:
    """Return the payload of an event of this kind.

    Raises:
        Refused: an unknown kind, a field that is missing, unknown, of the wrong type or out of range.
    """
    if not isinstance(kind, str) or kind not in KINDS:
        raise Refused(say("This app does not know that kind of entry. Load the page again."), "kind")
    if not isinstance(payload, Mapping):
        raise Refused(say("The entry could not be read. Load the page again and enter it once more."), "payload")
    _check_known(KINDS[kind], payload)
    for name, value in payload.items():
        _check_text(name, value)
    try:
        return msgspec.convert(dict(payload), KINDS[kind])
    except msgspec.ValidationError as error:
        field = _field_of(str(error))
        raise Refused(say(SENTENCES.get(field, mark("Something in this entry cannot be read."))), field) from error


def _check_known(kind: type[Payload], payload: Mapping[Any, Any]) -> None:
    names = {field.name for field in fields(kind)}
    for name in payload:
        if name not in names:
            raise Refused(
                say("“{name}” does not belong to this entry. Load the page again.", name=str(name)[:40]), str(name)[:40]
            )


def _check_text(name: str, value: Any) -> None:
    # Neither database stores these: a nought byte, half a letter, a number that is none.
    if isinstance(value, str) and ("\x00" in value or not _is_whole(value)):
        raise Refused(say(SENTENCES.get(name, mark("Write it again."))), name)
    if isinstance(value, float) and not math.isfinite(value):
        raise Refused(say(SENTENCES.get(name, mark("Type a number."))), name)
    if isinstance(value, list | tuple):
        for part in value:
            _check_text(name, part)


def _is_whole(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _field_of(message: str) -> str:
    found = _AT.search(message) or _MISSING.search(message)
    return found.group(1) if found else ""


def stored(payload: Payload) -> dict[str, Any]:
    """Return the payload as the log keeps it: plain JSON data, every field present."""
    # Field by field: msgspec leaves out what it took from a dataclass's defaults.
    document: dict[str, Any] = msgspec.to_builtins({each.name: getattr(payload, each.name) for each in fields(payload)})
    return document
