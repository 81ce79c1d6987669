"""How a bar loses its water: the curve, the water that is left, and the bars that have settled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from soapbench.science.errors import OutOfRange, between, fraction, not_negative, number, positive
from soapbench.science.interval import Interval
from soapbench.science.sources import FROM_MEMORY, OWN_CHOICE, STOICHIOMETRY, Constant, Relation, Source, Table

from .words import say

THIN_LAYER = Source(
    "page-drying",
    "Page's model of thin-layer drying",
    "MR = exp(-k t^n), in tables of thin-layer models; n = 1 is Newton's (Lewis's) model",
    "published",
)
WEEK = 7.0
STUDENT = Source("student-t", "Two-sided 95 % points of Student's t", "tables; checked against scipy", "published")
PAIRED = Source(
    "paired-t",
    "Paired t-test on weekly weighings",
    "a study of soap bars calls them stable when weeks 3 and 4 no longer differ at 95 % (Indonesian thesis)",
    "published",
)
LEVEL = Constant(
    "Loss in a week at which a bar is level",
    "",
    0.005,
    "g/g",
    OWN_CHOICE,
    "day_loss_below, cure_progress",
    why="Half a gram a week of a 100 g bar: below what a kitchen scale shows.",
)
LONGEST = Constant(
    "Longest cure told", "", 730.0, "d", OWN_CHOICE, "day_for_loss", why="Two years: longer than bars are kept."
)
NORMAL_POINT = Constant("Two-sided 95 % point for many bars", "t", 1.96, "", FROM_MEMORY, "settled")
# Two-sided 95 % points for 1, 2, 3 … degrees of freedom.
T_95 = (12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131)


@dataclass(frozen=True, slots=True)
class Settled:
    """Whether two weighings of the same bars still differ; the loss is a mean per bar in g with its 95 % band."""

    ok: bool
    loss_g: Interval
    sentence: str


def mass_after(days: float, start_g: float, final_g: float, tau_days: float, n: float = 1) -> float:
    """Return the mass in g after some days: final + (start - final)·exp(-(t/τ)^n).

    Raises:
        OutOfRange: the days are negative, a mass or τ is not above zero, or n is outside 0.1 to 3.

    Source: Page's model of thin-layer drying; n = 1 is Newton's.
    """
    between(n, 0.1, 3, "The exponent")
    not_negative(days, "The days", "")
    positive(start_g, "The fresh mass")
    positive(final_g, "The dry mass")
    return final_g + (start_g - final_g) * math.exp(-math.pow(days / positive(tau_days, "The drying time", "days"), n))


def day_for_loss(start_g: float, final_g: float, tau_days: float, n: float, threshold_g: float) -> float:
    """Return the day from which a bar loses less than threshold_g in the seven days that follow.

    By bisection; the weekly loss falls steadily as long as n is 1 or less. 0 when it is under it at once.

    Raises:
        OutOfRange: an input is not above zero, n is outside 0.1 to 1, or it takes more than two years.

    Source: Page's model, solved by bisection; closed form for n = 1.
    """
    if not 0.1 <= number(n, "The exponent") <= 1:
        raise OutOfRange(say("The exponent of a drying bar lies between 0.1 and 1."))
    positive(threshold_g, "The loss per week")

    def loss(day: float) -> float:
        return mass_after(day, start_g, final_g, tau_days, n) - mass_after(day + WEEK, start_g, final_g, tau_days, n)

    low, high = 0.0, LONGEST.value
    if loss(high) > threshold_g:
        raise OutOfRange(say("Within two years the loss does not become that small. Ask for a larger one."))
    if loss(low) <= threshold_g:
        return 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if loss(middle) > threshold_g else (low, middle)
    return high


def water_left(fresh_water_fraction: float, fresh_g: float, now_g: float) -> float:
    """Return the water still in a bar, as a fraction of its mass now: (w - L)/(1 - L) with L the share lost.

    Only water leaves, so the rest of the bar stays as it was. Never below 0.

    Raises:
        OutOfRange: the bar has grown heavier, a mass is not above zero, or the fraction is not one.

    Source: mass balance of the water.
    """
    w = fraction(fresh_water_fraction, "The water in the fresh bar")
    kept = positive(now_g, "The bar now") / positive(fresh_g, "The fresh bar")
    if kept > 1:
        raise OutOfRange(
            say("{now:g} g is more than the fresh {fresh:g} g. Is it the same bar?", now=now_g, fresh=fresh_g)
        )
    return max(0.0, (w - 1 + kept) / kept)


def water_at_pour(water_g: float, batter_g: float) -> float:
    """Return the water share of the batter; saponification neither makes water nor uses any.

    Raises:
        OutOfRange: there is more water than batter, or a mass is not above zero.

    Source: stoichiometry; one hydroxide for each ester bond, none of it water.
    """
    if not_negative(water_g, "The water") > positive(batter_g, "The batter"):
        raise OutOfRange(say("There cannot be more water than batter."))
    return water_g / batter_g


def settled(before: Sequence[float], after: Sequence[float]) -> Settled:
    """Return whether the same bars, weighed twice and given in the same order, still lose weight (paired t-test).

    Raises:
        OutOfRange: there are fewer than three bars, the two lists differ in length, or a mass is not above zero.

    Source: paired t-test at 95 %, Student's t.
    """
    if len(before) != len(after):
        raise OutOfRange(say("Weigh the same bars both times, in the same order."))
    if len(before) < 3:
        raise OutOfRange(say("Weigh three bars or more to compare two weeks."))
    for mass in (*before, *after):
        positive(mass, "Each bar")
    losses = [b - a for b, a in zip(before, after, strict=True)]
    count = len(losses)
    mean = sum(losses) / count
    error = math.sqrt(sum((loss - mean) ** 2 for loss in losses) / (count - 1) / count)
    half = error * student_95(count - 1)
    ok = mean - half <= 0 <= mean + half
    verdict = say("The bars have settled") if ok else say("The bars still change")
    return Settled(
        ok,
        Interval(mean - half, mean, mean + half),
        say("{verdict}: {mean:.2g} g each on average.", verdict=verdict, mean=mean),
    )


def student_95(freedom: int) -> float:
    """Return the two-sided 95 % point of Student's t.

    Raises:
        OutOfRange: fewer than one degree of freedom.

    Source: tables up to 15; beyond, z + (z³ + z)/4ν + (5 z⁵ + 16 z³ + 3 z)/96 ν² (Cornish and Fisher, from memory).
    """
    if freedom < 1:
        raise OutOfRange(say("Weigh two bars or more to tell how much they differ."))
    if freedom <= len(T_95):
        return T_95[freedom - 1]
    z = NORMAL_POINT.value
    return z + (z**3 + z) / (4 * freedom) + (5 * z**5 + 16 * z**3 + 3 * z) / (96 * freedom**2)


CONSTANTS = (
    LEVEL,
    LONGEST,
    NORMAL_POINT,
)
TABLES = (
    Table(
        "Two-sided 95 % points of Student's t",
        ("degrees of freedom", "t"),
        tuple((str(freedom), t) for freedom, t in enumerate(T_95, 1)),
        STUDENT,
        "settled",
    ),
)
_HERE = "soapbench.science.drying."
RELATIONS = (
    Relation("Drying curve", "W = W∞ + (W0 - W∞)·exp(-(t/τ)^n)", "g, d", THIN_LAYER, _HERE + "mass_after"),
    Relation("Day of a small loss", "W(t) - W(t + 7) = threshold", "d", THIN_LAYER, _HERE + "day_for_loss"),
    Relation("Water left", "(w - L)/(1 - L)", "g/g", STOICHIOMETRY, _HERE + "water_left"),
    Relation("Water at the pour", "water / batter", "g/g", STOICHIOMETRY, _HERE + "water_at_pour"),
    Relation("Student's t", "table; z + (z³ + z)/4ν + …", "", STUDENT, _HERE + "student_95"),
    Relation("Settled or not", "mean loss ± t·s/√n", "g", PAIRED, _HERE + "settled"),
)
