"""The ways out as the screen shows them: a figure with its ends in words, and the same as a bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bench.state import RunState, Way
from soapbench.bench.words import over_or_short, percent
from soapbench.science.remedy_after import HIGH
from soapbench.science.superfat import SuperfatInterval

WIDTH = 300  # of the bar's picture
LEFT, RIGHT = -0.10, 0.20  # superfat at its edges, fractions; beyond them the words tell
ZERO = round((0 - LEFT) / (RIGHT - LEFT) * WIDTH)
Tone = Literal["good", "attention", "stop"]
KEEP = gettext_lazy("Keep it and reckon with it")
WHYS_OVER: tuple[str | Promise, ...] = (
    gettext_lazy("Poured too much"),
    gettext_lazy("Misread the scale"),
    gettext_lazy("Wanted it so"),
)
WHYS_SHORT: tuple[str | Promise, ...] = (
    gettext_lazy("Not enough left"),
    gettext_lazy("Misread the scale"),
    gettext_lazy("Some was spilt"),
)


@dataclass(frozen=True)
class WayScreen:
    """One way out, ready to show and to send."""

    kind: str
    title: str
    sentence: str
    payload: dict[str, Any]
    adds: tuple[str, ...]  # "fat:olive=53.3", as a form sends them
    figures: str
    tone: Tone | Literal[""]
    word: str  # the tone in a word
    start: int
    width: int
    at: int


@dataclass(frozen=True)
class AskWhy:
    """A weight outside its tolerance that nobody has said a reason for yet, and the reasons to choose from."""

    line: str
    name: str
    gap: str
    mass_g: float
    whys: tuple[str, ...]
    decision: str


def way_screens(state: RunState) -> tuple[WayScreen, ...]:
    """Return every way out that can be chosen now."""
    return tuple(_way(way) for way in state.ways)


def _way(way: Way) -> WayScreen:
    found = way.interval
    start = _x(found.low) if found else 0
    return WayScreen(
        kind=way.kind,
        title=way.title,
        sentence=way.sentence,
        payload={key: value for key, value in way.payload.items() if key != "adds"},
        adds=tuple(f"{line}={mass:.10g}" for line, mass in way.payload.get("adds", ())),
        figures=figures(found) if found else "",
        tone=_tone(found)[0] if found else "",
        word=_tone(found)[1] if found else "",
        start=start,
        width=_x(found.high) - start if found else 0,
        at=_x(found.central) if found else 0,
    )


def figures(found: SuperfatInterval) -> str:
    """Return "5.0 %, between 3.1 and 6.9 %"."""
    low, high = percent(found.low).removesuffix(" %"), percent(found.high)
    return _("%(central)s, between %(low)s and %(high)s") % {
        "central": percent(found.central),
        "low": low,
        "high": high,
    }


def _tone(found: SuperfatInterval) -> tuple[Tone, str]:
    if found.is_lye_heavy:
        return "stop", _("lye-heavy: burns skin")
    if found.lye_heavy_possible:
        return "attention", _("may be lye-heavy")
    if found.central > HIGH.value:
        return "attention", _("high: soft, turns sooner")
    return "good", _("fine")


def _x(superfat: float) -> int:
    share = (superfat - LEFT) / (RIGHT - LEFT)
    return round(min(max(share, 0.0), 1.0) * WIDTH)


def way_documents(state: RunState) -> list[dict[str, Any]]:
    """Return the ways out as the page's script takes them."""
    return [
        {
            "kind": way.kind,
            "title": way.title,
            "sentence": way.sentence,
            "fields": [*way.payload.items(), *(("adds", add) for add in way.adds)],
            "figures": way.figures,
            "tone": way.tone,
            "word": way.word,
            "bar": [way.start, way.width, way.at],
        }
        for way in way_screens(state)
    ]


def ask_why(state: RunState) -> AskWhy | None:
    """Return the last weight when it is outside its tolerance and its reason was not told; None otherwise."""
    found = next((weight for weight in state.untold_weights if weight.event == state.last_event), None)
    if found is None or not state.current:
        return None
    gap = round(found.mass_g - found.target_g, 6)
    whys = WHYS_OVER if gap > 0 else WHYS_SHORT
    return AskWhy(found.line, found.name, over_or_short(gap), found.mass_g, tuple(map(str, whys)), str(KEEP))


def off_words(state: RunState) -> str:
    """Return what is not as it should be and what can be said or done about it; "" when nothing is."""
    if state.ways:
        return state.situation
    found = ask_why(state)
    return f"{found.name} {found.gap}" if found else ""


def ask_document(state: RunState) -> dict[str, Any] | None:
    """Return the same as plain data."""
    found = ask_why(state)
    if found is None:
        return None
    return {"line": found.line, "name": found.name, "gap": found.gap, "mass_g": found.mass_g, "whys": list(found.whys)}
