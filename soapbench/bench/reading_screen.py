"""Readings as the screen takes them: tiles with the likely temperatures, and the curves of both pots."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bench.folding.book import LYE
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.pots import POTS as POTS_THAT_COOL
from soapbench.bench.pots import Pot, heat_capacity_of
from soapbench.bench.state import RunState, TemperatureReading
from soapbench.science.cooling import (
    CoolingFit,
    Reading,
    Window,
    below_window_advice,
    both_in_window,
    fit,
    prior_for,
)
from soapbench.science.errors import OutOfRange

POTS: dict[str, str | Promise] = {
    "lye": gettext_lazy("Lye"),
    "fats": gettext_lazy("Fats"),
    "batter": gettext_lazy("Batter"),
}
FIRST_TILES = tuple(range(95, 35, -5))  # nothing is known yet: coarse, the exact one can be typed
NEXT_TILES = tuple(range(1, -11, -1))  # around the last reading, mostly colder
WIDTH, HEIGHT = 320, 120
COLDEST, HOTTEST = 15.0, 105.0


@dataclass(frozen=True)
class PotScreen:
    pot: str
    title: str | Promise
    last: str
    tiles: tuple[int, ...]


@dataclass(frozen=True)
class CoolingScreen:
    """Curves as points of an SVG of WIDTH by HEIGHT, and when both pots will be in the window."""

    sentence: str = ""
    lye: str = ""
    fats: str = ""
    window_y: int = 0
    window_height: int = 0


def pots_of(prompt: Prompt, state: RunState) -> tuple[PotScreen, ...]:
    """Return the pots that a prompt asks to read, each with its likely temperatures."""
    names = ("lye", "fats") if prompt.kind == "cool" else (prompt.pot or "lye",)
    return tuple(_pot(name, state) for name in names) if prompt.kind in ("read", "cool") else ()


def _pot(name: str, state: RunState) -> PotScreen:
    temperatures = [reading.temp_c for reading in state.readings if reading.pot == name]
    if not temperatures:
        return PotScreen(name, POTS[name], "", FIRST_TILES)
    last = temperatures[-1]
    tiles = tuple(round(last) + offset for offset in NEXT_TILES)
    return PotScreen(name, POTS[name], f"{last:g} °C", tiles)


def cooling_screen(plan: Plan, state: RunState) -> CoolingScreen:
    """Return the curves and the window; the estimate only at the prompt that waits for it."""
    prompt = next((prompt for prompt in plan.prompts if prompt.kind == "cool"), None)
    if prompt is None or prompt.low_c is None or prompt.high_c is None:
        return CoolingScreen()
    top, bottom = _y(prompt.high_c), _y(prompt.low_c)
    return CoolingScreen(
        sentence=estimate(plan, state, prompt.low_c, prompt.high_c) if prompt.key == state.current else "",
        lye=_points(state.readings, "lye"),
        fats=_points(state.readings, "fats"),
        window_y=top,
        window_height=bottom - top,
    )


def _points(readings: Sequence[TemperatureReading], pot: str) -> str:
    last = max((reading.minutes for reading in readings), default=0)
    width = max(last, 30.0)
    shown = [reading for reading in readings if reading.pot == pot]
    return " ".join(f"{max(0.0, reading.minutes) / width * WIDTH:.0f},{_y(reading.temp_c)}" for reading in shown)


def _y(temp_c: float) -> int:
    share = (HOTTEST - min(max(temp_c, COLDEST), HOTTEST)) / (HOTTEST - COLDEST)
    return round(share * HEIGHT)


def estimate(plan: Plan, state: RunState, low_c: float, high_c: float) -> str:
    """Return when both pots are in the window, or what to do about one that fell below it; "" until both were read."""
    advice = [_below(state, pot, low_c, high_c) for pot in POTS_THAT_COOL]
    if any(advice):
        return " ".join(filter(None, advice))
    lye, fats = fit_of(plan, state, "lye"), fit_of(plan, state, "fats")
    if lye is None or fats is None:
        return ""
    try:
        shared = both_in_window(lye, fats, low_c, high_c)
    except OutOfRange as error:
        return str(error)
    began = state.done.get(LYE)
    return _by_the_clock(shared, began) if shared.ok and began else shared.sentence


def _below(state: RunState, pot: Pot, low_c: float, high_c: float) -> str:
    temperatures = [reading.temp_c for reading in state.readings if reading.pot == pot]
    return below_window_advice(pot, temperatures[-1], low_c, high_c) or "" if temperatures else ""


def _by_the_clock(shared: Window, began: datetime) -> str:
    """Return when both pots are ready as times of day: nobody at the bench counts minutes since the alkali."""

    def clock(minutes: float) -> str:
        return date_format(localtime(began + timedelta(minutes=minutes)), "H:i")

    assert shared.opens is not None
    said = _("Both pots are in the window from about %s") % clock(shared.opens)
    if shared.opens_band:
        low, high = clock(shared.opens_band.low), clock(shared.opens_band.high)
        said += _(" (between %(low)s and %(high)s)") % {"low": low, "high": high}
    return said + (_(", until about %s.") % clock(shared.closes) if shared.closes is not None else ".")


def fit_of(plan: Plan, state: RunState, pot: Pot) -> CoolingFit | None:
    """Return the curve through a pot's readings, None before the first and where none can hold them."""
    readings = [Reading(reading.minutes, reading.temp_c) for reading in state.readings if reading.pot == pot]
    try:
        prior = prior_for(heat_capacity_of(plan, pot), plan.cooling_learnt.get(pot))
        return fit(readings, plan.room_c, prior, room_measured=False) if readings else None
    except OutOfRange:  # a reading under the room's temperature, or one that no curve can hold
        return None
