"""What the laboratory finds on a fat, and what follows from a molar mass."""

from __future__ import annotations

from .atoms import KOH
from .errors import OutOfRange, not_negative, number, positive
from .fats import check_saponification_value
from .sources import Constant, Relation, Source
from .words import say

_ISO = Source("iso-3657-660", "ISO 3657 (saponification value) and ISO 660 (acid value)", "definitions", "published")
_MERCK = Source(
    "merck-jojoba",
    "The Merck Index, Jojoba oil",
    "SV 92.2, mean molar mass 606: one ester group a molecule",
    "published",
)

LIGHTEST_GLYCERIDE = Constant(
    "molar mass of triacetin, the lightest triglyceride", "M", 218.2, "g/mol", _ISO, "saponification_value"
)


def saponification_value(molar_mass: float) -> float:
    """Return the saponification value of a triglyceride, mg KOH/g, from its mean molar mass, g/mol.

    SV = 3 x 56.105 x 1000 / M. Source: definition in ISO 3657; a triglyceride has three ester groups.

    Raises:
        OutOfRange: lighter than any triglyceride.
    """
    if number(molar_mass, "The molar mass") < LIGHTEST_GLYCERIDE.value:
        raise OutOfRange(say("No triglyceride weighs {molar_mass:g} g/mol.", molar_mass=molar_mass))
    return 3 * KOH * 1000 / molar_mass


def wax_saponification_value(molar_mass: float) -> float:
    """Return the saponification value of a wax ester, mg KOH/g: one ester group a molecule, no glycerol.

    Raises:
        OutOfRange: a molar mass that is not above 0.

    Source: definition in ISO 3657; The Merck Index on jojoba oil.
    """
    return KOH * 1000 / positive(molar_mass, "The molar mass", "g/mol")


def mean_molar_mass(value: float) -> float:
    """Return the mean molar mass of a triglyceride, g/mol, from its saponification value, mg KOH/g.

    Raises:
        OutOfRange: a value that no fat has.

    Source: definition in ISO 3657, turned round.
    """
    return 3 * KOH * 1000 / check_saponification_value(value, "this fat")


def saponification_equivalent(value: float) -> float:
    """Return the grams of fat that take one mole of alkali, g/mol, from the saponification value, mg KOH/g.

    Raises:
        OutOfRange: a value that no fat has.

    Source: Simmons & Appleton 1908, chapter X.
    """
    return KOH * 1000 / check_saponification_value(value, "this fat")


def value_from_titration(sample_g: float, volume_ml: float, mol_per_l: float) -> float:
    """Return mg of KOH per g of fat from the volume of standard solution used: an acid or saponification value.

    For the saponification value the volume is blank less sample. Source: ISO 660 and ISO 3657.

    Raises:
        OutOfRange: a sample or strength that is not above 0, a negative volume, or a value that no fat has.
    """
    positive(sample_g, "The sample")
    positive(mol_per_l, "The strength of the solution", "mol/l")
    used = not_negative(volume_ml, "The volume used", "ml") * mol_per_l
    return check_saponification_value(used * KOH / sample_g, "this fat", "wax ester")


def free_acid_share(acid_value: float, acid_molar_mass: float) -> float:
    """Return the share of free fatty acid, a fraction, from the acid value and the molar mass it is told as.

    Raises:
        OutOfRange: a negative acid value, or a molar mass that is not above 0.

    Source: definition of the acid value, ISO 660.
    """
    not_negative(acid_value, "The acid value", "mg KOH/g")
    return acid_value / 1000 / KOH * positive(acid_molar_mass, "The molar mass", "g/mol")


def ester_value(value: float, acid_value: float) -> float:
    """Return the ester value, mg KOH/g: saponification value less acid value.

    Raises:
        OutOfRange: the acid value is above the saponification value.

    Source: definition.
    """
    if not 0 <= number(acid_value, "The acid value") <= number(value, "The saponification value"):
        raise OutOfRange(say("The acid value must lie between 0 and the saponification value."))
    return value - acid_value


CONSTANTS = (LIGHTEST_GLYCERIDE,)
_AT = "soapbench.science.analysis."
RELATIONS = (
    Relation("value of a triglyceride", "SV = 3 M(KOH) 1000 / M", "mg KOH/g", _ISO, _AT + "saponification_value"),
    Relation("value of a wax ester", "SV = M(KOH) 1000 / M", "mg KOH/g", _MERCK, _AT + "wax_saponification_value"),
    Relation("mean molar mass", "M = 168 315 / SV", "g/mol", _ISO, _AT + "mean_molar_mass"),
    Relation("saponification equivalent", "56 105 / SV", "g/mol", _ISO, _AT + "saponification_equivalent"),
    Relation("value from a titration", "V c M(KOH) / sample", "mg KOH/g", _ISO, _AT + "value_from_titration"),
    Relation("free fatty acid", "AV M(acid) / 1000 / M(KOH)", "share", _ISO, _AT + "free_acid_share"),
    Relation("ester value", "EV = SV - AV", "mg KOH/g", _ISO, _AT + "ester_value"),
)
