"""How sure the superfat is, what weighs most in the doubt, and what would narrow it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import exp, sqrt

from .alkali import Acid, Alkali, AlkaliMass, acid_mol, demand_mol, pure_equivalents
from .atoms import KOH, NAOH
from .errors import OutOfRange, fraction, positive
from .fats import Fat
from .scale import Weighing, weighing_limit, weighing_u
from .sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source
from .words import mark, say

__all__ = [
    "Contribution",
    "SuperfatInterval",
    "Weighing",
    "scale_step_in_superfat",
    "superfat_interval",
    "weighing_limit",
    "weighing_u",
]

_GUM = Source(
    "gum-431",
    "Evaluation of measurement data, JCGM 100:2008 (GUM)",
    "4.3.7 limits without a known shape are taken as rectangular; 5.1.2 and 5.2.2 propagation; from memory",
    "from memory",
)

COVERAGE = Constant("standard deviations to a 95 % interval", "k", 1.96, "", _GUM, "superfat interval")
OWN_VALUE_HALF_WIDTH = Constant(
    "doubt left by a certificate's saponification value",
    "h",
    1.0,
    "mg KOH/g",
    OWN_CHOICE,
    "superfat interval",
    why="Certificates are rounded to whole numbers, and two laboratories seldom agree better.",
)
SINGLE_SAMPLE_HALF_WIDTH = Constant(
    "half-width given to a value that was published for one sample only",
    "h1",
    0.03,
    "share of the value",
    OWN_CHOICE,
    "superfat interval",
    why="The middle one among the half-widths of the Codex ranges of named vegetable oils.",
)
PURITY_HALF_WIDTH = Constant(
    "doubt in the purity of an alkali", "h", 0.01, "g/g", COMMON_PRACTICE, "superfat interval: 98 ± 1 % on labels"
)
ASSAY_HALF_WIDTH = Constant(
    "doubt in the purity on the paper of the very jar",
    "h",
    0.003,
    "g/g",
    OWN_CHOICE,
    "superfat interval",
    "An assay is printed to a tenth of a per cent; the rest is what the jar takes up once it is open.",
)
KITCHEN_STEP = Constant("step of the scale when none is named", "d", 1.0, "g", COMMON_PRACTICE, "superfat interval")
WAX_ADVICE = mark("Leave the wax out, or take it as not reacting at all.")


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one doubt alone does to the superfat: one standard deviation, and the farthest it can go, as fractions."""

    name: str
    points: float
    limit: float = 0.0
    kind: str = ""


@dataclass(frozen=True, slots=True)
class SuperfatInterval:
    """The superfat as a fraction with the ends of its 95 % interval, and the doubts that make it, largest first."""

    low: float
    central: float
    high: float
    contributions: tuple[Contribution, ...] = ()

    @property
    def lye_heavy_possible(self) -> bool:
        """Return whether the unlucky end is below zero."""
        return self.low < 0

    @property
    def is_lye_heavy(self) -> bool:
        """Return whether the central value is below zero."""
        return self.central < 0

    @property
    def width(self) -> float:
        """Return high less low, a fraction."""
        return self.high - self.low

    @property
    def weighs_most(self) -> str:
        """Return the name of the largest doubt, or an empty text when there is none."""
        return self.contributions[0].name if self.contributions else ""

    def contains(self, superfat: float) -> bool:
        """Return whether the superfat, a fraction, lies inside, ends included."""
        return self.low <= superfat <= self.high

    def narrowing_advice(self) -> str:
        """Return the sentence that says what to do about the largest doubt, and about an unlucky end below zero."""
        if not self.contributions:
            return say("Nothing is left in doubt.")
        largest = self.contributions[0]
        sentence = say(
            "Most of the doubt is {name} (± {points:.1f} points). {advice}",
            name=largest.name,
            points=100 * largest.points,
            advice=say(_ADVICE[largest.kind]),
        )
        if self.lye_heavy_possible:
            sentence += " " + say(
                "Or ask for {low} more superfat, so that the unlucky end stays above 0 %.", low=_points(-self.low)
            )
        return sentence


