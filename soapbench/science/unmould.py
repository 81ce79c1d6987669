"""When a loaf may leave its mould and be cut: a window by what happened to it, its lye and its fats.

Advice of the trade, never a limit: the thumb decides. Three windows stand on a ladder; much water or much olive oil
leads one rung down, strong lye one rung up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from soapbench.science.errors import OutOfRange, fraction, not_negative
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import mark, say

Process = Literal["oven", "gel", "no gel", "unknown"]

ADVICE = Source(
    "unmould-advice",
    "Trade pages on cutting cold-process soap",
    "When is soap ready to cut; Common soap making mistakes, 2026: 24 to 48 h usual, gelled loaves 12 to 24 h",
    "common practice",
)
OVEN_ADVICE = Source(
    "oven-advice",
    "Trade pages on finishing soap in the oven",
    "CPOP: heat to 77 C, put it in, switch off, leave it for 8 h; a tutorial leaves it for 12 h",
    "common practice",
)


def _hours(name: str, hours: float, source: Source, used_in: str = "unmould_window", why: str = "") -> Constant:
    return Constant(name, "t", hours, "h", source, used_in, why)


GELLED_FROM = _hours("Gelled loaf, earliest", 12.0, ADVICE)
GELLED_TO = _hours("Gelled loaf, usual latest", 24.0, ADVICE)
USUAL_FROM = _hours("Loaf of which nothing is known, earliest", 24.0, ADVICE)
USUAL_TO = _hours("Loaf of which nothing is known, usual latest", 48.0, ADVICE)
SLOW_FROM = _hours("Loaf without gel, earliest", 48.0, COMMON_PRACTICE)
SLOW_TO = _hours("Loaf without gel, usual latest", 120.0, COMMON_PRACTICE)
SALT_FROM = _hours("Salt bar, earliest", 2.0, COMMON_PRACTICE)
SALT_TO = _hours("Salt bar, latest: it shatters", 8.0, COMMON_PRACTICE)
IN_OVEN = _hours("Left in the oven after it is off", 8.0, OVEN_ADVICE)
AGAIN_FROM = _hours("Soft loaf: look again after", 6.0, COMMON_PRACTICE, "look_again")
AGAIN_TO = _hours("Soft loaf: look again at the latest after", 12.0, COMMON_PRACTICE, "look_again")
GEL_SHOWS = _hours("By then a loaf that gels has shown it", 3.0, COMMON_PRACTICE, "gel_is_settled")
WET = Constant(
    "Lye below which a loaf counts as one of much water", "c", 0.28, "g/g", COMMON_PRACTICE, "unmould_window"
)
STRONG = Constant(
    "Lye from which a loaf firms sooner",
    "c",
    0.38,
    "g/g",
    OWN_CHOICE,
    "unmould_window",
    why="Trade pages call 33 to 40 % the good range and say that less water lets a loaf out earlier; this is its end.",
)
MUCH_OLIVE = Constant(
    "Share of the fats from which olive oil slows a loaf",
    "",
    0.7,
    "g/g",
    OWN_CHOICE,
    "unmould_window",
    why="The trade says high-olive without a figure; below seven tenths other fats set the pace.",
)
MUCH_SALT = Constant(
    "Salt, for the fats, from which a loaf is a salt bar",
    "",
    0.25,
    "g/g",
    OWN_CHOICE,
    "unmould_window",
    why="A few per cent only harden a bar; salt bars carry a quarter of the fats or more.",
)

_LADDER = ((GELLED_FROM, GELLED_TO), (USUAL_FROM, USUAL_TO), (SLOW_FROM, SLOW_TO))
_RUNG: dict[str, int] = {"oven": 0, "gel": 0, "unknown": 1, "no gel": 2}
_SAID = {
    "oven": mark("From the oven"),
    "gel": mark("Gelled"),
    "unknown": mark("Gel not known"),
    "no gel": mark("Not gelled"),
}


@dataclass(frozen=True, slots=True)
class UnmouldWindow:
    """Hours after the pour, from the earliest to the usual latest, with the reasons in a sentence."""

    earliest_h: float
    latest_h: float
    sentence: str


def unmould_window(
    process: Process,
    lye_concentration: float,
    olive_share: float = 0.0,
    salt_share: float = 0.0,
    oven_hours: float = 0.0,
) -> UnmouldWindow:
    """Return when a loaf is usually firm enough to be taken out and cut.

    Source: trade pages and common practice; the ladder and its thresholds are our own choice.

    Args:
        process: what happened to it.
        lye_concentration: alkali as a share of the lye.
        olive_share: of all fats, 0 to 1.
        salt_share: grams of salt for a gram of fats.
        oven_hours: how long the oven stays on; the loaf is then left in it.

    Raises:
        OutOfRange: a share is none, a time is negative, or the process is unknown.
    """
    if process not in _RUNG:
        raise OutOfRange(
            say(
                "“{process}” is no process known here. Choose one of: {known}.", process=process, known=", ".join(_RUNG)
            )
        )
    strength = fraction(lye_concentration, "The strength of the lye")
    olive = fraction(olive_share, "The share of olive oil")
    salt = not_negative(salt_share, "The share of salt", "")
    hours = not_negative(oven_hours, "The time in the oven", "h")
    if salt >= MUCH_SALT.value:
        return _window(SALT_FROM.value, SALT_TO.value, say("Salt bar: cut it while it is warm, later it shatters"))
    rung, why = _rung(process, strength, olive)
    earliest, latest = _LADDER[rung]
    least = hours + IN_OVEN.value if process == "oven" else 0.0
    return _window(max(earliest.value, least), max(latest.value, least), why)


def _rung(process: Process, strength: float, olive: float) -> tuple[int, str]:
    signs = {mark("much olive oil: later"): olive >= MUCH_OLIVE.value, mark("much water: later"): strength < WET.value}
    slow = [word for word, is_so in signs.items() if is_so]
    step = 1 if slow else 0
    words = [say(_SAID[process]), *(say(word) for word in slow)]
    if strength >= STRONG.value:
        step, words = step - 1, [*words, say("strong lye: sooner")]
    return min(2, max(0, _RUNG[process] + step)), ", ".join(words)


def _window(earliest: float, latest: float, why: str) -> UnmouldWindow:
    return UnmouldWindow(
        earliest,
        latest,
        say("{why}. Usually firm between {earliest:g} and {latest:g} h.", why=why, earliest=earliest, latest=latest),
    )


def look_again(firmness_hours: float = 0.0) -> tuple[float, float]:
    """Return from and until how many hours after the pour a loaf that dented is pressed again.

    Source: common practice.

    Args:
        firmness_hours: hours after the pour at which it dented.

    Raises:
        OutOfRange: the time is negative.
    """
    pressed = not_negative(firmness_hours, "The time of the pressing", "h")
    return pressed + AGAIN_FROM.value, pressed + AGAIN_TO.value


def gel_is_settled(hours: float) -> bool:
    """Return whether a loaf that showed no gel so many hours after the pour is past showing any.

    Source: common practice; a dark wet centre shows at 1 to 3 h.

    Raises:
        OutOfRange: the time is negative.
    """
    return not_negative(hours, "The time after the pour", "h") >= GEL_SHOWS.value


CONSTANTS = (
    *(GELLED_FROM, GELLED_TO, USUAL_FROM, USUAL_TO, SLOW_FROM, SLOW_TO, SALT_FROM, SALT_TO, IN_OVEN),
    *(AGAIN_FROM, AGAIN_TO, GEL_SHOWS, WET, STRONG, MUCH_OLIVE, MUCH_SALT),
)
_HERE = "soapbench.science.unmould."
RELATIONS = (
    Relation(
        "When to unmould and cut",
        "rung of the process, + 1 for much water or olive oil, - 1 for strong lye; salt bars apart",
        "h",
        ADVICE,
        _HERE + "unmould_window",
    ),
    Relation("Soft loaf: when to look again", "t + 6 to t + 12", "h", COMMON_PRACTICE, _HERE + "look_again"),
    Relation("Gel is past showing", "t ≥ 3 h", "", COMMON_PRACTICE, _HERE + "gel_is_settled"),
)
