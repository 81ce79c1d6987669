"""Fatty acids by their short names: C18:1 has 18 carbon atoms and one double bond."""

from __future__ import annotations

import re

from .atoms import GLYCEROL, HYDROGEN, WATER, molar_mass
from .errors import OutOfRange
from .sources import STOICHIOMETRY, Constant, Relation, Source
from .words import say

_IODINE = Source(
    "aocs-cd-1c-85",
    "AOCS Recommended Practice Cd 1c-85 (ISO 3961, annex), calculated iodine value",
    "factor = double bonds x 253.81 x 3 / M(triglyceride)",
    "published",
)
IODINE = Constant("molar mass of iodine, I2", "M(I2)", 253.81, "g/mol", _IODINE, "iodine_factor")

_NAME = re.compile(r"C(\d{1,2}):(\d)(-OH)?")


def _parts(code: str) -> tuple[int, int, bool]:
    match = _NAME.fullmatch(code)
    if not match or not 2 <= int(match[1]) <= 30 or int(match[2]) > int(match[1]) // 3:
        raise OutOfRange(say("“{code}” is not the short name of a fatty acid. Write it like C18:1.", code=code))
    return int(match[1]), int(match[2]), match[3] is not None


def acid_molar_mass(code: str) -> float:
    """Return the molar mass of a fatty acid, g/mol, from its short name.

    Raises:
        OutOfRange: not a short name such as C18:1 or C18:1-OH.

    Source: CnH(2n-2d)O2, one more O with a hydroxyl group; CIAAW 2021.
    """
    carbon, bonds, hydroxyl = _parts(code)
    return molar_mass(c=carbon, h=2 * carbon - 2 * bonds, o=3 if hydroxyl else 2)


def glyceride_molar_mass(code: str) -> float:
    """Return the molar mass of the triglyceride of one acid, g/mol: three acids and glycerol less three waters.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: mole balance, CIAAW 2021.
    """
    return 3 * acid_molar_mass(code) + GLYCEROL - 3 * WATER


def double_bonds(code: str) -> int:
    """Return the number of double bonds that the short name tells.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: the usual short notation of lipids, carbon atoms : double bonds.
    """
    return _parts(code)[1]


def carbon_atoms(code: str) -> int:
    """Return the number of carbon atoms that the short name tells.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: the usual short notation of lipids, carbon atoms : double bonds.
    """
    return _parts(code)[0]


def iodine_factor(code: str) -> float:
    """Return the iodine value, g per 100 g, of the pure triglyceride divided by 100.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: AOCS Cd 1c-85.
    """
    return double_bonds(code) * IODINE.value * 3 / glyceride_molar_mass(code)


def free_acid_iodine_factor(code: str) -> float:
    """Return the iodine value, g per 100 g, of the pure free acid divided by 100.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: AOCS Cd 1c-85, factors for free acids.
    """
    return double_bonds(code) * IODINE.value / acid_molar_mass(code)


def sodium_soap_molar_mass(code: str) -> float:
    """Return the molar mass of the sodium soap of a fatty acid, g/mol.

    Raises:
        OutOfRange: not a short name such as C18:1.

    Source: the acid gives up H for Na, CIAAW 2021.
    """
    return acid_molar_mass(code) - HYDROGEN.value + molar_mass(na=1)


CONSTANTS = (IODINE,)
_AT = "soapbench.science.fatty_acids."
RELATIONS = (
    Relation("molar mass of a fatty acid", "CnH(2n-2d)O2", "g/mol", STOICHIOMETRY, _AT + "acid_molar_mass"),
    Relation(
        "molar mass of a triglyceride",
        "3 M(acid) + 92.094 - 3 x 18.015",
        "g/mol",
        STOICHIOMETRY,
        _AT + "glyceride_molar_mass",
    ),
    Relation("carbon atoms", "the number before the colon", "", STOICHIOMETRY, _AT + "carbon_atoms"),
    Relation("double bonds", "the digit behind the colon", "", STOICHIOMETRY, _AT + "double_bonds"),
    Relation("iodine factor of a triglyceride", "d x 253.81 x 3 / M", "g/g", _IODINE, _AT + "iodine_factor"),
    Relation("iodine factor of a free acid", "d x 253.81 / M", "g/g", _IODINE, _AT + "free_acid_iodine_factor"),
    Relation(
        "molar mass of a sodium soap", "M(acid) - M(H) + M(Na)", "g/mol", STOICHIOMETRY, _AT + "sodium_soap_molar_mass"
    ),
)
