"""One event in a few words: what "take back" would take back, and what the record lists."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.utils.translation import gettext as _

from soapbench.bench.plan import Plan
from soapbench.bench.state import Fact
from soapbench.bench.words import grams

Payload = dict[str, Any]


def fact_words(plan: Plan, fact: Fact) -> str:
    """Return the event as a maker would say it, such as "Olive oil 451.5 g"."""
    say = WORDS.get(fact.kind)
    return say(plan, fact) if say else _title(plan, fact) or fact.kind


def _title(plan: Plan, fact: Fact) -> str:
    return next((prompt.title for prompt in plan.prompts if prompt.key == fact.prompt), "")


def _line(plan: Plan, key: str) -> str:
    return next((line.name for line in plan.lines if line.key == key), key)


def _ticked(plan: Plan, fact: Fact) -> str:
    texts: dict[str, str] = {tick.key: tick.text for prompt in plan.prompts for tick in prompt.ticks}
    item = str(fact.payload["item"])
    return texts.get(item, item)


def _weighed(plan: Plan, fact: Fact) -> str:
    return f"{_line(plan, fact.payload['line'])} {grams(fact.payload['mass_g'])}"


def _part(plan: Plan, fact: Fact) -> str:
    return f"{_line(plan, fact.payload['line'])} + {grams(fact.payload['mass_g'])}"


def _read(plan: Plan, fact: Fact) -> str:
    return f"{fact.payload['pot']} {fact.payload['temp_c']:g} °C"


def _split(plan: Plan, fact: Fact) -> str:
    return f"{fact.payload['portion']} {grams(fact.payload['mass_g'])}"


def _scale_checked(plan: Plan, fact: Fact) -> str:
    known, read = grams(fact.payload["known_g"]), grams(fact.payload["read_g"])
    return _("scale shows %(read)s for %(known)s") % {"read": read, "known": known}


def _changed(plan: Plan, fact: Fact) -> str:
    line = fact.payload.get("line")
    return f"{fact.payload['what']}: {_line(plan, line)}" if line else str(fact.payload["what"])


def rest_words(payload: Payload) -> str:
    """Return what the rest test found."""
    found = {_("oil on top"): payload["oil_film"], _("thickens as it cools"): payload["thickens_as_it_cools"]}
    return ", ".join(words for words, is_so in found.items() if is_so) or _("rested, looks right")


def _attached(plan: Plan, fact: Fact) -> str:
    name = _("photo") if fact.payload["what"] == "photo" else _("voice note")
    words = str(fact.payload["words"])[:60]
    return f"{name}: {words}" if words else name


def _firmness(payload: Payload) -> str:
    if payload["crumbles"]:
        return _("crumbles")
    return _("firm, no dent") if payload["is_firm"] else _("it dents")


def _in_hand(plan: Plan, fact: Fact) -> str:
    return _("in the hand of %s") % (fact.payload["to"] or fact.person)


WORDS: dict[str, Callable[[Plan, Fact], str]] = {
    "ticked": _ticked,
    "scale-checked": _scale_checked,
    "postponed": lambda plan, fact: _("put off: %s") % str(fact.payload["why"])[:60],
    "weighed": _weighed,
    "part-weighed": _part,
    "remedied": lambda plan, fact: str(fact.payload["decision"])[:60],
    "read": _read,
    "split": _split,
    "changed": _changed,
    "attached": _attached,
    "noted": lambda plan, fact: str(fact.payload["text"])[:60],
    "pot-checked": lambda plan, fact: f"{_('pot')} {grams(fact.payload['mass_g'])}",
    "trace-seen": lambda plan, fact: str(fact.payload["trace"]),
    "looked": lambda plan, fact: f"{_('gel')}: {fact.payload['gel']}",
    "firmness-checked": lambda plan, fact: _firmness(fact.payload),
    "paused": lambda plan, fact: _("hold on"),
    "resumed": lambda plan, fact: " · ".join(filter(None, (_("back at the bench"), str(fact.payload["checked"])))),
    "rinsed": lambda plan, fact: _("rinsing began") if fact.payload["is_running"] else _("rinsing ended"),
    "taken-in-hand": _in_hand,
    "given-back": lambda plan, fact: _("free again"),
    "credited": lambda plan, fact: _("that was %s") % fact.payload["by"],
    "decided": lambda plan, fact: _("decided which answer counts"),
    "rest-tested": lambda plan, fact: rest_words(fact.payload),
}
