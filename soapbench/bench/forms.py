"""What comes in from outside, before anything believes it: one event, from a script or from a plain form."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Any

import msgspec
from django.http import HttpRequest, QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _
from msgspec import Meta

MOST_BYTES = 64 * 1024  # the largest honest event is a few hundred bytes
FORM_DEVICE = "plain page"

NUMBERS = ("mass_g", "known_g", "read_g", "temp_c", "minutes", "value", "offcuts_g", "lye_share", "factor")
WHOLE_NUMBERS = ("lot", "bars", "passes")
YES_OR_NO = (
    "all_here", "crumbles", "is_firm", "is_here", "is_running", "passed", "cautions_read", "oil_film",
    "thickens_as_it_cools",
)  # fmt: skip
LISTS = ("doubts_answered", "steps", "events", "counts")
PAIRS = ("adds",)  # each "line=grams"
OWN_WORDS = "_words"  # a field of this ending, when filled, wins over the choice of the same name
ENVELOPE = ("csrfmiddlewaretoken", "id", "kind", "prompt", "shown", "seen")


class Unreadable(Exception):
    """The request is no event; the sentence says what is wrong, the status how to answer."""

    def __init__(self, sentence: str, field: str = "", status: int = 400) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field
        self.status = status


@dataclass(frozen=True)
class Incoming:
    """One event as it arrived."""

    id: uuid.UUID
    kind: Annotated[str, Meta(min_length=1, max_length=20)]
    payload: dict[str, Any]
    happened_at: Annotated[datetime, Meta(tz=True)]
    prompt: Annotated[str, Meta(max_length=120)] = ""
    device: Annotated[str, Meta(max_length=64)] = ""
    device_at: Annotated[datetime, Meta(tz=True)] | None = None  # by the device's own clock
    have: int = 0  # how many facts of the run the device holds
    seen: Annotated[int, Meta(ge=0, le=1_000_000)] | None = None  # how many whoever tapped knew of


def from_script(request: HttpRequest) -> Incoming:
    """Return the event of a JSON request.

    Raises:
        Unreadable: too much, no JSON, or not the shape of an event.
    """
    if int(request.META.get("CONTENT_LENGTH") or 0) > MOST_BYTES:  # before a byte of it is read
        raise Unreadable(_("This is too much for one tap. Nothing was recorded."))
    try:
        return msgspec.json.decode(request.body, type=Incoming)
    except msgspec.ValidationError as error:
        raise Unreadable(_("This tap came without a part that it needs: %s.") % error, status=422) from error
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        raise Unreadable(_("This tap could not be read. Load the page again.")) from error


def from_form(request: HttpRequest) -> Incoming:
    """Return the event of a plain form.

    Raises:
        Unreadable: the form has lost its id, or a number is no number.
    """
    data = request.POST
    try:
        event_id = uuid.UUID(data.get("id", ""))
    except ValueError as error:
        raise Unreadable(_("This form has lost its number. Load the page again."), "id") from error
    return Incoming(
        id=event_id,
        kind=data.get("kind", "")[:20],
        prompt=data.get("prompt", "")[:120],
        payload=payload_of(data),
        happened_at=timezone.now(),
        device=FORM_DEVICE,
        seen=int(data["seen"][:6]) if data.get("seen", "").isdecimal() else None,
    )


def payload_of(data: QueryDict) -> dict[str, Any]:
    """Return the fields of a form as an event carries them; empty ones are left out.

    Raises:
        Unreadable: a number is no number.
    """
    names = [name for name in data if name not in ENVELOPE and not name.endswith(OWN_WORDS)]
    words = [name.removesuffix(OWN_WORDS) for name in data if name.endswith(OWN_WORDS)]
    payload = {name: _value(name, data) for name in dict.fromkeys([*names, *words])}
    return {name: value for name, value in payload.items() if value not in ("", None, [])}


def _value(name: str, data: QueryDict) -> Any:
    text = (data.get(name + OWN_WORDS, "").strip() or data.get(name, "")).strip()
    if name in LISTS:
        return [each for each in data.getlist(name) if each]
    if name in PAIRS:
        return [_pair(each, name) for each in data.getlist(name) if each]
    if name in YES_OR_NO:
        return text.lower() in ("true", "yes", "on", "1")
    if text and name in WHOLE_NUMBERS:
        return _whole(text, name)
    if text and name in NUMBERS:
        return number(text, name)
    return text


def number(text: str, field: str) -> float:
    """Return the number that was typed, with a comma or a point.

    Raises:
        Unreadable: it is none.
    """
    plain = text.strip().replace(",", ".").replace("\u202f", "").replace("\u00a0", "").replace(" ", "")
    try:
        value = float(plain)
    except ValueError:
        value = float("nan")
    if not abs(value) < float("inf"):  # catches "nan" too
        raise Unreadable(_("“%s” is not a number. Type digits and one decimal mark.") % text[:40], field, 422)
    return value


def _pair(text: str, field: str) -> list[str | float]:
    key, _mark, grams = text.rpartition("=")
    return [key, number(grams, field)]


def _whole(text: str, field: str) -> int:
    value = number(text, field)
    if value != int(value):
        raise Unreadable(_("Type a whole number, without a decimal mark."), field, 422)
    return int(value)


def typed(data: QueryDict) -> dict[str, str]:
    """Return what somebody typed or ticked, so that a refused form can show it again."""
    names = [name for name in data if name not in ("csrfmiddlewaretoken", "id")]
    return {name: " ".join(data.getlist(name)) if name in LISTS else str(data[name]) for name in names}
