"""Acids that take alkali in the pot, and the salts that they become there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from .alkali import Acid
from .atoms import HYDROGEN, KOH, POTASSIUM, SODIUM, molar_mass
from .errors import SMALLEST, OutOfRange, chosen, fraction, not_negative
from .sources import STOICHIOMETRY, Constant, Relation
from .words import say

CitricForm = Literal["anhydrous", "monohydrate"]


@dataclass(frozen=True, slots=True)
class AcidKind:
    """One acid: its molar mass without crystal water, g/mol, its crystal water, g/mol, and its acid groups."""

    name: str
    molar_mass: float
    groups: int
    crystal_water: float = 0.0

    @property
    def koh_mg_per_g(self) -> float:
        """Return the mg of KOH that one gram takes, crystal water included."""
        return self.groups * KOH * 1000 / (self.molar_mass + self.crystal_water)


ACIDS: dict[str, AcidKind] = {
    "citric anhydrous": AcidKind("citric acid, anhydrous", molar_mass(c=6, h=8, o=7), 3),
    "citric monohydrate": AcidKind("citric acid monohydrate", molar_mass(c=6, h=8, o=7), 3, molar_mass(h=2, o=1)),
    "lactic": AcidKind("lactic acid", molar_mass(c=3, h=6, o=3), 1),
    "acetic": AcidKind("acetic acid", molar_mass(c=2, h=4, o=2), 1),
    "stearic": AcidKind("stearic acid", molar_mass(c=18, h=36, o=2), 1),
    "palmitic": AcidKind("palmitic acid", molar_mass(c=16, h=32, o=2), 1),
    "myristic": AcidKind("myristic acid", molar_mass(c=14, h=28, o=2), 1),
    "lauric": AcidKind("lauric acid", molar_mass(c=12, h=24, o=2), 1),
    "oleic": AcidKind("oleic acid", molar_mass(c=18, h=34, o=2), 1),
    "ricinoleic": AcidKind("ricinoleic acid", molar_mass(c=18, h=34, o=3), 1),
}


def acid_of(kind: str, mass_g: float, strength: float = 1.0) -> Acid:
    """Return the acid with the alkali that it takes; a solution counts by its strength, a fraction by mass.

    Vinegar is a dilute solution of acetic acid, and lactic acid is sold as one: read the strength on the label.

    Raises:
        OutOfRange: an acid that is not in ACIDS, a negative mass, or a strength outside 0 to 1.

    Source: mole balance with CIAAW 2021 weights, one alkali for each acid group.
    """
    known = _known(kind)
    return Acid(
        known.name, mass_g, known.koh_mg_per_g * fraction(strength, "The strength of the {name}", name=known.name)
    )


def citric_acid(mass_g: float, form: CitricForm | None) -> Acid:
    """Return citric acid of the form in the jar: anhydrous takes 9 % more alkali than the monohydrate.

    Raises:
        OutOfRange: the form is not told, or unknown; a negative mass.

    Source: mole balance with CIAAW 2021 weights, three acid groups.
    """
    if form not in ("anhydrous", "monohydrate"):
        raise OutOfRange(
            say("Is the citric acid anhydrous or monohydrate? Read it on the jar; the alkali differs by 9 %.")
        )
    return acid_of(say("citric {form}", form=form), mass_g)


def salt_made_g(kind: str, mass_g: float, strength: float = 1.0, naoh_mole_share: float = 1.0) -> float:
    """Return the grams of dry salt that the acid becomes: sodium citrate, sodium lactate, sodium acetate or a soap.

    With both alkalis in the pot the salt is shared between sodium and potassium as the alkali is.

    Raises:
        OutOfRange: an unknown acid, a negative mass, or a share outside 0 to 1.

    Source: each acid group gives up H (1.008) for Na (22.990) or K (39.098), CIAAW 2021.
    """
    known = _known(kind)
    moles = not_negative(mass_g, "The {name}", name=known.name) * fraction(strength, "The strength")
    moles /= known.molar_mass + known.crystal_water
    return moles * _salt_mass(known, naoh_mole_share)


def acid_for_salt_g(kind: str, salt_g: float, strength: float = 1.0, naoh_mole_share: float = 1.0) -> float:
    """Return the grams of acid, or of its solution, that become this much dry salt in the pot.

    Raises:
        OutOfRange: an unknown acid, a negative mass, a strength of 0, or a share outside 0 to 1.

    Source: as salt_made_g, turned round.
    """
    known = _known(kind)
    if fraction(strength, "The strength") < SMALLEST:
        raise OutOfRange(say("A solution of 0 % holds no acid. Read its strength on the label."))
    moles = not_negative(salt_g, "The salt") / _salt_mass(known, naoh_mole_share)
    return moles * (known.molar_mass + known.crystal_water) / strength


def _known(kind: str) -> AcidKind:
    return ACIDS[chosen(kind, ACIDS, "an acid known here")]


def _salt_mass(known: AcidKind, naoh_mole_share: float) -> float:
    share = fraction(naoh_mole_share, "The share of sodium hydroxide")
    metal = share * SODIUM.value + (1 - share) * POTASSIUM.value
    return known.molar_mass + known.groups * (metal - HYDROGEN.value)


CONSTANTS = tuple(
    Constant(f"alkali taken by {kind.name}", "", kind.koh_mg_per_g, "mg KOH/g", STOICHIOMETRY, "acid_of")
    for kind in ACIDS.values()
)
_AT = "soapbench.science.acids."
RELATIONS = (
    Relation(
        "alkali taken by an acid",
        "mg KOH/g = groups x M(KOH) x 1000 / M(acid)",
        "mg KOH/g",
        STOICHIOMETRY,
        _AT + "acid_of",
    ),
    Relation(
        "alkali taken by citric acid",
        "three groups; 192.12 g/mol dry, 210.14 g/mol with its water",
        "mg KOH/g",
        STOICHIOMETRY,
        _AT + "citric_acid",
    ),
    Relation(
        "salt made in the pot",
        "salt = mol x (M(acid) + groups x (M(Na) - M(H)))",
        "g",
        STOICHIOMETRY,
        _AT + "salt_made_g",
    ),
    Relation(
        "acid for a salt made in the pot",
        "acid = salt x M(acid) / M(salt)",
        "g",
        STOICHIOMETRY,
        _AT + "acid_for_salt_g",
    ),
)
