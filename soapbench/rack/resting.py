"""The loaf in its mould as the rack and the record tell it: gel, window, pressings."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.state import Firmness, RunState
from soapbench.rack.words import day_and_clock

GEL: dict[str, str | Promise] = {
    "yes": later("gel seen"),
    "no": later("no gel seen"),
    "unknown": later("gel not known"),
}


@dataclass(frozen=True)
class Told:
    """Something seen at the loaf: what, when, by whom."""

    said: str
    note: str
    when: str
    person: str
    is_odd: bool = False


@dataclass(frozen=True)
class Resting:
    """When the loaf is usually firm, and what was seen at it."""

    window: str
    why: str
    told: tuple[Told, ...]

    @property
    def crumbled(self) -> bool:
        return any(each.is_odd for each in self.told)


def resting(state: RunState) -> Resting | None:
    """Return how the loaf stands, None before it was set aside and for batches without a window."""
    if state.rest is None:
        return None
    ends = {"from": day_and_clock(state.rest.earliest), "to": day_and_clock(state.rest.latest)}
    looks = [
        (look.happened_at, Told(str(GEL[look.payload["gel"]]), "", day_and_clock(look.happened_at), look.person))
        for look in state.looks
    ]
    pressings = [(one.at, _pressed(one)) for one in state.firmness]
    told = tuple(each for _at, each in sorted((*looks, *pressings), key=lambda pair: pair[0]))
    return Resting(_("%(from)s to %(to)s") % ends, state.rest.sentence, told)


def _pressed(one: Firmness) -> Told:
    said = _("crumbles") if one.crumbles else _("firm, no dent") if one.is_firm else _("dents")
    remark = f"{one.note.rstrip('.')}." if one.note else ""
    warning = _("Can be lye-heavy: test a bar before anything else.") if one.crumbles else ""
    return Told(said, " ".join(filter(None, (remark, warning))), day_and_clock(one.at), one.person, one.crumbles)
