"""What the superfat and its doubt mean, of the whole batch and of each portion."""

from __future__ import annotations

from soapbench.bars.finding import Findings, attention, good, stop
from soapbench.bars.sums import Sums
from soapbench.science.superfat import SuperfatInterval
from soapbench.science.words import say

# Own marks, from common practice, no source.
HIGH_SUPERFAT = 0.10
UNEVEN = 0.005  # a portion that lies this much below the batch is worth a word


def superfat_findings(sums: Sums) -> Findings:
    """Yield a stop where there is too much alkali, and a warning where an unlucky batch would have it."""
    yield from _whole(sums.superfat)
    if sums.superfat.central > HIGH_SUPERFAT:
        yield attention(
            "much-superfat", say("So much fat left over lathers less and spoils sooner (common practice)."), "alkali"
        )
    yield from _portions(sums)


def _whole(superfat: SuperfatInterval) -> Findings:
    central = say("The superfat is {central:.1f} %", central=100 * superfat.central)
    if superfat.is_lye_heavy:
        yield stop(
            "lye-heavy",
            say("{central}: lye-heavy. Ask for more superfat, or use a finer scale.", central=central),
            "alkali",
        )
    elif superfat.lye_heavy_possible:
        sentence = say(
            "{central}, but it may lie {span}: an unlucky batch would be lye-heavy.",
            central=central,
            span=_span(superfat),
        )
        yield attention("may-be-lye-heavy", f"{sentence} {superfat.narrowing_advice()}", "alkali")
    else:
        most = (
            " " + say("Most of the doubt is {weighs_most}.", weighs_most=superfat.weighs_most)
            if superfat.weighs_most
            else ""
        )
        yield good(
            "superfat",
            say("{central}; 95 in 100 batches lie {span}.{most}", central=central, span=_span(superfat), most=most),
            "alkali",
        )


def _portions(sums: Sums) -> Findings:
    portions, superfat = sums.portions, sums.superfat
    if portions.lowest < 0 <= superfat.central:
        yield stop("portion-lye-heavy", portions.sentence, "additives")
        return
    if superfat.central - portions.lowest > UNEVEN:
        yield attention("portion-superfat", portions.sentence, "additives")
    if superfat.lye_heavy_possible:
        return  # said of the whole batch already
    for letter, one in sums.portion_intervals.items():
        if one.lye_heavy_possible:
            sentence = say(
                "Portion {letter} has {central:.1f} % superfat, but it may lie {span}.",
                letter=letter,
                central=100 * one.central,
                span=_span(one),
            )
            remedy = say(
                "An unlucky batch would be lye-heavy there. {narrowing_advice}", narrowing_advice=one.narrowing_advice()
            )
            yield attention("portion-may-be-lye-heavy", f"{sentence} {remedy}", "additives")


def _span(one: SuperfatInterval) -> str:
    return say("between {low:.1f} and {high:.1f} %", low=100 * one.low, high=100 * one.high)
