"""Formulas and shelf facts for the tests of this place, as plain data and of our own invention."""

from dataclasses import replace

from soapbench.bars.formula import Additive, AlkaliChoice, FatLine, Formula, Portion, Water
from soapbench.shelf.facts import MaterialFacts


def fat(key, sv, spread=0.0, **more):
    return MaterialFacts(key, key.title(), "fat", sv_low=sv - spread, sv_high=sv + spread, **more)


def fact(key, kind, **more):
    return MaterialFacts(key, key.title(), kind, **more)


# Grams of NaOH per gram, as the worked case counts them: olive 0.1345, coconut 0.183, palm 0.1415; × 1402.7.
FACTS = {
    "olive": fat("olive", 188.66, 6, state="liquid", density_g_per_ml=0.91, fatty_acids={"C18:1": (65, 80)}),
    "coconut": fat("coconut", 256.70, 6, state="soft", density_g_per_ml=0.92, fatty_acids={"C12:0": (45, 53)}),
    "palm": fat("palm", 198.49, 6, state="solid", density_g_per_ml=0.90, fatty_acids={"C16:0": (39, 47)}),
    "indigo": fact("indigo", "colourant"),
    "clay": fact("clay", "colourant"),
    "rosemary": fact("rosemary", "scent", limit_percent=2.0, limit_source="supplier's paper", working_minutes=8),
    "mystery": fact("mystery", "scent"),
    "salt": fact("salt", "addition"),
    "citric": fact("citric", "addition", takes_koh_mg_per_g=876.0),
    "milk": fact("milk", "liquid", water_fraction=0.88),
    "honey": fact("honey", "liquid", water_fraction=0.18),
}

ONE = (Portion("A", "Whole", 1),)
TWO = (Portion("A", "Pale", 2), Portion("B", "Dark", 1, texture="hatched"))

PLAIN = Formula(
    fats=(FatLine("olive", 40), FatLine("coconut", 30), FatLine("palm", 30)),
    portions=ONE,
    alkali=AlkaliChoice(naoh_purity=1.0),
    water=Water("water to alkali ratio", 2.0),
)


def plain(**changes):
    """Return the worked case's formula with some fields changed."""
    return replace(PLAIN, **changes)


def with_additives(*additives, portions=TWO, **changes):
    return plain(additives=additives, portions=portions, **changes)


INDIGO = Additive("indigo", 6, "grams per kg of fats", "B", "olive", 3)
