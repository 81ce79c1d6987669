"""Two pots and one window: when both are ready, what to do when not, and which reading cannot be true."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from soapbench.science.cooling_law import Reading
from soapbench.science.errors import OutOfRange, a_temperature, number
from soapbench.science.interval import Interval
from soapbench.science.remedy_answer import Remedy
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation
from soapbench.science.units import to_celsius

from .words import mark, say

Pot = Literal["lye", "fats"]

WARMING = Constant(
    "Rise between two readings that a pot left alone cannot show",
    "",
    2.0,
    "K",
    OWN_CHOICE,
    "doubt",
    why="Stirring can bring up two degrees from a warm bottom, not more.",
)
UNDER_ROOM = Constant(
    "Farthest under its room that a pot can read",
    "",
    3.0,
    "K",
    OWN_CHOICE,
    "reading_doubt",
    why="A room thermometer and a pot by a window differ by so much.",
)
HOTTEST_LYE = Constant(
    "Hottest reading believed",
    "",
    120.0,
    "C",
    OWN_CHOICE,
    "reading_doubt: boils near 120 C",
    why="A 33 % lye boils there.",
)


@dataclass(frozen=True, slots=True)
class PotTimes:
    """When a pot comes into the window and leaves it, in minutes; None is never. cools: it comes from above."""

    pot: Pot
    enters: Interval | None
    leaves: Interval | None
    cools: bool = True


@dataclass(frozen=True, slots=True)
class Window:
    """When both pots are in the window, in minutes on the clock of the readings.

    opens is None when one of them does not come in by itself; closes is None when they stay. ok: there is such a
    time. first_out: the pot that leaves too early. opens_band: the 95 % band of the opening.
    """

    opens: float | None
    closes: float | None
    sentence: str
    ok: bool = True
    first_out: Pot | None = None
    opens_band: Interval | None = None


def window(lye: PotTimes, fats: PotTimes, low_c: float, high_c: float) -> Window:
    """Return the time that two pots share in a window, with what to do where they share none.

    Raises:
        OutOfRange: the low end is not under the high one.

    Source: the later of the entries to the earlier of the leavings.
    """
    check_window(low_c, high_c)
    for times in (lye, fats):
        if times.enters is None:
            return Window(None, None, _never(times, low_c, high_c), ok=False)
    entries = [(times.enters, times) for times in (lye, fats) if times.enters is not None]
    band, last = max(entries, key=lambda entry: entry[0].central)
    exits = [(times.leaves.central, times) for times in (lye, fats) if times.leaves is not None]
    span = say(
        "Lye and fats are both between {low:.0f} and {high:.0f} °C from about {central:.0f} min",
        low=low_c,
        high=high_c,
        central=band.central,
    )
    if not exits:
        return Window(band.central, None, say("{span} on.", span=span), opens_band=band)
    closes, first = min(exits, key=lambda leaving: leaving[0])
    if closes > band.central:
        return Window(
            band.central, closes, say("{span} to {closes:.0f} min.", span=span, closes=closes), opens_band=band
        )
    return Window(band.central, closes, _missed(first, last, closes, band.central), False, first.pot, band)


def below_window_advice(pot: Pot, temp_c: float, low_c: float, high_c: float) -> str | None:
    """Return what to do when a pot has fallen below its window; None while it has not.

    Raises:
        OutOfRange: the low end is not under the high one, or the temperature is none.

    Source: common practice; fats must be clear before the lye goes in, lye may be cooler than the fats.
    """
    check_window(low_c, high_c)
    if a_temperature(temp_c) >= low_c:
        return None
    middle = (low_c + high_c) / 2
    if pot == "fats":
        return say(
            "Warm the fats gently to about {middle:.0f} °C and stir until they are clear. Then go on.", middle=middle
        )
    return say(
        "Stand the jug in hot tap water and stir until the lye reads about {middle:.0f} °C. No hob, no "
        "microwave. Or go on with cool lye if the fats are warm and clear.",
        middle=middle,
    )


def ways_into_window(shared: Window, lye_c: float, fats_c: float, low_c: float, high_c: float) -> tuple[Remedy, ...]:
    """Return what can be done about a window that was missed, will be missed, or is not reached by waiting.

    Args:
        shared: when both pots are in the window, as the readings make it likely.
        lye_c, fats_c: the latest readings.

    Nothing when both pots only have to be waited for.

    Raises:
        OutOfRange: the low end is not under the high one, or a temperature cannot be.

    Source: common practice; in the bath, never on a flame, and no water into the lye.
    """
    check_window(low_c, high_c)
    a_temperature(lye_c, "The temperature of the lye")
    a_temperature(fats_c, "The temperature of the fats")
    middle = (low_c + high_c) / 2
    if lye_c < low_c or fats_c < low_c:
        return _ways_up(lye_c, fats_c, low_c, middle)
    if shared.ok:
        return ()
    if shared.first_out is None:
        hot: list[tuple[Pot, float]] = [("lye", lye_c), ("fats", fats_c)]
        return tuple(_bath(pot, middle) for pot, temp in hot if temp > high_c)
    last: Pot = "fats" if shared.first_out == "lye" else "lye"
    return (_keep_warm(shared.first_out, last, high_c), _bath(last, middle))


def _ways_up(lye_c: float, fats_c: float, low_c: float, middle_c: float) -> tuple[Remedy, ...]:
    ways = []
    if fats_c < low_c:
        to = say("Gentle heat, stirring, until they are clear and read about {middle:.0f} °C.", middle=middle_c)
        ways.append(Remedy("warm-fats", say("Warm the fats"), to))
    if lye_c < low_c:
        to = say(
            "Stand the jug in hot tap water, stir until it reads about {middle:.0f} °C. No hob, no microwave.",
            middle=middle_c,
        )
        ways.append(Remedy("warm-lye", say("Warm the lye"), to))
        cool = say("Only with the fats warm and clear: they bring the warmth.")
        ways.append(Remedy("cool-lye", say("Go on with cool lye"), cool))
    return tuple(ways)


def _bath(pot: Pot, middle_c: float) -> Remedy:
    if pot == "lye":
        title = say("Cool the lye in a bath")
        to = say(
            "Stand the jug in cold water, stir now and then, read at {middle:.0f} °C at the latest. No water gets in.",
            middle=middle_c,
        )
    else:
        title = say("Cool the fats in a bath")
        to = say(
            "Stand the pot in cold water, stir now and then, read at {middle:.0f} °C at the latest. No water gets in.",
            middle=middle_c,
        )
    return Remedy(f"bath-{pot}", title, to)


def _keep_warm(pot: Pot, other: Pot, high_c: float) -> Remedy:
    title = say("Keep the lye warm") if pot == "lye" else say("Keep the fats warm")
    if other == "fats":
        to = say("A lid and a towel, or a warm bath, until the fats are down to {high:.0f} °C.", high=high_c)
    else:
        to = say("A lid and a towel, or a warm bath, until the lye is down to {high:.0f} °C.", high=high_c)
    return Remedy(f"keep-{pot}", title, to)


def reading_doubt(readings: Sequence[Reading], new: Reading, room_c: float) -> str | None:
    """Return why a new reading cannot be true for a pot left alone, or None when it can.

    Raises:
        OutOfRange: a temperature or a time that is none.

    Source: a pot left alone moves towards its room; the margins are own choices.
    """
    for reading in (*readings, new):
        number(reading.minutes, "The time of a reading")
        number(reading.temp_c, "The temperature")
    a_temperature(room_c, "The temperature of the room")
    if new.temp_c > HOTTEST_LYE.value:
        celsius = max(to_celsius(new.temp_c, "°F"), -99)
        return say(
            "{temp:g} °C is hotter than any lye here. If the thermometer shows °F, it is {celsius:.0f} °C.",
            temp=new.temp_c,
            celsius=celsius,
        )
    earlier = [reading for reading in readings if reading.minutes <= new.minutes]
    if not earlier:
        return None
    last = max(earlier, key=lambda reading: reading.minutes)
    gap = new.minutes - last.minutes
    if new.temp_c > max(last.temp_c, room_c) + WARMING.value:
        told = {"temp": new.temp_c, "before": last.temp_c}
        if gap < 1:
            return say("{temp:g} °C is hotter than {before:g} °C before. Stir, then read again.", **told)
        return say(
            "{temp:g} °C is hotter than {before:g} °C, {gap:.0f} min before. Stir, then read again.", gap=gap, **told
        )
    if new.temp_c < min(last.temp_c, room_c) - UNDER_ROOM.value:
        return say(
            "{temp:g} °C is colder than the room. Read again, or say that it stands in a cold bath.", temp=new.temp_c
        )
    return None


def check_window(low_c: float, high_c: float) -> None:
    """Raise OutOfRange unless the window of temperatures opens upwards."""
    if a_temperature(low_c) >= a_temperature(high_c):
        raise OutOfRange(
            say("The window must open upwards: {low:g} °C is not under {high:g} °C.", low=low_c, high=high_c)
        )


def _never(times: PotTimes, low_c: float, high_c: float) -> str:
    is_lye = times.pot == "lye"
    if times.cools and is_lye:
        return say("The lye will not fall to {high:.0f} °C in this room. Stand the pot in cold water.", high=high_c)
    if times.cools:
        return say("The fats will not fall to {high:.0f} °C in this room. Stand the pot in cold water.", high=high_c)
    if is_lye:
        return say("The lye will not warm to {low:.0f} °C in this room. Stand the pot in warm water.", low=low_c)
    return say("The fats will not warm to {low:.0f} °C in this room. Stand the pot in warm water.", low=low_c)


def _missed(first: PotTimes, last: PotTimes, closes: float, opens: float) -> str:
    if first.pot == last.pot:
        return say(_ALREADY[first.pot, first.cools])
    trouble = say(_GONE[first.pot, first.cools], closes=closes, opens=opens)
    return f"{trouble} {say(_HELP[first.pot, first.cools, last.cools])}"


# By pot, and whether it cools: what is wrong with it, and what helps.
_ALREADY: dict[tuple[Pot, bool], str] = {
    ("fats", True): mark("The fats are too cold already."),
    ("fats", False): mark("The fats are too warm already."),
    ("lye", True): mark("The lye is too cold already."),
    ("lye", False): mark("The lye is too warm already."),
}
_GONE: dict[tuple[Pot, bool], str] = {
    ("fats", True): mark(
        "The fats would be too cold from about {closes:.0f} min, before the lye is ready at about {opens:.0f} min."
    ),
    ("fats", False): mark(
        "The fats would be too warm from about {closes:.0f} min, before the lye is ready at about {opens:.0f} min."
    ),
    ("lye", True): mark(
        "The lye would be too cold from about {closes:.0f} min, before the fats are ready at about {opens:.0f} min."
    ),
    ("lye", False): mark(
        "The lye would be too warm from about {closes:.0f} min, before the fats are ready at about {opens:.0f} min."
    ),
}
# The last says whether the other pot cools.
_HELP: dict[tuple[Pot, bool, bool], str] = {
    ("fats", True, True): mark("Keep the fats warm, or cool the lye in a water bath."),
    ("fats", True, False): mark("Keep the fats warm, or warm the lye in a water bath."),
    ("fats", False, True): mark("Cool the fats, or cool the lye in a water bath."),
    ("fats", False, False): mark("Cool the fats, or warm the lye in a water bath."),
    ("lye", True, True): mark("Keep the lye warm, or cool the fats in a water bath."),
    ("lye", True, False): mark("Keep the lye warm, or warm the fats in a water bath."),
    ("lye", False, True): mark("Cool the lye, or cool the fats in a water bath."),
    ("lye", False, False): mark("Cool the lye, or warm the fats in a water bath."),
}


CONSTANTS = (WARMING, UNDER_ROOM, HOTTEST_LYE)
_HERE = "soapbench.science.cooling_window."
RELATIONS = (
    Relation("Shared time of two pots", "max of entries to min of leavings", "min", OWN_CHOICE, _HERE + "window"),
    Relation("A pot below the window", "advice", "C", COMMON_PRACTICE, _HERE + "below_window_advice"),
    Relation(
        "Ways into the window", "what was read against the window", "C", COMMON_PRACTICE, _HERE + "ways_into_window"
    ),
    Relation("A reading in doubt", "rise > 2 K, or > 3 K under the room", "K", OWN_CHOICE, _HERE + "reading_doubt"),
)
