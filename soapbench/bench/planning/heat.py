"""How hot the lye gets, which jug takes it, and whether the loaf will gel or overheat."""

from __future__ import annotations

from soapbench.bars.to_science import science_fats, solute_of
from soapbench.bench.planning.given import Batch, Vessel
from soapbench.science.alkali import demand_mol
from soapbench.science.errors import OutOfRange
from soapbench.science.jug import JUG_MATERIALS, JugCheck, jug_check
from soapbench.science.lye import PeakTemperature, concentration, lye_volume_ml, peak_temperature
from soapbench.science.mixing import GelOutlook, Verdict, gel_outlook
from soapbench.science.words import say, word

STRONG_LYE = 0.38  # counts as a sign of heat together with another; common practice, no source
HOT_SIGNS = ("honey", "milk", "sugar", "beer")  # words in the names of what heats the batter; common practice


def jug_water_g(batch: Batch) -> float:
    """Return the grams of water and the like that go into the lye jug."""
    into_fats = sum(liquid.share for liquid in batch.formula.liquids if liquid.goes_into == "fats")
    return max(0.0, 1 - into_fats) * batch.made.water_g


def peak_of(batch: Batch) -> PeakTemperature:
    """Return how hot the lye can get.

    Raises:
        OutOfRange: the lye is stronger than the sums reach.
    """
    solute, purity = solute_of(batch.formula), batch.formula.alkali.naoh_purity
    return peak_temperature(
        batch.made.alkali_mass.total_g, jug_water_g(batch), batch.bench.room_c, solute=solute, purity=purity
    )


def lye_jug(batch: Batch) -> tuple[str, str]:
    """Return the name of the jug for this lye, the best of those at hand, and what to mind about it, "" for nothing.

    Raises:
        OutOfRange: no jug at hand may take this lye; the sentence says why.
    """
    found = _best_jug(batch)
    if found is None:
        return say("the lye jug"), ""
    verdict, jug = found
    if verdict.stops:
        raise OutOfRange(f"{jug.name}: {verdict.sentence}")
    return jug.name, "" if verdict.ok else verdict.sentence


def jug_hottest_c(batch: Batch) -> float | None:
    """Return the hottest that the jug of this lye stands, °C; None when no jug or nothing of it is known."""
    found = _best_jug(batch)
    return JUG_MATERIALS[found[1].material].hottest_c if found else None


def _best_jug(batch: Batch) -> tuple[JugCheck, Vessel] | None:
    jugs = [vessel for vessel in batch.bench.vessels if vessel.use == "lye"]
    verdicts = [(_verdict(batch, jug), jug) for jug in jugs]
    return min(verdicts, key=lambda each: (each[0].stops, not each[0].ok), default=None)


def _verdict(batch: Batch, jug: Vessel) -> JugCheck:
    alkali_g, water_g = batch.made.alkali_mass.total_g, jug_water_g(batch)
    volume = lye_volume_ml(alkali_g, water_g, solute_of(batch.formula))
    return jug_check(jug.material, jug.volume_ml, volume, peak_of(batch).with_jug_c)


def loaf_outlook(batch: Batch) -> str:
    """Return whether the loaf will gel, and whether it may overheat, in words; "" where the sums do not reach."""
    found = _gel(batch)
    return found.sentence if found else ""


def gel_verdict(batch: Batch) -> Verdict | None:
    """Return whether the loaf is likely to gel, None where the sums do not reach."""
    found = _gel(batch)
    return found.verdict if found else None


def _gel(batch: Batch) -> GelOutlook | None:
    made, process = batch.made, batch.formula.process
    lye_g = made.alkali_mass.total_g + made.water_g
    try:
        return gel_outlook(
            made.batter_g,
            made.water_g / made.batter_g,
            (process.mix_low_c + process.mix_high_c) / 2,
            demand_mol(science_fats(made.fat_masses, batch.order.facts)) * (1 - batch.formula.superfat),
            made.fats_g,
            lye_g,
            process.insulated,
            _hot_signs(batch),
            concentration(made.alkali_mass.total_g, made.water_g),
        )
    except OutOfRange:
        return None


def _hot_signs(batch: Batch) -> tuple[str, ...]:
    names = " ".join(f"{each.material} {each.name}".lower() for each in (*batch.made.liquids, *batch.made.additives))
    strength = concentration(batch.made.alkali_mass.total_g, batch.made.water_g)
    signs = {sign: sign in names or word("hot sign", sign) in names for sign in HOT_SIGNS}
    signs |= {"oven": batch.formula.process.oven, "strong lye": strength > STRONG_LYE}
    return tuple(sign for sign, is_there in signs.items() if is_there)
