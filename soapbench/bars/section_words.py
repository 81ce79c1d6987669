"""One line on each part of a formula, shown beside its title while the part is folded away."""

from __future__ import annotations

from django.utils.translation import gettext as _

from soapbench.bars.differences import Names, cut_words, drawing_words, stage_words, water_words
from soapbench.bars.fields import spelt
from soapbench.bars.formula import Formula


def section_words(formula: Formula, names: Names) -> dict[str, str]:
    """Return the line of each part by the part's name."""
    process = formula.process
    low, high = spelt(process.mix_low_c), spelt(process.mix_high_c)
    return {
        "fats": _listed([f"{names.get(fat.material, fat.material)} {spelt(fat.amount)}" for fat in formula.fats]),
        "alkali": _("%s %% superfat") % spelt(100 * formula.superfat),
        "water": water_words(formula),
        "liquids": _listed([names.get(one.material, one.material) for one in formula.liquids]),
        "portions": _listed([f"{portion.letter} {portion.name}" for portion in formula.portions]),
        "additives": _listed([names.get(one.material, one.material) for one in formula.additives]),
        "pour": "; ".join(stage_words(stage) for stage in formula.pour) or _("all at once"),
        "drawing": drawing_words(formula, names),
        "cut": cut_words(formula, names),
        "process": _("mix at %(low)s to %(high)s °C, cure %(days)s days")
        % {"low": low, "high": high, "days": process.cure_days},
    }


def _listed(words: list[str]) -> str:
    return ", ".join(words) or _("none")