_ADVICE = {
    "fat": mark("Ask the supplier for the saponification value of your lot and enter it."),
    "wax": WAX_ADVICE,
    "purity": mark("Read the assay on the certificate of your alkali and enter it."),
    "assayed": mark("No paper says more: keep the jar dry and closed, and use it up soon."),
    "alkali scale": mark("Weigh the alkali on a finer scale, or make a bigger batch."),
    "fat scale": mark("Weigh the fats on a finer scale, or make a bigger batch."),
}


def _points(share: float) -> str:
    return say("{share:.1f} points", share=max(100 * share, 0.1))


def superfat_interval(
    fats: Sequence[Fat],
    weighed: AlkaliMass,
    alkali: Alkali,
    acids: Iterable[Acid] = (),
    scale: Weighing | None = None,
    alkali_scale: Weighing | None = None,
    purity_half_width: float = PURITY_HALF_WIDTH.value,
) -> SuperfatInterval:
    """Return the 95 % interval of the superfat for what was weighed.

    Assumptions: a published range, a purity and a scale's permissible error are rectangular (any value inside is as
    likely as another); rows of one fat and one lot move together, different fats and lots independently; the acids
    are exact; a purity from the paper of the very jar is doubted less. Without a scale, one of 1 g is taken; without
    an alkali scale, the same scale serves.
    Propagation to first order on the ratio alkali / fat, never wider than all doubts at their limits together.

    Raises:
        OutOfRange: no fat that takes alkali, or a purity half-width outside 0 to 1.

    Source: GUM (JCGM 100:2008), from memory; checked against Monte Carlo in the tests.
    """
    fraction(purity_half_width, "The doubt in the purity")
    fat_mol = demand_mol(fats)
    if fat_mol <= 0:
        raise OutOfRange(say("There is no fat here that takes alkali, so there is no superfat to work out."))
    acids = tuple(acids)
    ratio = (pure_equivalents(weighed, alkali) - acid_mol(acids)) / fat_mol
    scale = scale or Weighing(KITCHEN_STEP.value)
    found = [
        *_purity_doubts(weighed, alkali, purity_half_width, fat_mol),
        *_alkali_scale_doubts(weighed, alkali, alkali_scale or scale, fat_mol),
        *_value_doubts(fats, ratio, fat_mol),
        _fat_scale_doubt(fats, scale, ratio, fat_mol),
    ]
    contributions = sorted((one for one in found if one.points > 0), key=lambda one: -one.points)
    return _interval(ratio, tuple(contributions))


def _interval(ratio: float, contributions: tuple[Contribution, ...]) -> SuperfatInterval:
    # The ratio is a product of doubtful factors: its ends lie a factor apart, not a difference, unless the doubt is
    # larger than the ratio itself, as with next to no alkali.
    u = sqrt(sum(one.points**2 for one in contributions))
    farthest = sum(one.limit for one in contributions)
    half = min(COVERAGE.value * u, farthest)
    if ratio <= half:
        return SuperfatInterval(1 - ratio - half, 1 - ratio, 1 - ratio + half, contributions)
    factor = exp(half / ratio)
    return SuperfatInterval(1 - ratio * factor, 1 - ratio, 1 - ratio / factor, contributions)


def _rectangular(name: str, half_width: float, kind: str) -> Contribution:
    return Contribution(name, half_width / sqrt(3), half_width, kind)


def _purity_doubts(weighed: AlkaliMass, alkali: Alkali, half_width: float, fat_mol: float) -> list[Contribution]:
    jars = (
        ("sodium", weighed.naoh_g / NAOH, alkali.naoh_assayed),
        ("potassium", weighed.koh_g / KOH, alkali.koh_assayed),
    )
    assayed = min(half_width, ASSAY_HALF_WIDTH.value)
    return [
        _rectangular(
            say("the purity of the {name} hydroxide", name=say(name)),
            mol / fat_mol * (assayed if is_known else half_width),
            "assayed" if is_known else "purity",
        )
        for name, mol, is_known in jars
    ]


