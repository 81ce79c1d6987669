"""What the latest readings of both pots would make together: its temperature, its rise, and false trace."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bars.to_science import solute_of
from soapbench.bench.cooling import Mixing
from soapbench.bench.folding.book import COOL
from soapbench.bench.folding.cooling import readings_of
from soapbench.bench.folding.pot import fats_g, fats_in_pot, lye_water_g, mass_of
from soapbench.bench.folding.tally import Tally
from soapbench.science.alkali import demand_mol
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import Solute
from soapbench.science.mixing import (
    false_trace_warning,
    fats_temperature_for,
    mixing_temperature,
    saponification_rise,
)
from soapbench.science.words import say


def mixing(tally: Tally) -> Mixing | None:
    """Return the mix of the pots as last read, or None while one of them was not read since the alkali went in."""
    began = tally.lye_at
    if began is None:
        return None
    lye, fats = readings_of(tally, "lye", began), readings_of(tally, "fats", began)
    try:
        return _mixed(tally, lye[-1].temp_c, fats[-1].temp_c) if lye and fats else None
    except OutOfRange:  # a mass of nought or a lye beyond the sums
        return None


@dataclass(frozen=True)
class _Pots:
    """Masses and temperatures of both pots; w is the strength of the lye."""

    fats_g: float
    fats_c: float
    lye_g: float
    lye_c: float
    w: float
    solute: Solute

    @property
    def mix_c(self) -> float:
        return mixing_temperature(self.fats_g, self.fats_c, self.lye_g, self.lye_c, self.w, self.solute)


def _mixed(tally: Tally, lye_c: float, fats_c: float) -> Mixing:
    alkali = sum(mass_of(tally, line) for line in tally.plan.in_group("alkali"))
    lye_g = alkali + lye_water_g(tally)
    pots = _Pots(fats_g(tally), fats_c, lye_g, lye_c, alkali / lye_g, solute_of(tally.plan.formula))
    moles = demand_mol(fats_in_pot(tally)) * (1 - tally.plan.formula.superfat)
    rise = saponification_rise(moles, pots.fats_g, lye_g, pots.w, pots.solute)
    melts = melting_point(tally)
    warning = "" if melts is None else false_trace_warning(pots.mix_c, melts) or ""
    said = say("Lye {lye:g}, fats {fats:g}: together about {mix:.0f} °C.", lye=lye_c, fats=fats_c, mix=pots.mix_c)
    heat = say("Turning into soap adds up to {central:.0f} K.", central=rise.central)
    if tally.is_combined:  # they are together: nothing is left to warm or to cool first
        return Mixing(
            lye_c, fats_c, pots.mix_c, rise, say("Mixed at about {mix:.0f} °C.", mix=pots.mix_c), melts, warning
        )
    advice = _advice(tally, pots, melts)
    return Mixing(lye_c, fats_c, pots.mix_c, rise, f"{said} {heat}", melts, warning, advice)


def melting_point(tally: Tally) -> float | None:
    """Return the highest temperature at which a fat in the pot is fully molten, °C; None when none is known."""
    facts = [tally.facts_of(line) for line in tally.book.fat_lines if mass_of(tally, line) > 0]
    known = [fact.melts_at_c for fact in facts if fact is not None and fact.melts_at_c is not None]
    return max(known, default=None)


def _advice(tally: Tally, pots: _Pots, melts_c: float | None) -> str:
    """Return how warm the fats must be for a mix inside the window and above the fat that melts last."""
    cool = tally.book.prompts.get(COOL)
    if cool is None or cool.low_c is None or cool.high_c is None:
        return ""
    floor = max(cool.low_c, melts_c or cool.low_c)
    if floor <= pots.mix_c <= max(cool.high_c, floor):
        return ""
    if pots.mix_c > cool.high_c:
        return say("That is above {high:g} °C. Let both pots cool first: a hot mix thickens fast.", high=cool.high_c)
    aim = max(floor, (cool.low_c + cool.high_c) / 2)
    try:
        need = fats_temperature_for(aim, pots.fats_g, pots.lye_g, pots.lye_c, pots.w, pots.solute)
    except OutOfRange as error:
        return str(error)
    return say(
        "With the fats at {need:.0f} °C and the lye as it is, the mix comes to {aim:.0f} °C.", need=need, aim=aim
    )
