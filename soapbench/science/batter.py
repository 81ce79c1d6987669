"""The batter: how much room it takes before it sets."""

from __future__ import annotations

from collections.abc import Sequence

from soapbench.science.errors import OutOfRange, fraction, not_negative, number, positive
from soapbench.science.lye import concentration
from soapbench.science.lye_properties import Solute, density_g_per_ml
from soapbench.science.sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source

from .words import say

ADDED_VOLUMES = Source(
    "added-volumes",
    "Volumes of fats and lye added up",
    "no change of volume on mixing is assumed; fats 0.905 to 0.915 g/ml at 40 C",
    "computed",
)
OTHERS_DENSITY = Constant(
    "Density taken for scents, colours and other additions",
    "ρ",
    1.0,
    "g/ml",
    OWN_CHOICE,
    "batter_volume_ml",
    why="Scents weigh 0.85 to 1.1 g/ml and are a few per cent of the batter.",
)
STIRRED_AIR = Constant("Most air that stick blending adds", "a", 0.04, "ml/ml", COMMON_PRACTICE, "batter_volume_ml")

LIGHTEST_FAT = Constant(
    "Lightest fat believed",
    "ρ",
    0.7,
    "g/ml",
    OWN_CHOICE,
    "fats_volume_ml: refusal of slips",
    why="Waxes to castor oil lie from 0.80 to 0.97.",
)
HEAVIEST_FAT = Constant(
    "Heaviest fat believed",
    "ρ",
    1.3,
    "g/ml",
    OWN_CHOICE,
    "fats_volume_ml: refusal of slips",
    why="Waxes to castor oil lie from 0.80 to 0.97.",
)
LIGHTEST_BATTER = Constant(
    "Lightest batter believed",
    "ρ",
    0.7,
    "g/ml",
    OWN_CHOICE,
    "measured_density",
    why="Batter is near 1.0; a third of air is froth, not batter.",
)
HEAVIEST_BATTER = Constant(
    "Heaviest batter believed",
    "ρ",
    1.4,
    "g/ml",
    OWN_CHOICE,
    "measured_density",
    why="Batter is near 1.0; heavier than a 40 % lye it cannot be.",
)

Fats = Sequence[tuple[float, float]]


def fats_volume_ml(fats: Fats) -> float:
    """Return the volume of melted fats in ml from pairs of (mass in g, density in g/ml).

    Raises:
        OutOfRange: a mass is negative, or a density is not that of a fat.

    Source: volumes added up; the densities are the caller's.
    """
    for mass_g, density in fats:
        not_negative(mass_g, "A fat")
        number(density, "The density of a fat")
        if not LIGHTEST_FAT.value <= density <= HEAVIEST_FAT.value:  # waxes to castor oil lie from 0.80 to 0.97
            raise OutOfRange(say("No fat weighs {density:g} g per ml. Most weigh 0.90 to 0.96.", density=density))
    return sum(mass_g / density for mass_g, density in fats)


def batter_volume_ml(
    fats: Fats,
    alkali_g: float,
    water_g: float,
    others_g: float = 0,
    solute: Solute = "NaOH",
    temperature_c: float = 40,
    air: float = 0,
) -> float:
    """Return the volume of the batter in ml: fats, lye and additions added up.

    Args:
        fats: pairs of (mass in g, density in g/ml).
        alkali_g, water_g: the lye, its water first counted whole.
        others_g: scents, colours and the rest, taken at 1 g/ml.
        solute: the alkali of the lye.
        temperature_c: of the batter.
        air: share of stirred-in air, 0 to 0.04 by common practice.

    Raises:
        OutOfRange: see fats_volume_ml and lye.concentration.

    Source: volumes added up; lye_properties for the lye, common practice for the air.
    """
    lye_ml = (alkali_g + water_g) / density_g_per_ml(solute, concentration(alkali_g, water_g), temperature_c)
    others_ml = not_negative(others_g, "The additions") / OTHERS_DENSITY.value
    return (fats_volume_ml(fats) + lye_ml + others_ml) * (1 + fraction(air, "The air stirred in"))


def batter_density(
    fats: Fats,
    alkali_g: float,
    water_g: float,
    others_g: float = 0,
    solute: Solute = "NaOH",
    temperature_c: float = 40,
    air: float = 0,
) -> float:
    """Return the density of the batter in g/ml, from the same inputs as batter_volume_ml.

    Raises:
        OutOfRange: as batter_volume_ml does.

    Source: mass over volume.
    """
    mass = sum(mass_g for mass_g, _ in fats) + alkali_g + water_g + others_g
    return mass / batter_volume_ml(fats, alkali_g, water_g, others_g, solute, temperature_c, air)


def measured_density(mass_in_mould_g: float, volume_ml: float) -> float:
    """Return the density in g/ml of a batter from its mass in the mould and the room that it filled there.

    Raises:
        OutOfRange: the two cannot both be right, the result being outside 0.7 to 1.4 g/ml.

    Source: mass over volume; the limits are an own choice.
    """
    density = positive(mass_in_mould_g, "The batter in the mould") / positive(volume_ml, "The volume", "ml")
    if not LIGHTEST_BATTER.value <= density <= HEAVIEST_BATTER.value:
        raise OutOfRange(
            say(
                "That would be {density:.2f} g per ml; soap batter is near 1.0. Look at the mould's size and the "
                "height.",
                density=density,
            )
        )
    return density


CONSTANTS = (OTHERS_DENSITY, STIRRED_AIR, LIGHTEST_FAT, HEAVIEST_FAT, LIGHTEST_BATTER, HEAVIEST_BATTER)
_HERE = "soapbench.science.batter."
RELATIONS = (
    Relation("Volume of the fats", "V = Σ m/ρ", "ml", ADDED_VOLUMES, _HERE + "fats_volume_ml"),
    Relation("Volume of the batter", "V = Σ m/ρ + lye/ρ(c, T)", "ml", ADDED_VOLUMES, _HERE + "batter_volume_ml"),
    Relation("Density of the batter", "ρ = Σ m / V", "g/ml", ADDED_VOLUMES, _HERE + "batter_density"),
    Relation("Density as poured", "ρ = m / V", "g/ml", ADDED_VOLUMES, _HERE + "measured_density"),
)
