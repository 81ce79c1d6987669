"""How the two pots cool and what they would make together, as plain data. Made by the fold."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from soapbench.science.cooling import Window
from soapbench.science.cooling_window import Pot
from soapbench.science.interval import Interval
from soapbench.science.remedy_answer import Remedy

CurveRow = tuple[float, float, float, float]  # minutes since alkali met water, low, central, high in °C


@dataclass(frozen=True)
class PotCooling:
    """One pot's curve with its 95 % band, in minutes since alkali met water."""

    pot: Pot
    curve: tuple[CurveRow, ...]
    last_c: float
    last_minutes: float
    enters: Interval | None  # into the window; None is never
    odd: tuple[str, ...]  # events of the readings that do not lie on the curve
    sentence: str
    runs: int = 0  # earlier runs that the rate was learnt from


@dataclass(frozen=True)
class Cooling:
    """Both pots between alkali in water and lye in fats; fitted anew at each reading."""

    began: datetime  # alkali met water: minute 0
    low_c: float
    high_c: float
    room_c: float
    room_was_read: bool
    pots: tuple[PotCooling, ...]
    shared: Window | None = None  # None until both were read
    ways: tuple[Remedy, ...] = ()
    decided: str = ""  # about a missed window, and not read since

    def pot(self, name: str) -> PotCooling | None:
        return next((each for each in self.pots if each.pot == name), None)


@dataclass(frozen=True)
class Mixing:
    """What the latest readings of both pots would make together."""

    lye_c: float
    fats_c: float
    mix_c: float
    rise_k: Interval  # that saponification adds when no heat is lost
    sentence: str
    melts_c: float | None = None  # of the fat that melts last
    warning: str = ""  # false trace, "" when none is to be feared
    advice: str = ""  # how warm the fats should be, "" when the mix is right
