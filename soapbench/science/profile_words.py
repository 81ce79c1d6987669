"""What the fatty acids mean at the bench and in the bar, in sentences with the reason; never a score."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from .errors import not_negative
from .interval import Interval
from .sources import Constant, Relation, Source
from .words import figure, say

if TYPE_CHECKING:
    from .profile import Profile

_CHEMISTRY = Source(
    "soap-solubility",
    "General soap chemistry",
    "shorter and less saturated soaps dissolve more readily; double bonds side by side take up oxygen; from memory",
    "from memory",
)


def _mark(name: str, per_cent: float) -> Constant:
    return Constant(name, "", per_cent, "% of fatty acids", _CHEMISTRY, "sentences")


SHORT_MUCH = _mark("lauric and myristic acid from which their soap is felt", 15.0)
SHORT_HARSH = _mark("lauric and myristic acid from which a bar can feel drying", 35.0)
FIRM_MUCH = _mark("palmitic, stearic and longer acids from which a bar is firm", 20.0)
SOFT = _mark("saturated acids below which a loaf is soft at first", 30.0)
OLEIC_MUCH = _mark("oleic acid from which it rules the bar", 45.0)
POLY_MUCH = _mark("polyunsaturated acids from which rancidity is a worry", 15.0)
RICINOLEIC_SOME = _mark("ricinoleic acid from which it is felt", 4.0)


@dataclass(frozen=True, slots=True)
class Comparison:
    """Whether a calculated range and a published one overlap, and the sentence that says so."""

    agrees: bool
    sentence: str


def sentences(profile: Profile) -> tuple[str, ...]:
    """Return plain sentences on what the profile means at the bench and in the bar, each with its reason.

    Source: general soap chemistry, from memory; the marks are in CONSTANTS.
    """
    found = (
        _known(profile),
        _short(profile.acid("C8:0", "C10:0", "C12:0", "C14:0")),
        _firm(profile.acid("C16:0", "C18:0", "C20:0", "C22:0"), profile.saturated.central),
        _oleic(profile.acid("C18:1")),
        _ricinoleic(profile.acid("C18:1-OH")),
        _poly(profile.polyunsaturated),
        _values(profile),
    )
    return tuple(sentence for sentence in found if sentence)


def _known(profile: Profile) -> str | None:
    if profile.known_share > 0.9995:
        return None
    return say(
        "The fatty acids are known for {known_share:.0f} % of the fats by mass; the rest is not in these sentences.",
        known_share=100 * profile.known_share,
    )


def _short(share: float) -> str | None:
    if share < SHORT_MUCH.value:
        return say(
            "Only {share:.0f} % of the acids are short and saturated. Their soap is the one that dissolves at "
            "once, so this bar needs more water and rubbing to lather.",
            share=share,
        )
    sentence = say(
        "{share:.0f} % of the acids are short and saturated (up to C14). Their soap dissolves at once, so "
        "the bar lathers fast, in cool and hard water too, and washes away sooner.",
        share=share,
    )
    if share >= SHORT_HARSH.value:
        sentence += " " + say("So much of it also takes up skin fat well: a higher superfat makes up for that.")
    return sentence


def _firm(share: float, saturated: float) -> str | None:
    if share >= FIRM_MUCH.value:
        return say(
            "{share:.0f} % of the acids are long and saturated (C16 and up). Their soap hardly dissolves in cool "
            "water, so the bar is firm and lasts. Their fats melt last: have them all clear before the lye goes "
            "in, or they set early and look like trace.",
            share=share,
        )
    if saturated < SOFT.value:
        return say(
            "Only {saturated:.0f} % of the acids are saturated. The soaps of the others bend and pack loosely, "
            "so the loaf is soft at first: leave it longer in the mould, and let it cure longer.",
            saturated=saturated,
        )
    return None


def _oleic(share: float) -> str | None:
    if share < OLEIC_MUCH.value:
        return None
    return say(
        "{share:.0f} % is oleic acid. Its fats react slowly, so there is time to draw; its soap holds water, "
        "so the bar needs a longer cure and goes slimy if it lies wet.",
        share=share,
    )


def _ricinoleic(share: float) -> str | None:
    if share < RICINOLEIC_SOME.value:
        return None
    return say(
        "{share:.0f} % is ricinoleic acid. Its extra OH group makes a very soluble soap that steadies the "
        "lather; the batter may thicken sooner, and much of it makes a sticky bar.",
        share=share,
    )


def _poly(share: Interval) -> str | None:
    if share.central < POLY_MUCH.value:
        return None
    return say(
        "{central:.0f} % of the acids have two or more double bonds ({low:.0f} to {high:.0f} %). These take "
        "up oxygen from the air, and the fat left over turns rancid first: keep the superfat low, use fresh "
        "oil, store bars cool and dark.",
        central=share.central,
        low=share.low,
        high=share.high,
    )


def _values(profile: Profile) -> str:
    value, iodine = profile.saponification_value, profile.iodine_value
    return say(
        "Calculated from the acids: saponification value {central:.0f} mg KOH/g ({low:.0f} to {high:.0f}), "
        "iodine value {iodine_central:.0f} ({iodine_low:.0f} to {iodine_high:.0f}). The second counts double "
        "bonds: the higher it is, the softer the fat.",
        central=value.central,
        low=value.low,
        high=value.high,
        iodine_central=iodine.central,
        iodine_low=iodine.low,
        iodine_high=iodine.high,
    )


def compare_with_published(what: str, calculated: Interval, low: float, high: float) -> Comparison:
    """Say whether a calculated range overlaps the published one, and what to think when it does not.

    Raises:
        OutOfRange: a negative end.

    Source: own wording; AOCS Cd 3a-94 warns of unsaponifiable matter and free acid.
    """
    not_negative(low, "The low end")
    agrees = calculated.low <= not_negative(high, "The high end") and low <= calculated.high
    printed = figure(low, "g") if low == high else say("{low:g} to {high:g}", low=low, high=high)
    ranges = say(
        "calculated {low:.0f} to {high:.0f}, published {printed}",
        low=calculated.low,
        high=calculated.high,
        printed=printed,
    )
    if agrees:
        return Comparison(True, say("The {what} agrees: {ranges}.", what=say(what), ranges=ranges))
    return Comparison(
        False,
        say(
            "The {what} does not agree: {ranges}. Matter that does not saponify, free acid, or a composition "
            "from other samples can do that; trust the published value of the fat.",
            what=say(what),
            ranges=ranges,
        ),
    )


CONSTANTS = (SHORT_MUCH, SHORT_HARSH, FIRM_MUCH, SOFT, OLEIC_MUCH, POLY_MUCH, RICINOLEIC_SOME)
_AT = "soapbench.science.profile_words."
RELATIONS = (
    Relation("what the acids mean", "shares of groups against the marks", "%", _CHEMISTRY, _AT + "sentences"),
    Relation("calculated against published", "the ranges overlap", "", _CHEMISTRY, _AT + "compare_with_published"),
)
