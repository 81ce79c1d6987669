"""The superfat that the batch really has, how sure it is, and what can still be done."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bench.folding.pot import (
    acids_in_pot,
    alkali_in_use,
    as_alkali,
    fats_in_pot,
    lye_water_g,
    needed_alkali,
    planned_alkali,
    planned_fats,
    weighed_alkali,
)
from soapbench.bench.folding.tally import Tally
from soapbench.bench.state import Settlement
from soapbench.bench.words import grams, percent
from soapbench.science.alkali import superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.remedy import Remedy, remedies_before_lye, remedies_lye_in, remedies_lye_made
from soapbench.science.superfat import SuperfatInterval, Weighing, superfat_interval

# Half a point: what the alkali's own tolerance (0.5 %) does to the superfat. Own choice.
OFF = 0.005
UNKNOWN = "Nobody knows how much alkali is in this batch. Treat it as lye-heavy."
REMAKE = Remedy(
    "remake",
    "Make the lye again",
    "Set this lye aside safely, weigh new water and new alkali, and make the lye again.",
)
HOLD = Remedy("hold", "Hold the batch", "Do not sell it. Test the cured bars for free alkali before anything else.")


@dataclass(frozen=True)
class Outcome:
    """The superfat with its interval, the sentence for it, and the ways out when it is off."""

    superfat: SuperfatInterval | None
    sentence: str
    remedies: tuple[Remedy, ...]


def central(tally: Tally) -> float | None:
    """Return the superfat of what was weighed, central value, or None while it cannot be known."""
    weighed = weighed_alkali(tally)
    if weighed is None or tally.is_alkali_unknown:
        return None
    try:
        return superfat_of(fats_in_pot(tally), weighed, alkali_in_use(tally), acids_in_pot(tally))
    except OutOfRange:
        return None


def outcome(tally: Tally, settlement: Settlement | None) -> Outcome:
    """Return what the batch has now, or nothing until the alkali is weighed."""
    if tally.is_alkali_unknown:
        return Outcome(None, UNKNOWN, (HOLD,) if tally.is_combined else (REMAKE,))
    if weighed_alkali(tally) is None:
        return Outcome(None, "", _before_lye(tally, settlement))
    try:
        interval = _interval(tally)
    except OutOfRange as error:
        return Outcome(None, str(error), ())
    is_off = abs(interval.central - _aimed_at(tally, settlement)) > OFF or interval.is_lye_heavy
    return Outcome(interval, _sentence(interval), _ways_out(tally) if is_off else ())


def _interval(tally: Tally) -> SuperfatInterval:
    weighed = weighed_alkali(tally) or planned_alkali(tally)
    scale = Weighing(tally.plan.resolution_g)
    return superfat_interval(fats_in_pot(tally), weighed, alkali_in_use(tally), acids_in_pot(tally), scale)


def as_planned_sentence(tally: Tally) -> str:
    """Return what the planned alkali would leave in these fats, with its interval; "" when nothing can be said."""
    alkali_g = planned_alkali(tally).total_g
    try:
        return f"With the planned {grams(alkali_g)} of alkali: {_sentence(_interval(tally))}"
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
    ends = f"between {percent(interval.low)} and {percent(interval.high)}"
    if interval.is_lye_heavy:
        return f"Lye-heavy: superfat {percent(interval.central)}, {ends}. The soap would burn skin as it is."
    doubt = " Its unlucky end is lye-heavy." if interval.lye_heavy_possible else ""
    return f"Superfat {percent(interval.central)}, {ends}.{doubt}"


def _before_lye(tally: Tally, settlement: Settlement | None) -> tuple[Remedy, ...]:
    if settlement is None or not settlement.is_needed:
        return ()
    fats, planned = fats_in_pot(tally), planned_fats(tally)
    superfat, alkali = tally.plan.formula.superfat, alkali_in_use(tally)
    return remedies_before_lye(fats, planned, superfat, alkali, acids_in_pot(tally))


def _ways_out(tally: Tally) -> tuple[Remedy, ...]:
    weighed = weighed_alkali(tally)
    if weighed is None:
        return ()
    fats, alkali, acids = fats_in_pot(tally), alkali_in_use(tally), acids_in_pot(tally)
    superfat = tally.plan.formula.superfat
    try:
        if tally.is_combined:
            return remedies_lye_in(fats, weighed, alkali, superfat, acids)
        if tally.lye_at is not None:
            return remedies_lye_made(fats, weighed, lye_water_g(tally), superfat, alkali, acids)
        return (_weigh_again(tally),)
    except OutOfRange as error:
        return (Remedy("C2", "No way out by weighing", str(error)),)


def _weigh_again(tally: Tally) -> Remedy:
    needed = needed_alkali(tally)
    masses = {"alkali:naoh": needed.naoh_g, "alkali:koh": needed.koh_g}
    parts = [f"{line.name}: {grams(masses[line.key])}" for line in tally.plan.in_group("alkali")]
    after = superfat_of(fats_in_pot(tally), as_alkali(masses), alkali_in_use(tally), acids_in_pot(tally))
    sentence = f"It is not in the water yet. Weigh it again. {'; '.join(parts)}."
    return Remedy("C1", "Weigh the alkali again", sentence, needed.total_g, after)