def _alkali_scale_doubts(weighed: AlkaliMass, alkali: Alkali, scale: Weighing, fat_mol: float) -> list[Contribution]:
    u, limit = weighing_u(scale), weighing_limit(scale)
    jars = (
        ("sodium", weighed.naoh_g, alkali.naoh_purity / NAOH / fat_mol),
        ("potassium", weighed.koh_g, alkali.koh_purity / KOH / fat_mol),
    )
    return [
        Contribution(
            say("the weighing of the {name} hydroxide", name=say(name)), u * slope, limit * slope, "alkali scale"
        )
        for name, mass, slope in jars
        if mass > 0
    ]


def _value_doubts(fats: Sequence[Fat], ratio: float, fat_mol: float) -> list[Contribution]:
    # One lot of one fat is one unknown value, however many rows it was split into: its rows add up first.
    lots: dict[tuple[str, str], float] = defaultdict(float)
    waxes = {fat.name for fat in fats if fat.kind == "wax ester"}
    for fat in fats:
        lots[fat.name, fat.lot] += fat.mass_g * value_half_width(fat) / 1000 / KOH
    return [
        _rectangular(
            say("the saponification value of {name}", name=name), abs(ratio) * mol / fat_mol, _kind_of(name, waxes)
        )
        for (name, _), mol in lots.items()
    ]


def _kind_of(name: str, waxes: set[str]) -> str:
    return "wax" if name in waxes else "fat"


def value_half_width(fat: Fat) -> float:
    """Return half the width of what is not known of a fat's saponification value, mg KOH/g.

    Half of the range at the bench; for a certificate's value 1 mg KOH/g; for one published sample 3 % of it.
    Source: the last two are own choices, explained beside their constants.
    """
    low, high = fat.sv_range
    if high > low or fat.kind == "unsaponifiable":
        return (high - low) / 2
    return SINGLE_SAMPLE_HALF_WIDTH.value * high if fat.sv_own is None else OWN_VALUE_HALF_WIDTH.value


def _fat_scale_doubt(fats: Sequence[Fat], scale: Weighing, ratio: float, fat_mol: float) -> Contribution:
    slopes = [abs(ratio) * fat.sv_central / 1000 / KOH / fat_mol for fat in fats if fat.mass_g > 0]
    u = weighing_u(scale) * sqrt(sum(slope**2 for slope in slopes))
    return Contribution(say("the weighing of the fats"), u, weighing_limit(scale) * sum(slopes), "fat scale")


def scale_step_in_superfat(resolution_g: float, fats: Sequence[Fat], alkali: Alkali) -> float:
    """Return how much superfat, as a fraction, one scale step on the alkali is worth.

    Raises:
        OutOfRange: a step that is not above 0, or no fat that takes alkali.

    Source: mole balance; f = 1 - p N / A, so df = p d / A.
    """
    positive(resolution_g, "The step of the scale")
    fat_mol = demand_mol(fats)
    if fat_mol <= 0:
        raise OutOfRange(say("There is no fat here that takes alkali. Weigh the fats first."))
    share = alkali.naoh_mole_share
    grams_per_mol = share * NAOH / alkali.naoh_purity + (1 - share) * KOH / alkali.koh_purity
    return resolution_g / grams_per_mol / fat_mol


CONSTANTS = (
    COVERAGE,
    OWN_VALUE_HALF_WIDTH,
    SINGLE_SAMPLE_HALF_WIDTH,
    PURITY_HALF_WIDTH,
    ASSAY_HALF_WIDTH,
    KITCHEN_STEP,
)
_AT = "soapbench.science.superfat."
RELATIONS = (
    Relation(
        "superfat interval",
        "r = alkali / fat; ends 1 - r exp(+- 1.96 u(r)/r); u^2 = sum of contributions^2",
        "share",
        _GUM,
        _AT + "superfat_interval",
    ),
    Relation(
        "what is not known of a saponification value",
        "half of the range; 1 mg KOH/g with a certificate",
        "mg KOH/g",
        OWN_CHOICE,
        _AT + "value_half_width",
    ),
    Relation("one scale step in superfat", "df = P d / A", "share", _GUM, _AT + "scale_step_in_superfat"),
)
