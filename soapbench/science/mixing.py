"""Fats and lye together: the temperature of the mix, the heat of saponification, and whether the loaf will gel."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from soapbench.science.errors import OutOfRange, a_temperature, fraction, not_negative, positive
from soapbench.science.interval import Interval
from soapbench.science.lye_properties import Solute, heat_capacity
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import say

Verdict = Literal["likely", "may", "unlikely"]

FATS_TABLES = Source(
    "heat-capacity-of-oils",
    "Heat capacity of liquid oils",
    "olive and castor 1.97 (Engineering ToolBox); corn 1.67 to sunflower 2.24 at 35 C (Fasina and Colley 2008)",
    "published",
)
ESTER_HEAT = Source(
    "ester-heat",
    "Enthalpies of formation, CRC Handbook",
    "ethyl acetate 53.7, glycerol triacetate 35.6 kJ per mole of ester bond; no figure for a soap fat was found",
    "computed",
)
DUNN = Source(
    "dunn-2018",
    "K. M. Dunn, Time and Temperature, 2018",
    "one blend gels at 71 C with 33 % lye and at 87 C with 40 % lye; straight line between the two",
    "published",
)
MIXING_RULE = Source("mixing-rule", "Heat balance of two liquids", "no loss, nothing melts", "computed")

FATS_C = Constant("Heat capacity of liquid fats", "c", 2.0, "kJ/(kg K)", FATS_TABLES, "mixing_temperature: ± 0.2")
HOTTEST_FATS = Constant(
    "Hottest fats asked for",
    "T",
    100.0,
    "C",
    OWN_CHOICE,
    "fats_temperature_for",
    why="Hotter fats smoke, spit and burn.",
)
ESTER_LOW = Constant("Heat of saponification, low", "q", 35.0, "kJ/mol", ESTER_HEAT, "saponification_rise")
ESTER = Constant("Heat of saponification", "q", 45.0, "kJ/mol", ESTER_HEAT, "saponification_rise")
ESTER_HIGH = Constant("Heat of saponification, high", "q", 55.0, "kJ/mol", ESTER_HEAT, "saponification_rise")
GEL_POINT = Constant("Gel begins at 20.1 % water", "T", 71.0, "C", DUNN, "gel_temperature")
GEL_WATER = Constant("Water in a batter of 33 % lye", "", 0.201, "g/g", DUNN, "gel_temperature")
GEL_SLOPE = Constant("Gel begins lower for each per cent of water", "", 3.8, "K/%", DUNN, "gel_temperature")
GEL_HALF_WIDTH = Constant(
    "Other fats gel at up to this much more or less",
    "",
    5.0,
    "K",
    OWN_CHOICE,
    "gel_temperature",
    why="Dunn measured one blend; others gelled some degrees lower.",
)
DRIEST = Constant("Least water that the gel line holds for", "", 0.15, "g/g", DUNN, "gel_temperature")
WETTEST = Constant("Most water that the gel line holds for", "", 0.22, "g/g", DUNN, "gel_temperature")
LOOSE_LOSS = Constant("Heat lost by a loose loaf of 1 kg", "", 0.6, "", COMMON_PRACTICE, "heat_loss")
KEPT_LOSS = Constant("Heat lost by an insulated loaf of 3 kg", "", 0.3, "", COMMON_PRACTICE, "heat_loss")
LEAST_LOSS = Constant(
    "Least heat lost by any loaf", "", 0.15, "", OWN_CHOICE, "heat_loss", why="No mould is a vacuum flask."
)
MOST_LOSS = Constant(
    "Most heat lost by any loaf", "", 0.95, "", OWN_CHOICE, "heat_loss", why="Even a small loose loaf warms a little."
)
OVERHEATS = Constant(
    "Heart of a loaf that overheats",
    "",
    85.0,
    "C",
    OWN_CHOICE,
    "gel_outlook",
    why="Gel runs to some 82 C; above it loaves crack and rise.",
)
FLAGS_THAT_MATTER = Constant(
    "Hot signs that together call for a cool start",
    "",
    2,
    "",
    OWN_CHOICE,
    "gel_outlook",
    why="One sign alone is everyday.",
)


@dataclass(frozen=True, slots=True)
class GelOutlook:
    """Whether the heart of the loaf may gel: a verdict, never a time. peak_c and gel_c are the figures behind it."""

    verdict: Verdict
    sentence: str
    overheating: bool
    peak_c: Interval | None = None
    gel_c: Interval | None = None


def mixing_temperature(
    fats_g: float, fats_c: float, lye_g: float, lye_c: float, w: float, solute: Solute = "NaOH"
) -> float:
    """Return the temperature in C right after the lye is stirred into the melted fats.

    Args:
        fats_g, fats_c: the melted fats. Fats that are still solid are not allowed for: the mix would be cooler.
        lye_g, lye_c, w: the lye, its temperature and its strength as a mass fraction.
        solute: the alkali of the lye.

    Raises:
        OutOfRange: a mass is not above zero, or the lye cannot be so strong or so hot.

    Source: heat balance of two liquids without loss.
    """
    fats = positive(fats_g, "The fats") * FATS_C.value
    lye = positive(lye_g, "The lye") * heat_capacity(solute, w, lye_c)
    return (fats * a_temperature(fats_c, "The temperature of the fats") + lye * lye_c) / (fats + lye)


def fats_temperature_for(
    mix_c: float, fats_g: float, lye_g: float, lye_c: float, w: float, solute: Solute = "NaOH"
) -> float:
    """Return how warm in C the fats must be so that the mix comes out at mix_c with the lye as it is.

    Raises:
        OutOfRange: a mass is not above zero, a temperature or a strength cannot be, or no fats could be so warm.

    Source: the balance of mixing_temperature, solved for the fats.
    """
    a_temperature(mix_c, "The temperature of the mix")
    lye = positive(lye_g, "The lye") * heat_capacity(solute, w, lye_c)
    fats_c = mix_c + lye * (mix_c - lye_c) / (positive(fats_g, "The fats") * FATS_C.value)
    if not 0 <= fats_c <= HOTTEST_FATS.value:
        if fats_c > 0:
            raise OutOfRange(
                say("The fats alone cannot bring the mix to {mix:.0f} °C. Warm the lye as well.", mix=mix_c)
            )
        raise OutOfRange(say("The fats alone cannot bring the mix to {mix:.0f} °C. Cool the lye as well.", mix=mix_c))
    return fats_c


def false_trace_warning(mix_c: float, highest_melting_c: float) -> str | None:
    """Return a warning when the mix would be under the highest melting point in the formula, else None.

    Raises:
        OutOfRange: a temperature that cannot be.

    Source: common practice.
    """
    if a_temperature(mix_c) >= a_temperature(highest_melting_c, "The melting point"):
        return None
    return say(
        "Mixed at {mix:.0f} °C, a fat that melts at {highest_melting:.0f} °C can set again and look like "
        "trace. Start warmer.",
        mix=mix_c,
        highest_melting=highest_melting_c,
    )


def saponification_rise(alkali_mol: float, fats_g: float, lye_g: float, w: float, solute: Solute = "NaOH") -> Interval:
    """Return by how many K the batter would warm up if all alkali reacted and no heat were lost.

    45 ± 10 kJ per mole of alkali; the width is that of the heat of reaction alone.

    Raises:
        OutOfRange: a mass or the amount of alkali is not above zero, or the lye is too strong.

    Source: enthalpies of formation of two esters and their products, CRC Handbook; none of a soap fat was found.
    """
    capacity = positive(fats_g, "The fats") * FATS_C.value + positive(lye_g, "The lye") * heat_capacity(solute, w, 60)
    per_kj = positive(alkali_mol, "The alkali", "mol") * 1000 / capacity
    return Interval(ESTER_LOW.value * per_kj, ESTER.value * per_kj, ESTER_HIGH.value * per_kj)


def gel_temperature(water_fraction: float) -> Interval:
    """Return the temperature in C at which a batter begins to gel, from its water by mass (0.15 to 0.22).

    Raises:
        OutOfRange: the water is outside what the two points can stand for.

    Source: Dunn's two points for one blend; ± 5 K for others is our own choice.
    """
    if not DRIEST.value <= fraction(water_fraction, "The water in the batter") <= WETTEST.value:
        raise OutOfRange(
            say(
                "For a batter of {water_fraction:.0f} % water the gel temperature is not known; it is for "
                "{value:.0f} to {value_2:.0f} %.",
                water_fraction=100 * water_fraction,
                value=100 * DRIEST.value,
                value_2=100 * WETTEST.value,
            )
        )
    central = GEL_POINT.value - GEL_SLOPE.value * 100 * (water_fraction - GEL_WATER.value)
    return Interval(central - GEL_HALF_WIDTH.value, central, central + GEL_HALF_WIDTH.value)


def heat_loss(batter_g: float, insulated: bool) -> float:
    """Return the share of the heat of reaction that a loaf loses while it reacts, 0.15 to 0.95.

    Common practice gives two points: 0.6 for a loose loaf of 1 kg, 0.3 for an insulated one of 3 kg. Half of the
    difference is given to the insulation, half to the size, along the logarithm of the mass.

    Raises:
        OutOfRange: the batter weighs nothing.

    Source: common practice for the two points; own choice for the line between and the ends.
    """
    half = (LOOSE_LOSS.value - KEPT_LOSS.value) / 2
    size = math.log(positive(batter_g, "The batter") / 1000) / math.log(3)
    return min(MOST_LOSS.value, max(LEAST_LOSS.value, LOOSE_LOSS.value - half * size - (half if insulated else 0)))


def gel_outlook(
    batter_g: float,
    water_fraction: float,
    mix_c: float,
    alkali_mol: float,
    fats_g: float,
    lye_g: float,
    insulated: bool,
    flags: Sequence[str] = (),
    w: float = 1 / 3,
) -> GelOutlook:
    """Return whether a loaf of this size, water and insulation will gel, and whether it may overheat.

    Args:
        batter_g: in one mould.
        water_fraction: water by mass of the batter.
        mix_c: temperature at the pour.
        alkali_mol, fats_g, lye_g: of the whole batch; w is the strength of its lye.
        insulated: lid, towels or box.
        flags: hot signs, each in a word or two: sugar, honey, milk, beer, hot scent, much coconut, strong lye with a
            hot start, wooden mould, warm room, oven.

    Raises:
        OutOfRange: a mass or the amount of alkali is not above zero, or the lye is too strong.

    Source: Dunn 2018 for the gel line, CRC Handbook for the heat, common practice for the losses and the signs.
    """
    rise = saponification_rise(alkali_mol, fats_g, lye_g, w).scaled(1 - heat_loss(batter_g, insulated))
    peak = rise.shifted(a_temperature(mix_c, "The temperature of the batter"))
    fraction(not_negative(water_fraction, "The water in the batter", ""), "The water in the batter")
    hot = len(set(flags)) >= FLAGS_THAT_MATTER.value or peak.central > OVERHEATS.value
    if water_fraction < DRIEST.value:
        dry = say("Unlikely to gel: {water_fraction:.0f} % water is little.", water_fraction=100 * water_fraction)
        return GelOutlook("unlikely", dry + _caution(hot, flags), hot, peak)
    gel = gel_temperature(min(water_fraction, WETTEST.value))
    verdict = _verdict(peak, gel)
    return GelOutlook(verdict, _words(verdict, peak, gel) + _caution(hot, flags), hot, peak, gel)


def _verdict(peak: Interval, gel: Interval) -> Verdict:
    if peak.low >= gel.central:
        return "likely"
    return "unlikely" if peak.high < gel.low else "may"


def _words(verdict: Verdict, peak: Interval, gel: Interval) -> str:
    figures = say(
        "the heart can reach about {central:.0f} °C, and this batter gels near {gel_central:.0f} °C.",
        central=peak.central,
        gel_central=gel.central,
    )
    if verdict == "likely":
        return say("Likely to gel: {figures}", figures=figures)
    if verdict == "unlikely":
        return say("Unlikely to gel: {figures}", figures=figures)
    return say(
        "May gel, perhaps only in the middle: {figures} For an even look keep it warm all round or cool all round.",
        figures=figures,
    )


def _caution(hot: bool, flags: Sequence[str]) -> str:
    if not hot:
        return ""
    why = f" ({', '.join(sorted(set(flags)))})" if flags else ""
    return " " + say(
        "It may overheat{why}: no insulation, no oven, start cooler, and look at 30, 60, 90 and 120 min.", why=why
    )


CONSTANTS = (
    *(
        FATS_C,
        HOTTEST_FATS,
        ESTER_LOW,
        ESTER,
        ESTER_HIGH,
        GEL_POINT,
        GEL_WATER,
        GEL_SLOPE,
        GEL_HALF_WIDTH,
        DRIEST,
        WETTEST,
    ),
    *(LOOSE_LOSS, KEPT_LOSS, LEAST_LOSS, MOST_LOSS, OVERHEATS, FLAGS_THAT_MATTER),
)
_HERE = "soapbench.science.mixing."
RELATIONS = (
    Relation("Temperature of the mix", "Σ m c T / Σ m c", "C", MIXING_RULE, _HERE + "mixing_temperature"),
    Relation("Fats for a mix", "the same, solved for the fats", "C", MIXING_RULE, _HERE + "fats_temperature_for"),
    Relation("False trace", "mix under highest melting point", "C", COMMON_PRACTICE, _HERE + "false_trace_warning"),
    Relation("Heat of saponification", "ΔT = n q/(m_o c_o + m_l c_l)", "K", ESTER_HEAT, _HERE + "saponification_rise"),
    Relation("Where gel begins", "T = 71 - 3.8 (water% - 20.1)", "C", DUNN, _HERE + "gel_temperature"),
    Relation("Heat lost", "0.6 - 0.15·ln(m/1 kg)/ln 3 - 0.15 if insulated", "", COMMON_PRACTICE, _HERE + "heat_loss"),
    Relation("Will it gel", "T_mix + ΔT (1 - loss) against the gel line", "C", COMMON_PRACTICE, _HERE + "gel_outlook"),
)
