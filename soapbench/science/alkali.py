"""The alkali that fats and acids take, and the superfat that a weighed alkali leaves."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from .atoms import KOH, NAOH
from .errors import SMALLEST, OutOfRange, chosen, fraction, not_negative, number
from .fats import Fat, careful_note, careful_notes
from .sources import COMMON_PRACTICE, OWN_CHOICE, STOICHIOMETRY, Constant, Relation, Source
from .words import say

__all__ = [
    "Acid",
    "Alkali",
    "AlkaliMass",
    "Fat",
    "acid_mol",
    "alkali_for",
    "alkali_mixture",
    "careful_mol",
    "careful_note",
    "careful_notes",
    "demand_mol",
    "excess_alkali_g",
    "full_demand_naoh_g",
    "pure_equivalents",
    "superfat_of",
]

_SV = Source(
    "iso-3657",
    "ISO 3657 and AOCS Cd 3-25, saponification value",
    "definition: mg of KOH that saponify 1 g of fat",
    "published",
)

KOH_PURITY = Constant(
    "share of KOH in commercial flakes when the label is silent",
    "P(KOH)",
    0.90,
    "g/g",
    COMMON_PRACTICE,
    "alkali mixture",
)
HIGHEST_SUPERFAT = Constant(
    "highest superfat that a recipe may ask for",
    "f max",
    0.50,
    "share",
    OWN_CHOICE,
    "refusal of slips such as 5 for 5 %",
    why="No bar is half fat. 5 typed for 5 % must not pass.",
)


@dataclass(frozen=True, slots=True)
class Acid:
    """A mass of an acid and the alkali that one gram of it takes, in mg of KOH per g.

    Raises:
        OutOfRange: a negative mass or a negative demand.
    """

    name: str
    mass_g: float
    koh_mg_per_g: float

    def __post_init__(self) -> None:
        not_negative(self.mass_g, "The mass of {name}", name=self.name)
        not_negative(self.koh_mg_per_g, "The alkali taken by {name}", "mg KOH/g", name=self.name)

    @property
    def mol(self) -> float:
        """Return the moles of alkali that this mass takes."""
        return self.mass_g * self.koh_mg_per_g / 1000 / KOH


@dataclass(frozen=True, slots=True)
class Alkali:
    """Which alkali: the share of NaOH in the pure mixture (by mass or by mole) and the purity of each jar.

    Raises:
        OutOfRange: a share outside 0 to 1, or a purity that is not above 0 and at most 1.
    """

    naoh_share: float = 1.0
    naoh_purity: float = 1.0
    koh_purity: float = KOH_PURITY.value
    shares_by: Literal["mass", "mole"] = "mole"
    naoh_assayed: bool = False  # the purity is from the paper of the very jar
    koh_assayed: bool = False

    def __post_init__(self) -> None:
        fraction(self.naoh_share, "The share of sodium hydroxide")
        for purity, name in ((self.naoh_purity, "sodium"), (self.koh_purity, "potassium")):
            if fraction(purity, f"The purity of the {name} hydroxide") < SMALLEST:
                raise OutOfRange(
                    say("The purity of the {name} hydroxide cannot be 0 %. Read it on the jar.", name=say(name))
                )

        chosen(self.shares_by, ("mass", "mole"), "a way to share two alkalis")

    @property
    def naoh_mole_share(self) -> float:
        """Return the share of NaOH in the mixture by mole, however the shares were given."""
        if self.shares_by == "mole":
            return self.naoh_share
        naoh, koh = self.naoh_share / NAOH, (1 - self.naoh_share) / KOH
        return naoh / (naoh + koh)


@dataclass(frozen=True, slots=True)
class AlkaliMass:
    """Grams of each alkali as they lie on the scale, impurities included.

    Raises:
        OutOfRange: a negative mass.
    """

    naoh_g: float
    koh_g: float = 0.0

    def __post_init__(self) -> None:
        not_negative(self.naoh_g, "The sodium hydroxide")
        not_negative(self.koh_g, "The potassium hydroxide")

    @property
    def total_g(self) -> float:
        """Return both masses together, g."""
        return self.naoh_g + self.koh_g


def acid_mol(acids: Iterable[Acid]) -> float:
    """Return the moles of alkali that the added acids take, all of it: free acid reacts before any fat.

    Source: mole balance, one alkali for each acid group.
    """
    return sum(acid.mol for acid in acids)


def demand_mol(fats: Iterable[Fat], acids: Iterable[Acid] = ()) -> float:
    """Return the moles of alkali that fats and acids take together, central values.

    Source: definition of the saponification value, ISO 3657.
    """
    return sum(fat.mol for fat in fats) + acid_mol(acids)


def careful_mol(fats: Iterable[Fat]) -> float:
    """Return the moles of alkali that the fats take, wide ranges counted on their careful side.

    Source: ISO 3657 for the value; the careful side is an own choice, explained beside WIDE and QUARTILE.
    """
    return sum(fat.mass_g * fat.sv_for_alkali for fat in fats) / 1000 / KOH


def full_demand_naoh_g(fats: Iterable[Fat]) -> float:
    """Return the A of the bench sums: grams of pure NaOH that the fats take in full, central values.

    Source: definition of the saponification value, ISO 3657.
    """
    return demand_mol(fats) * NAOH


def alkali_mixture(mol: float, alkali: Alkali) -> AlkaliMass:
    """Return the grams to weigh, impurities included, that hold this many moles of pure alkali.

    Raises:
        OutOfRange: a negative amount.

    Source: mole balance with CIAAW 2021 weights.
    """
    not_negative(mol, "The amount of alkali", "mol")
    naoh = mol * alkali.naoh_mole_share
    return AlkaliMass(naoh * NAOH / alkali.naoh_purity, (mol - naoh) * KOH / alkali.koh_purity)


def alkali_for(fats: Sequence[Fat], superfat: float, alkali: Alkali, acids: Iterable[Acid] = ()) -> AlkaliMass:
    """Return the grams of alkali to weigh so that this share of the fat finds no alkali.

    This is superfat by alkali discount. Fats of a wide range count on their careful side, acids in full:
    moles = (1 - superfat) x sum(mass x SV / 1000 / 56.105) + moles for the acids; grams = moles x M / purity.

    Raises:
        OutOfRange: the superfat is below 0 or above 50 %, or there is no fat.

    Source: definition of the saponification value, ISO 3657; mole balance.
    """
    check_superfat(superfat)
    fat_mol = careful_mol(fats)
    if fat_mol <= 0:
        raise OutOfRange(say("There is no fat here that takes alkali. Weigh the fats first."))
    return alkali_mixture((1 - superfat) * fat_mol + acid_mol(acids), alkali)


def check_superfat(superfat: float) -> float:
    """Return the superfat, a fraction, when a recipe may ask for it.

    Raises:
        OutOfRange: below 0 (free alkali), or above the highest that makes sense.

    Source: own choice, beside HIGHEST_SUPERFAT.
    """
    number(superfat, "The superfat")
    if superfat < 0:
        raise OutOfRange(say("A superfat below 0 % leaves free alkali in the bar. Choose 0 % or more."))
    if superfat > HIGHEST_SUPERFAT.value:
        raise OutOfRange(
            say(
                "A superfat of {superfat:g} % is more than half of the fat. Choose 50 % or less.",
                superfat=100 * superfat,
            )
        )
    return superfat


def pure_equivalents(weighed: AlkaliMass, alkali: Alkali) -> float:
    """Return the moles of pure alkali in the masses as weighed.

    Source: mole balance with CIAAW 2021 weights.
    """
    return weighed.naoh_g * alkali.naoh_purity / NAOH + weighed.koh_g * alkali.koh_purity / KOH


def superfat_of(fats: Sequence[Fat], weighed: AlkaliMass, alkali: Alkali, acids: Iterable[Acid] = ()) -> float:
    """Return the superfat as a fraction, central values; below zero the batch is lye-heavy.

    f = 1 - (moles of pure alkali - moles for the acids) / moles for the fats: acids take their alkali first.

    Raises:
        OutOfRange: there is no fat that takes alkali.

    Source: mole balance.
    """
    fat_mol = demand_mol(fats)
    if fat_mol <= 0:
        raise OutOfRange(say("There is no fat here that takes alkali, so there is no superfat to work out."))
    return 1 - (pure_equivalents(weighed, alkali) - acid_mol(acids)) / fat_mol


def excess_alkali_g(fats: Sequence[Fat], weighed: AlkaliMass, alkali: Alkali, acids: Iterable[Acid] = ()) -> float:
    """Return the grams of pure NaOH (or its equal) that find neither fat nor acid; negative when fat is left over.

    Source: mole balance.
    """
    return (pure_equivalents(weighed, alkali) - demand_mol(fats, acids)) * NAOH


CONSTANTS = (KOH_PURITY, HIGHEST_SUPERFAT)
_AT = "soapbench.science.alkali."
RELATIONS = (
    Relation(
        "alkali taken by the acids", "n = sum of mass x demand / 1000 / M(KOH)", "mol", STOICHIOMETRY, _AT + "acid_mol"
    ),
    Relation("alkali demand", "n = sum of mass x SV / 1000 / M(KOH) + acids", "mol", _SV, _AT + "demand_mol"),
    Relation(
        "alkali demand, careful side",
        "n = sum of mass x careful SV / 1000 / M(KOH)",
        "mol",
        OWN_CHOICE,
        _AT + "careful_mol",
    ),
    Relation("full demand as NaOH", "A = n x M(NaOH)", "g", _SV, _AT + "full_demand_naoh_g"),
    Relation(
        "mixture of two alkalis",
        "NaOH = n x share x M(NaOH) / P; KOH = n x (1 - share) x M(KOH) / P",
        "g",
        STOICHIOMETRY,
        _AT + "alkali_mixture",
    ),
    Relation("alkali to weigh", "n = (1 - f) x fats + acids; grams = n x M / P", "g", _SV, _AT + "alkali_for"),
    Relation("superfat that a recipe may ask for", "0 to 0.5", "share", OWN_CHOICE, _AT + "check_superfat"),
    Relation(
        "pure alkali in what was weighed",
        "n = NaOH x P / M(NaOH) + KOH x P / M(KOH)",
        "mol",
        STOICHIOMETRY,
        _AT + "pure_equivalents",
    ),
    Relation(
        "superfat that we really have",
        "f = 1 - (n alkali - n acids) / n fats",
        "share",
        STOICHIOMETRY,
        _AT + "superfat_of",
    ),
    Relation(
        "excess alkali", "E = (n alkali - n acids - n fats) x M(NaOH)", "g NaOH", STOICHIOMETRY, _AT + "excess_alkali_g"
    ),
)
