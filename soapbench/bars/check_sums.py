"""What the numbers of a batch mean: superfat, careful fats, scale, lye, hardness, profile, room in the mould."""

from __future__ import annotations

from soapbench.bars.amounts import Amounts, science_fats
from soapbench.bars.check_superfat import superfat_findings
from soapbench.bars.finding import Findings, attention, good, stop
from soapbench.bars.formula import Formula
from soapbench.bars.sizing import yield_of
from soapbench.bars.sums import Sums
from soapbench.bars.to_science import Facts
from soapbench.science.alkali import careful_notes
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import water_to_alkali
from soapbench.science.mould import Mould
from soapbench.science.profile import sentences
from soapbench.science.rounding import scale_too_coarse, smallest_sensible_g
from soapbench.science.words import say

# Own marks, from common practice, no source.
STRONG_LYE = 0.40
WEAK_LYE = 0.26
MUCH_LIQUID = 0.80
LITTLE_LIQUID = 0.35


def sum_findings(formula: Formula, facts: Facts, sums: Sums, resolution_g: float, mould: Mould | None) -> Findings:
    """Yield what the numbers mean, in plain sentences."""
    yield from superfat_findings(sums)
    for note in careful_notes(science_fats(sums.made.fat_masses, facts)):
        yield attention("careful", note, "fats")
    yield from _scale(sums.made, resolution_g)
    yield from _lye(sums.lye_share)
    yield from _hardness(sums.liquid_share)
    for sentence in sentences(sums.profile) if sums.profile else ():
        yield good("profile", sentence, "fats")
    yield from _mould(formula, sums, mould)


def _scale(made: Amounts, resolution_g: float) -> Findings:
    if scale_too_coarse(resolution_g, made.alkali_mass.total_g):
        sentence = say(
            "One step of {resolution:g} g is much for {total:g} g of alkali.",
            resolution=resolution_g,
            total=made.alkali_mass.total_g,
        )
        yield attention(
            "coarse-scale", say("{sentence} Use a finer scale, or make a bigger batch.", sentence=sentence), "size"
        )
    least = smallest_sensible_g(resolution_g)
    small = [line for line in made.additives if line.mass_g < least]
    if small:
        names = ", ".join(f"{line.name} ({line.mass_g:g} g)" for line in small)
        sentence = say(
            "Too little for a scale of {resolution:g} g steps: {names}.", resolution=resolution_g, names=names
        )
        yield attention("small-doses", say("{sentence} Weigh it on a finer scale.", sentence=sentence), "additives")


def _lye(share: float) -> Findings:
    sentence = say(
        "The lye is {share:.0f} % strong, {water_to_alkali:.2g} g of water for 1 g of alkali.",
        share=100 * share,
        water_to_alkali=water_to_alkali(share),
    )
    if share > STRONG_LYE:
        yield attention(
            "strong-lye", say("{sentence} It gets hot, and the batter thickens soon.", sentence=sentence), "water"
        )
    elif share < WEAK_LYE:
        yield attention(
            "weak-lye",
            say("{sentence} The batter is slow, and the bars shrink while they dry.", sentence=sentence),
            "water",
        )
    else:
        yield good("lye", sentence, "water")


def _hardness(liquid: float) -> Findings:
    sentence = say(
        "{liquid:.0f} % of the fats are liquid at 20 °C, {liquid_2:.0f} % soft or solid.",
        liquid=100 * liquid,
        liquid_2=100 * (1 - liquid),
    )
    if liquid > MUCH_LIQUID:
        yield attention(
            "liquid-fats", say("{sentence} The loaf stays soft for long: unmould it late.", sentence=sentence), "fats"
        )
    elif liquid < LITTLE_LIQUID:
        sentence += " " + say("It sets soon: mix warm enough that nothing goes solid in the pot, and cut early.")
        yield attention("hard-fats", sentence, "fats")
    else:
        yield good("hardness", sentence, "fats")


def _mould(formula: Formula, sums: Sums, mould: Mould | None) -> Findings:
    if not mould or not sums.fit:
        return
    if not sums.fit.ok:
        yield stop("does-not-fit", sums.fit.sentence, "size")
        return
    yield good("mould", sums.fit.sentence, "size")
    try:
        yield good("cut", yield_of(formula, sums.made, mould, loss_g=sums.loss_g).sentence, "cut")
    except OutOfRange as error:
        yield attention("cut", str(error), "cut")
