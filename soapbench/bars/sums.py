"""The numbers of a batch: superfat and how sure it is, portion by portion, lye, fatty acids, room in the mould."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bars.amounts import ALL, Amounts, science_alkali, science_fats
from soapbench.bars.formula import Formula
from soapbench.bars.sizing import poured_ml
from soapbench.bars.to_science import Facts, portion_shares, science_acid, science_fat
from soapbench.science.alkali import Acid, Alkali, Fat
from soapbench.science.errors import OutOfRange
from soapbench.science.interval import Interval
from soapbench.science.lye import concentration
from soapbench.science.mould import POT_LOSS, Mould, MouldFit, fits
from soapbench.science.portions import Portion as BatterPortion
from soapbench.science.portions import PortionSuperfats, portion_interval, portion_superfats
from soapbench.science.profile import FatProfile, Profile, profile_of
from soapbench.science.profile_check import PublishedFat, compare_values
from soapbench.science.profile_words import Comparison
from soapbench.science.superfat import SuperfatInterval, Weighing, scale_step_in_superfat, superfat_interval
from soapbench.science.ways import excess_fat_from_superfat, two_ways
from soapbench.shelf.facts import MaterialFacts

NEARLY_EQUAL = 0.0005  # superfats closer than this are the same on the screen
HARDLY = 0.0005  # a doubt below this is not worth a line


@dataclass(frozen=True)
class Sums:
    """The numbers behind the sentences."""

    made: Amounts
    asked: float  # the superfat that the formula asks for, by alkali discount
    superfat: SuperfatInterval
    portions: PortionSuperfats
    portion_intervals: dict[str, SuperfatInterval]  # by letter
    step: float  # what one step of the scale on the alkali is worth in superfat, a fraction
    profile: Profile | None
    comparisons: tuple[Comparison, ...]  # calculated values against published ones, of the blend
    liquid_share: float  # of the fats, by mass: those liquid at 20 °C
    lye_share: float  # alkali in all of the lye, mass fraction
    fit: MouldFit | None
    loss_g: float = POT_LOSS.value  # batter that stays in pots and cups

    @property
    def percent(self) -> dict[str, float]:
        """Return superfat, its interval, both ways to name it and the strength of the lye, in per cent."""
        superfat = self.superfat
        shares = {
            "superfat": superfat.central,
            "low": superfat.low,
            "high": superfat.high,
            "asked": self.asked,
            "excess": excess_fat_from_superfat(self.asked),
            "lye": self.lye_share,
            "step": self.step,
        }
        return {name: 100 * share for name, share in shares.items()}

    @property
    def ways(self) -> str:
        """Return both ways to name the superfat that was asked for, in full."""
        return two_ways(self.asked)

    @property
    def doubts(self) -> tuple[tuple[str, float], ...]:
        """Return what makes the superfat doubtful and by how many points each alone, largest first."""
        found = self.superfat.contributions
        return tuple((one.name, 100 * one.points) for one in found if one.points >= HARDLY)

    @property
    def spread(self) -> tuple[tuple[str, float, float, float], ...]:
        """Return letter, superfat and its ends in per cent of each portion, where the portions differ."""
        centrals = [one.central for one in self.portion_intervals.values()]
        if len(centrals) < 2 or max(centrals) - min(centrals) < NEARLY_EQUAL:
            return ()
        found = self.portion_intervals.items()
        return tuple((letter, 100 * one.central, 100 * one.low, 100 * one.high) for letter, one in found)

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
    pot = _Pot.of(formula, facts, made, alkali)
    return Sums(
        made=made,
        asked=formula.superfat,
        superfat=superfat_interval(fats, made.alkali_mass, alkali, made.acids, scale),
        portions=portion_superfats(pot.fats, made.alkali_mass, alkali, pot.portions, pot.acids),
        portion_intervals=pot.intervals(scale),
        step=scale_step_in_superfat(resolution_g, fats, alkali),
        profile=_profile(facts, made),
        comparisons=_comparisons(facts, made),
        liquid_share=_liquid_g(facts, made) / made.fats_g,
        lye_share=concentration(made.alkali_mass.total_g, made.water_g),
        fit=fits(mould, poured_ml(made, loss_g)) if mould else None,
        loss_g=loss_g,
    )


@dataclass(frozen=True)
class _Pot:
    """What the lye meets, and what each portion gets by itself: oil of a slurry, or kept back, and acids."""

    made: Amounts
    alkali: Alkali
    fats: tuple[Fat, ...]
    acids: tuple[Acid, ...]
    portions: tuple[BatterPortion, ...]

    @classmethod
    def of(cls, formula: Formula, facts: Facts, made: Amounts, alkali: Alkali) -> _Pot:
        base = tuple(science_fat(fat.material, fat.mass_g, facts) for fat in made.fats)
        portions = (
            BatterPortion(letter, share, _oil(facts, made, letter), _acids(facts, made, letter))
            for letter, share in portion_shares(formula).items()
        )
        return cls(made, alkali, (*base, *_oil(facts, made, ALL)), _acids(facts, made, ALL), tuple(portions))

    def intervals(self, scale: Weighing) -> dict[str, SuperfatInterval]:
        """Return the 95 % interval of each portion's superfat by its letter."""
        weighed = self.made.alkali_mass
        return {
            portion.letter: portion_interval(self.fats, weighed, self.alkali, portion, self.acids, scale)
            for portion in self.portions
        }


def _oil(facts: Facts, made: Amounts, portion: str) -> tuple[Fat, ...]:
    carried = [one for one in made.carriers if one.portion == portion and one.basis == "fat"]
    return tuple(science_fat(one.material, one.mass_g, facts) for one in carried)


def _acids(facts: Facts, made: Amounts, portion: str) -> tuple[Acid, ...]:
    there = [one for one in made.additives if one.portion == portion]
    found = (science_acid(one.material, one.mass_g, facts) for one in there)
    return tuple(acid for acid in found if acid)


def _liquid_g(facts: Facts, made: Amounts) -> float:
    return sum(mass for key, mass in made.fat_masses.items() if facts[key].state == "liquid")


def _profile(facts: Facts, made: Amounts) -> Profile | None:
    try:
        return profile_of([_fat_profile(facts[key], fat) for key, fat in _blend(facts, made)])
    except OutOfRange:
        return None  # no fat of a known composition: there is nothing to say


def _comparisons(facts: Facts, made: Amounts) -> tuple[Comparison, ...]:
    """Return how the blend's calculated values stand to the published ranges of its fats, mixed as they are."""
    try:
        return compare_values([_published(facts[key], fat) for key, fat in _blend(facts, made)])
    except OutOfRange:
        return ()


def _blend(facts: Facts, made: Amounts) -> list[tuple[str, Fat]]:
    masses = made.fat_masses
    return list(zip(masses, science_fats(masses, facts), strict=True))


def _fat_profile(fact: MaterialFacts, fat: Fat) -> FatProfile:
    return FatProfile(fat.name, fat.mass_g, fact.fatty_acids or {}, fat.kind)


def _published(fact: MaterialFacts, fat: Fat) -> PublishedFat:
    iodine = (fact.iodine_low, fact.iodine_high) if fact.iodine_high else None
    return PublishedFat(_fat_profile(fact, fat), (fat.sv_low, fat.sv_high), iodine)
