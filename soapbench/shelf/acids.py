"""Acids on the shelf: which acid a material is, and the forms in which citric acid is sold."""

from __future__ import annotations

from soapbench.science.acids import ACIDS

# The two forms look alike and are both sold as citric acid; only the jar tells them apart.
CITRIC = ("citric_acid", "citric_acid_monohydrate")
# Key of the material on the shelf, key of the acid in the sums.
KINDS = {
    "citric_acid": "citric anhydrous",
    "citric_acid_monohydrate": "citric monohydrate",
    "lactic_acid": "lactic",
    "lactic_acid_80": "lactic",
    "vinegar": "acetic",
    "stearic_acid": "stearic",
    "palmitic_acid": "palmitic",
    "myristic_acid": "myristic",
    "lauric_acid": "lauric",
    "oleic_acid": "oleic",
}


def other_form(key: str) -> str | None:
    """Return the key of the other form of citric acid, or None for any other material."""
    if key not in CITRIC:
        return None
    return CITRIC[1 - CITRIC.index(key)]


def strength(kind: str, takes_koh_mg_per_g: float) -> float:
    """Return how much of a solution is the acid, a fraction, from the alkali that one gram of it takes."""
    return min(1.0, takes_koh_mg_per_g / ACIDS[kind].koh_mg_per_g)
