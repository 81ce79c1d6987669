"""What the sums say of a formula: superfat and how sure it is, lye, profile, room in the mould."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bars.amounts import ALL, Amounts, science_alkali, science_fats
from soapbench.bars.finding import Findings, attention, good, stop
from soapbench.bars.formula import Formula
from soapbench.bars.sizing import poured_ml, yield_of
from soapbench.bars.to_science import Facts, portion_shares, science_acid, science_fat
from soapbench.science.alkali import Acid, Fat, careful_notes
from soapbench.science.errors import OutOfRange
from soapbench.science.interval import Interval
from soapbench.science.lye import concentration, water_to_alkali
from soapbench.science.mould import POT_LOSS, Mould, MouldFit, fits
from soapbench.science.portions import Portion as BatterPortion
from soapbench.science.portions import PortionSuperfats, portion_superfats
from soapbench.science.profile import FatProfile, Profile, profile_of, sentences
from soapbench.science.rounding import scale_too_coarse, smallest_sensible_g
from soapbench.science.superfat import SuperfatInterval, Weighing, superfat_interval

# Own marks, from common practice, no source.
STRONG_LYE = 0.40
WEAK_LYE = 0.26
HIGH_SUPERFAT = 0.10
MUCH_LIQUID = 0.80
LITTLE_LIQUID = 0.35


@dataclass(frozen=True)
class Sums:
    """The numbers behind the sentences."""

    made: Amounts
    superfat: SuperfatInterval
    portions: PortionSuperfats
    profile: Profile | None
    liquid_share: float  # of the fats, by mass: those liquid at 20 °C
    lye_share: float  # alkali in all of the lye, mass fraction
    fit: MouldFit | None
    loss_g: float = POT_LOSS.value  # batter that stays in pots and cups

    @property
    def percent(self) -> dict[str, float]:
        """Return superfat, both ends of its interval and the strength of the lye in per cent, for the screen."""
        superfat = self.superfat
        shares = {"superfat": superfat.central, "low": superfat.low, "high": superfat.high, "lye": self.lye_share}
        return {name: 100 * share for name, share in shares.items()}

    @property
    def alkali_g(self) -> str:
        """Return the alkali as it reads on the scale, without the unit."""
        return f"{self.made.alkali_mass.total_g:.10g}"

    @property
    def known_percent(self) -> float:
        """Return the share of the fats whose fatty acids are known, per cent."""
        return 100 * self.profile.known_share if self.profile else 0.0

    @property
    def main_acids(self) -> tuple[tuple[str, Interval], ...]:
        """Return the fatty acids of which there is one per cent or more, with their ranges."""
        return tuple(pair for pair in self.profile.acids if pair[1].central >= 1) if self.profile else ()


def sums_of(
    formula: Formula,
    facts: Facts,
    made: Amounts,
    resolution_g: float,
    mould: Mould | None,
    loss_g: float = POT_LOSS.value,
) -> Sums:
    """Return the numbers of a batch.

    Raises:
        FormulaError, OutOfRange: as the sums do.
    """
    alkali = science_alkali(formula, facts)
    fats = science_fats(made.fat_masses, facts)
    scale = Weighing(resolution_g)
    return Sums(
        made=made,
        superfat=superfat_interval(fats, made.alkali_mass, alkali, made.acids, scale),
        portions=_portion_superfats(formula, facts, made),
        profile=_profile(facts, made),
        liquid_share=_liquid_g(facts, made) / made.fats_g,
        lye_share=concentration(made.alkali_mass.total_g, made.water_g),
        fit=fits(mould, poured_ml(made, loss_g)) if mould else None,
        loss_g=loss_g,
    )


def _liquid_g(facts: Facts, made: Amounts) -> float:
    return sum(mass for key, mass in made.fat_masses.items() if facts[key].state == "liquid")


def _profile(facts: Facts, made: Amounts) -> Profile | None:
    blend = [
        FatProfile(fat.name, fat.mass_g, facts[key].fatty_acids or {}, fat.kind)
        for key, fat in zip(made.fat_masses, science_fats(made.fat_masses, facts), strict=True)
    ]
    try:
        return profile_of(blend)
    except OutOfRange:
        return None  # no fat of a known composition: there is nothing to say


def _portion_superfats(formula: Formula, facts: Facts, made: Amounts) -> PortionSuperfats:
    whole_oil = _oil(facts, made, ALL)
    base = [science_fat(fat.material, fat.mass_g, facts) for fat in made.fats]
    portions = [
        BatterPortion(letter, share, _oil(facts, made, letter), _acids(facts, made, letter))
        for letter, share in portion_shares(formula).items()
    ]
    alkali = science_alkali(formula, facts)
    return portion_superfats([*base, *whole_oil], made.alkali_mass, alkali, portions, _acids(facts, made, ALL))


def _oil(facts: Facts, made: Amounts, portion: str) -> tuple[Fat, ...]:
    carried = [one for one in made.carriers if one.portion == portion and one.basis == "fat"]
    return tuple(science_fat(one.material, one.mass_g, facts) for one in carried)


def _acids(facts: Facts, made: Amounts, portion: str) -> tuple[Acid, ...]:
    there = [one for one in made.additives if one.portion == portion]
    found = (science_acid(one.material, one.mass_g, facts) for one in there)
    return tuple(acid for acid in found if acid)


def sum_findings(formula: Formula, facts: Facts, sums: Sums, resolution_g: float, mould: Mould | None) -> Findings:
    """Yield what the numbers mean, in plain sentences."""
    yield from _superfat(sums.superfat, sums.portions)
    for note in careful_notes(science_fats(sums.made.fat_masses, facts)):
        yield attention("careful", note, "fats")
    yield from _scale(sums.made, resolution_g)
    yield from _lye(sums.lye_share)
    yield from _hardness(sums.liquid_share)
    for sentence in sentences(sums.profile) if sums.profile else ():
        yield good("profile", sentence, "fats")
    yield from _mould(formula, sums, mould)


def _superfat(superfat: SuperfatInterval, portions: PortionSuperfats) -> Findings:
    central = f"The superfat is {100 * superfat.central:.1f} %"
    span = f"between {100 * superfat.low:.1f} and {100 * superfat.high:.1f} %"
    if superfat.is_lye_heavy:
        yield stop("lye-heavy", f"{central}: lye-heavy. Ask for more superfat, or use a finer scale.", "alkali")
    elif superfat.lye_heavy_possible:
        sentence = f"{central}, but it may lie {span}: an unlucky batch would be lye-heavy."
        yield attention("may-be-lye-heavy", f"{sentence} {superfat.narrowing_advice()}", "alkali")
    else:
        most = f" Most of the doubt is {superfat.weighs_most}." if superfat.weighs_most else ""
        yield good("superfat", f"{central}; 95 in 100 batches lie {span}.{most}", "alkali")
    if superfat.central > HIGH_SUPERFAT:
        yield attention(
            "much-superfat", "So much fat left over lathers less and spoils sooner (common practice).", "alkali"
        )
    yield from _spread(portions, superfat)


def _spread(portions: PortionSuperfats, superfat: SuperfatInterval) -> Findings:
    if portions.lowest < 0 <= superfat.central:
        yield stop("portion-lye-heavy", portions.sentence, "additives")
    elif superfat.central - portions.lowest > 0.005:
        yield attention("portion-superfat", portions.sentence, "additives")


def _scale(made: Amounts, resolution_g: float) -> Findings:
    if scale_too_coarse(resolution_g, made.alkali_mass.total_g):
        sentence = f"One step of {resolution_g:g} g is much for {made.alkali_mass.total_g:g} g of alkali."
        yield attention("coarse-scale", f"{sentence} Use a finer scale, or make a bigger batch.", "size")
    least = smallest_sensible_g(resolution_g)
    small = [line for line in made.additives if line.mass_g < least]
    if small:
        names = ", ".join(f"{line.name} ({line.mass_g:g} g)" for line in small)
        sentence = f"Too little for a scale of {resolution_g:g} g steps: {names}."
        yield attention("small-doses", f"{sentence} Weigh it on a finer scale.", "additives")


def _lye(share: float) -> Findings:
    sentence = f"The lye is {100 * share:.0f} % strong, {water_to_alkali(share):.2g} g of water for 1 g of alkali."
    if share > STRONG_LYE:
        yield attention("strong-lye", f"{sentence} It gets hot, and the batter thickens soon.", "water")
    elif share < WEAK_LYE:
        yield attention("weak-lye", f"{sentence} The batter is slow, and the bars shrink while they dry.", "water")
    else:
        yield good("lye", sentence, "water")


def _hardness(liquid: float) -> Findings:
    sentence = f"{100 * liquid:.0f} % of the fats are liquid at 20 °C, {100 * (1 - liquid):.0f} % soft or solid."
    if liquid > MUCH_LIQUID:
        yield attention("liquid-fats", f"{sentence} The loaf stays soft for long: unmould it late.", "fats")
    elif liquid < LITTLE_LIQUID:
        sentence += " It sets soon: mix warm enough that nothing goes solid in the pot, and cut early."
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
