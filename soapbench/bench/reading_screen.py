"""Readings as the screen takes them: tiles with the likely temperatures of each pot."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from soapbench.bench.cooled import Cooled, cooled
from soapbench.bench.cooling_screen import clock
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.state import RunState

POTS: dict[str, str | Promise] = {
    "lye": gettext_lazy("Lye"),
    "fats": gettext_lazy("Fats"),
    "batter": gettext_lazy("Batter"),
}
# Nothing is known yet: coarse ones; a second tap, or the keypad, gives the exact one.
FIRST_TILES = {"lye": tuple(range(45, 105, 5)), "fats": tuple(range(40, 70, 5)), "batter": tuple(range(30, 60, 5))}
NEXT_TILES = (-1, 0, 1)  # around what is expected now: no wider than three targets of 15 mm


@dataclass(frozen=True)
class PotScreen:
    pot: str
    title: str | Promise
    last: str
    tiles: tuple[int, ...]
    is_coarse: bool


def pots_of(plan: Plan, prompt: Prompt, state: RunState, now: datetime) -> tuple[PotScreen, ...]:
    """Return the pots that a prompt asks to read, each with the temperatures that it likely has now."""
    names = ("lye", "fats") if prompt.kind == "cool" else (prompt.pot or "lye",)
    curves = {each.pot: each for each in cooled(plan, state)}
    return tuple(_pot(name, state, curves.get(name), now) for name in names) if prompt.kind in ("read", "cool") else ()


def _pot(name: str, state: RunState, curve: Cooled | None, now: datetime) -> PotScreen:
    read = [reading for reading in state.readings if reading.pot == name]
    if curve is None:
        return PotScreen(name, POTS[name], "", FIRST_TILES[name], is_coarse=True)
    tiles = tuple(round(curve.at(now)) + offset for offset in NEXT_TILES)
    return PotScreen(name, POTS[name], f"{read[-1].temp_c:g} °C · {clock(read[-1].at)}", tiles, is_coarse=False)
