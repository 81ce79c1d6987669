"""The cooling pots as the screen tells of them: when both are in the window, what to do meanwhile, what when missed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import msgspec
from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from soapbench.bench.cooling import Cooling, Mixing, PotCooling
from soapbench.bench.cooling_picture import Picture, picture_of
from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState
from soapbench.science.cooling import Window
from soapbench.science.interval import Interval
from soapbench.science.remedy import Remedy


@dataclass(frozen=True)
class PotWords:
    """One pot in the picture's words."""

    pot: str
    name: str
    window: str  # when it comes into the window
    note: str  # what the fit rests on
    read: str  # every reading in words, for who cannot see the picture
    odd: tuple[str, ...]  # events of odd readings


@dataclass(frozen=True)
class WayWords:
    """One way out of a missed window, with the temperature of the pot that it is about."""

    title: str
    sentence: str
    temp_c: float


@dataclass(frozen=True)
class MixWords:
    sentence: str
    warning: str
    advice: str


@dataclass(frozen=True)
class CoolingScreen:
    """Ready to print, and sent to the phone as it is."""

    sentence: str = ""  # both pots, by the clock
    is_missed: bool = False  # waiting alone will not do
    began: str = ""  # ISO 8601: minute 0
    room: str = ""
    room_c: float = 0.0
    pots: tuple[PotWords, ...] = ()
    picture: Picture | None = None
    ways: tuple[WayWords, ...] = ()
    mixing: MixWords | None = None


@dataclass(frozen=True)
class Meanwhile:
    """A prompt that may be done while the lye cools."""

    key: str
    title: str
    minutes: float
    is_open: bool


@dataclass(frozen=True)
class MeanwhileList:
    """All of them; first, count and minutes are of those still open."""

    prompts: tuple[Meanwhile, ...] = ()

    @property
    def open_ones(self) -> tuple[Meanwhile, ...]:
        return tuple(each for each in self.prompts if each.is_open)

    @property
    def minutes(self) -> int:
        return math.ceil(sum(each.minutes for each in self.open_ones))


def cooling_screen(plan: Plan, state: RunState) -> CoolingScreen:
    """Return what is told of the pots; empty before the alkali is in the water."""
    mixing = _mix_words(state.mixing) if state.mixing else None
    found = state.cooling
    if found is None:
        return CoolingScreen(mixing=mixing)
    return CoolingScreen(
        sentence=_sentence(found),
        is_missed=bool(found.ways or found.decided),
        began=found.began.isoformat(),
        room=_room(found),
        room_c=found.room_c,
        pots=tuple(_pot(found, pot, state) for pot in found.pots),
        picture=picture_of(found, state.readings),
        ways=tuple(_way(found, way) for way in found.ways),
        mixing=mixing,
    )


def cooling_document(screen: CoolingScreen) -> dict[str, Any]:
    """Return the screen as plain JSON data."""
    document: dict[str, Any] = msgspec.to_builtins(screen)
    return document


def meanwhile_list(plan: Plan, state: RunState) -> MeanwhileList:
    """Return the prompts that can fill the time while the lye cools; open ones only while it does."""
    cools = state.lye_made and not state.is_combined
    closed = state.done.keys() | state.skipped.keys()
    found = [prompt for prompt in plan.prompts if prompt.meanwhile]
    return MeanwhileList(
        tuple(Meanwhile(one.key, one.title, one.takes_minutes, cools and one.key not in closed) for one in found)
    )


def _sentence(found: Cooling) -> str:
    """Return when both pots are in the window, as times of day: nobody at the bench counts minutes."""
    shared = found.shared
    if shared is None:
        return ""
    if found.decided:
        return _("Decided: %s. Read the pots when it is done.") % found.decided
    if found.ways or not shared.ok:
        return _missed(found, shared)
    if shared.opens is None:
        return shared.sentence
    if all(found.low_c <= pot.last_c <= found.high_c for pot in found.pots):
        said = _("Both in the window")
    else:
        said = _("Both in the window at about %s") % _at(found, shared.opens)
        said += _band(found, shared.opens_band)
    return said + (_(", until about %s.") % _at(found, shared.closes) if shared.closes is not None else ".")


def _missed(found: Cooling, shared: Window) -> str:
    if found.ways and found.ways[0].code.startswith("warm"):
        cold = [pot for pot in found.pots if pot.last_c < found.low_c]
        names = {"lye": _("The lye is below the window."), "fats": _("The fats are below the window.")}
        return " ".join(names[pot.pot] for pot in cold)
    if shared.first_out is None or shared.opens is None or shared.closes is None:
        return shared.sentence
    times = {"out": _at(found, shared.closes), "in": _at(found, shared.opens)}
    if shared.first_out == "fats":
        return _("The fats leave the window at about %(out)s, before the lye is in it at about %(in)s.") % times
    return _("The lye leaves the window at about %(out)s, before the fats are in it at about %(in)s.") % times


def _pot(found: Cooling, pot: PotCooling, state: RunState) -> PotWords:
    names = {"lye": _("Lye"), "fats": _("Fats")}
    note = pot.sentence
    if pot.runs:
        note += (
            " " + ngettext("Its rate is learnt from %d run.", "Its rate is learnt from %d runs.", pot.runs) % pot.runs
        )
    return PotWords(pot.pot, names[pot.pot], _enters(found, pot), note, _read(found, pot, state), pot.odd)


def _read(found: Cooling, pot: PotCooling, state: RunState) -> str:
    shown = [one for one in state.readings if one.pot == pot.pot and one.at >= found.began]
    parts = []
    for one in shown:
        minutes = (one.at - found.began).total_seconds() / 60
        parts.append(_("%(temp)g °C at %(minutes).0f min") % {"temp": one.temp_c, "minutes": minutes})
        parts[-1] += _(" (odd)") if one.event in pot.odd else ""
    return ", ".join(parts)


def _enters(found: Cooling, pot: PotCooling) -> str:
    if pot.last_c < found.low_c:
        return _("below the window")
    if pot.last_c <= found.high_c:
        return _("in the window")
    if pot.enters is None:
        return _("will not get there by itself")
    return _("in it at about %s") % _at(found, pot.enters.central) + _band(found, pot.enters)


def _band(found: Cooling, band: Interval | None) -> str:
    if band is None:
        return ""
    return _(" (%(low)s to %(high)s)") % {"low": _at(found, band.low), "high": _at(found, band.high)}


def _at(found: Cooling, minutes: float) -> str:
    return clock(found.began + timedelta(minutes=minutes))


def clock(moment: datetime) -> str:
    return date_format(localtime(moment), "H:i")


def _room(found: Cooling) -> str:
    if found.room_was_read:
        return _("Room %g °C, as read.") % found.room_c
    return _("Room %g °C, as kept for the workshop.") % found.room_c


def _way(found: Cooling, way: Remedy) -> WayWords:
    pot = found.pot("fats" if way.code.endswith("fats") else "lye")
    return WayWords(way.title, way.sentence, pot.last_c if pot else found.high_c)


def _mix_words(mixing: Mixing) -> MixWords:
    return MixWords(mixing.sentence, mixing.warning, mixing.advice)
