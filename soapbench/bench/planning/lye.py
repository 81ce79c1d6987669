"""From the first fat to the lye that cools: fats, settling, water, alkali, alkali into water."""

from __future__ import annotations

from math import exp

from soapbench.bars.to_science import solute_of
from soapbench.bench.folding.book import LYE, MELT, SETTLE
from soapbench.bench.plan import Line, Prompt, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import weigh
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import jug_water_g, lye_jug, peak_of
from soapbench.bench.planning.pauses import before_alkali
from soapbench.science.cooling_law import minutes_between, pot_heat_capacity, prior_for
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import concentration, heat_capacity
from soapbench.science.words import mark, say

USUAL_COOLING = 60.0  # min, where the sums give none; common practice, no source
CP_AT_C = 50.0
ONE_WAY = mark("Alkali → cold water. In small parts, stirring, under moving air. Stir until no grain is left.")


def fats(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    """Return the weighing of each fat, the melting, and the choice of the alkali."""
    melting = Prompt(
        key=MELT,
        phase="fats",
        kind="act",
        title=say("Melt the fats until they are clear"),
        detail=say(
            "Stop the heat when the last piece is gone. Aim for {fats:g} °C.", fats=batch.formula.process.fats_c
        ),
        pot="fats",
        cautions=(cautions.HOT_FAT,),
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )
    choice = Prompt(
        key=SETTLE,
        phase="fats",
        kind="settle",
        title=say("Choose the alkali for these fats"),
        detail=say("The fats came out differently from the plan."),
        changes=("interrupted", "other"),
    )
    weighings = [weigh(batch, line, "fats") for line in lines if line.group == "fat"]
    return [*weighings, melting, choice]


def lye(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    """Return the weighing of the jug's liquids and of the alkali, their mixing, and the first reading."""
    into_fats = {liquid.material for liquid in batch.formula.liquids if liquid.goes_into == "fats"}
    wet = [line for line in lines if line.group in ("water", "liquid") and line.material not in into_fats]
    dry = [line for line in lines if line.group == "alkali"]
    reading = Prompt(
        key="read-lye",
        phase="lye",
        kind="read",
        title=say("Read the temperature of the lye"),
        detail=say("Stir until clear first. {heat}", heat=_heat(batch)),
        pot="lye",
        cautions=(cautions.HOT_LYE,),
        changes=("temperature off", "interrupted", "other"),
    )
    water, alkali = [weigh(batch, line, "lye") for line in wet], [weigh(batch, line, "lye") for line in dry]
    return [
        *water,
        before_alkali(batch),
        *alkali,
        _into_water(batch, has_milk=any(line.group == "liquid" for line in wet)),
        reading,
    ]


def _into_water(batch: Batch, *, has_milk: bool) -> Prompt:
    extra = (cautions.LIQUID_LYE,) if has_milk else ()
    return Prompt(
        key=LYE,
        phase="lye",
        kind="hold",
        title=say("Add the alkali to the water, slowly"),
        detail=" ".join(filter(None, (say(ONE_WAY), lye_jug(batch)[1]))),
        pot="lye",
        cautions=(cautions.ONE_WAY, cautions.FIRST_AID, *extra),
        timer=Timer("lye-cooling", say("Lye: read both pots"), cooling_minutes(batch), until="cool"),
        changes=("lost or spilt", "interrupted", "other"),
    )


def _heat(batch: Batch) -> str:
    try:
        return peak_of(batch).sentence
    except OutOfRange:
        return ""


def cooling_minutes(batch: Batch) -> float:
    """Return about how long the lye takes down to the window, min: from the usual peak, at the learnt or usual rate."""
    high = batch.formula.process.mix_high_c
    alkali, water = batch.made.alkali_mass.total_g, jug_water_g(batch)
    try:
        peak = peak_of(batch)
        start = (peak.usual_low_c + peak.usual_high_c) / 2
        cp = heat_capacity(solute_of(batch.formula), concentration(alkali, water), CP_AT_C)
        learnt = batch.learnt.cooling.get(lye_jug(batch)[0])
        rate = exp(prior_for(pot_heat_capacity(alkali + water, cp), learnt).ln_k_mean)
        return max(5.0, round(minutes_between(start, high, batch.bench.room_c, rate)))
    except OutOfRange:
        return USUAL_COOLING
