"""The superfat that the batch really has, how sure it is, and what is not as it should be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soapbench.bench.folding.pot import (
    acids_in_pot,
    acids_of,
    alkali_in_use,
    as_alkali,
    fats_in_pot,
    fats_of,
    mass_of,
    planned_alkali,
    planned_fats,
    pot_checked,
    weighed_alkali,
)
from soapbench.bench.folding.settlement import differing, settle
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line
from soapbench.bench.state import Settlement
from soapbench.bench.words import grams, over_or_short, percent
from soapbench.science.alkali import superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.pot import PotCheck
from soapbench.science.superfat import SuperfatInterval, Weighing, superfat_interval
from soapbench.science.words import mark, say

# Half a point: what the alkali's own tolerance (0.5 %) does to the superfat. Own choice.
OFF = 0.005
UNKNOWN = mark("Nobody knows how much alkali is in this batch. Treat it as lye-heavy.")
STRONGEST = 0.5  # of a lye; stronger ones may not dissolve (see science.lye)


@dataclass(frozen=True)
class Outcome:
    """The superfat with its interval, and the sentence for it."""

    superfat: SuperfatInterval | None
    sentence: str


def central(tally: Tally) -> float | None:
    """Return the superfat of what was weighed, central value, or None while it cannot be known."""
    weighed = weighed_alkali(tally)
    if weighed is None or tally.is_alkali_unknown:
        return None
    try:
        return superfat_of(fats_in_pot(tally), weighed, alkali_in_use(tally), acids_in_pot(tally))
    except OutOfRange:
        return None


def outcome(tally: Tally) -> Outcome:
    """Return what the batch has now, or nothing until the alkali is weighed."""
    if tally.is_alkali_unknown:
        return Outcome(None, say(UNKNOWN))
    if weighed_alkali(tally) is None:
        return Outcome(None, "")
    try:
        interval = interval_now(tally)
    except OutOfRange as error:
        return Outcome(None, str(error))
    return Outcome(interval, _sentence(interval))


def situation(tally: Tally) -> str:
    """Return what is not as it should be and asks for a way out, the most pressing first; "" when nothing does."""
    if tally.is_alkali_unknown:
        return say(UNKNOWN)
    doubt = pot_doubt(tally)
    if doubt is not None:
        return doubt.sentence
    if weighed_alkali(tally) is None:
        return differing(tally)
    strength = strength_now(tally)
    if strength is not None and strength > STRONGEST and not tally.is_combined:
        if tally.lye_at:
            return say("The lye is at {strength}: too strong to dissolve.", strength=percent(strength))
        return say("The lye would be at {strength}: too strong to dissolve.", strength=percent(strength))
    return superfat_off(tally) or _wrong_water(tally, strength)


def superfat_off(tally: Tally) -> str:
    """Return the superfat in words when it is not what was aimed at, or lye-heavy; "" when it is as it should be."""
    try:
        interval = interval_now(tally)
    except OutOfRange as error:
        return str(error)
    is_off = abs(interval.central - _aimed_at(tally, settle(tally))) > OFF or interval.is_lye_heavy
    return _sentence(interval) if is_off else ""


def _wrong_water(tally: Tally, strength: float | None) -> str:
    """Return how strong the lye is when its water came out differently and it can still be put right."""
    wet = [weight for line in tally.plan.in_group("water", "liquid") if (weight := tally.weights.get(line.key))]
    wrong = [weight for weight in wet if not weight.is_within and weight.line not in tally.owed]
    if not wrong or tally.is_combined or strength is None:
        return ""
    names = ", ".join(
        say(
            "{name} is {over_or_short}", name=one.name, over_or_short=over_or_short(round(one.mass_g - one.target_g, 6))
        )
        for one in wrong
    )
    return say("{names}: the lye is at {strength}.", names=names, strength=percent(strength))


def pot_doubt(tally: Tally) -> PotCheck | None:
    """Return what the pot on the scale says against what was weighed into it; None when they agree."""
    if tally.pot_read_g is None:
        return None
    try:
        found = pot_checked(tally.plan, tally.weights, tally.pot_read_g)
    except OutOfRange:  # every fat was left out
        return None
    return None if found.ok else found


def strength_now(tally: Tally) -> float | None:
    """Return the alkali as a share of the lye, as weighed or still planned; None without either."""
    lines = [line for line in tally.plan.lines if line.key in tally.book.jug_keys]
    dry = sum(mass_of(tally, line) for line in lines if line.group == "alkali")
    whole = sum(mass_of(tally, line) for line in lines)
    return dry / whole if whole > 0 and dry > 0 else None


def as_asked(tally: Tally, asked: Mapping[str, float]) -> tuple[float | None, float | None]:
    """Return the superfat and the strength of the lye when all that is open comes out as asked, both fractions."""

    def mass(line: Line) -> float:
        is_whole = line.key in tally.weights and line.key not in tally.owed
        is_out = line.key in tally.left_out and line.key not in tally.owed
        return tally.weights[line.key].mass_g if is_whole else 0.0 if is_out else asked[line.key]

    jars = {line.key: mass(line) for line in tally.plan.in_group("alkali")}
    wet = sum(mass(line) for line in tally.plan.in_group("water", "liquid") if line.key in tally.book.jug_keys)
    dry = sum(jars.values())
    strength = dry / (dry + wet) if dry > 0 else None
    used = as_alkali({key: jar * tally.lye_share for key, jar in jars.items()})
    try:
        superfat = superfat_of(fats_of(tally, mass), used, alkali_in_use(tally), acids_of(tally, mass))
    except OutOfRange:
        superfat = None
    return superfat, strength


def interval_now(tally: Tally) -> SuperfatInterval:
    """Return the superfat of what is in, as weighed or still planned.

    Raises:
        OutOfRange: no fat that takes alkali.
    """
    weighed = weighed_alkali(tally) or planned_alkali(tally)
    scale = Weighing(tally.plan.resolution_g)
    return superfat_interval(fats_in_pot(tally), weighed, alkali_in_use(tally), acids_in_pot(tally), scale)


def as_planned_sentence(tally: Tally) -> str:
    """Return what the planned alkali would leave in these fats, with its interval; "" when nothing can be said."""
    alkali_g = planned_alkali(tally).total_g
    try:
        return say(
            "With the planned {alkali} of alkali: {sentence}",
            alkali=grams(alkali_g),
            sentence=_sentence(interval_now(tally)),
        )
    except OutOfRange:
        return ""


def _aimed_at(tally: Tally, settlement: Settlement | None) -> float:
    """Return the central superfat of the alkali that was aimed at; wide fats put it above the formula's figure."""
    if settlement is not None and settlement.is_needed and settlement.choice == "recomputed":
        return settlement.superfat_if_recomputed
    acids = acids_in_pot(tally)
    try:
        return superfat_of(planned_fats(tally), planned_alkali(tally), alkali_in_use(tally), acids)
    except OutOfRange:
        return tally.plan.planned_superfat


def _sentence(interval: SuperfatInterval) -> str:
    ends = say("between {low} and {high}", low=percent(interval.low), high=percent(interval.high))
    if interval.is_lye_heavy:
        return say(
            "Lye-heavy: superfat {central}, {ends}. The soap would burn skin as it is.",
            central=percent(interval.central),
            ends=ends,
        )
    doubt = " " + say("Its unlucky end is lye-heavy.") if interval.lye_heavy_possible else ""
    return say("Superfat {central}, {ends}.{doubt}", central=percent(interval.central), ends=ends, doubt=doubt)
