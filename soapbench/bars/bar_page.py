"""What the page of a bar tells, in the order of the work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from soapbench.bars.check import Check
from soapbench.bars.conditions import Conditions, conditions_for
from soapbench.bars.differences import (
    alkali_words,
    cut_words,
    differences,
    dose_words,
    drawing_words,
    stage_words,
    water_words,
)
from soapbench.bars.fields import spelt
from soapbench.bars.formula import Formula, Portion
from soapbench.bars.models import Revision
from soapbench.bars.to_science import KOH, NAOH, portion_shares
from soapbench.bars.words import SAID
from soapbench.workshop.models import Workshop


@dataclass(frozen=True)
class Told:
    """One revision, and what it changed."""

    revision: Revision
    changes: tuple[str, ...]


@dataclass(frozen=True)
class Part:
    """One portion with its share of the batter and what goes into it alone."""

    portion: Portion
    percent: float
    grams: float | None
    additions: tuple[str, ...]


def about_bar(workshop: Workshop, formula: Formula, names: Mapping[str, str]) -> dict[str, Any]:
    """Return what the template shows of a formula."""
    conditions = conditions_for(workshop, formula)
    found = conditions.check(formula)
    return {
        "formula": formula,
        "conditions": conditions,
        "check": found,
        "fats": _fats(formula, found, names),
        "liquids": _liquids(formula, found, names),
        "water": water_words(formula),
        "alkali": alkali_words(formula),
        "jars": _jars(conditions),
        "superfat": 100 * formula.superfat,
        "whole": _additions(formula, "all", names),
        "parts": _parts(formula, found, names),
        "pour": [stage_words(stage) for stage in formula.pour],
        "drawing": drawing_words(formula, names),
        "cut": cut_words(formula, names),
        "trace": SAID[formula.process.trace],
    }


def _jars(conditions: Conditions) -> list[tuple[str, str, str]]:
    """Return key, lot and working purity in per cent of each jar of alkali, whose purity wins over the formula's."""
    facts = [conditions.facts[key] for key in (NAOH, KOH) if key in conditions.facts]
    return [(one.key, one.lot_code, f"{100 * one.purity:.3g}") for one in facts if one.lot is not None and one.purity]


def _fats(formula: Formula, found: Check, names: Mapping[str, str]) -> list[tuple[str, float, str]]:
    """Return name, per cent of the fats, and grams in the usual batch."""
    amounts: dict[str, float] = {}
    for line in formula.fats:
        amounts[line.material] = amounts.get(line.material, 0.0) + line.amount
    total = sum(amounts.values()) or 1.0
    grams = {key: spelt(mass) for key, mass in found.made.fat_masses.items()} if found.made else {}
    return [(names.get(key, key), 100 * amount / total, grams.get(key, "")) for key, amount in amounts.items()]


def _liquids(formula: Formula, found: Check, names: Mapping[str, str]) -> list[tuple[str, float, Any, str]]:
    """Return name, per cent of the water, where it goes, and grams in the usual batch."""
    grams = {line.material: line.grams for line in found.made.liquids} if found.made else {}
    return [
        (names.get(one.material, one.material), 100 * one.share, SAID[one.goes_into], grams.get(one.material, ""))
        for one in formula.liquids
    ]


def _additions(formula: Formula, goes_to: str, names: Mapping[str, str]) -> tuple[str, ...]:
    there = [line for line in formula.additives if line.goes_to == goes_to]
    return tuple(f"{names.get(line.material, line.material)}: {dose_words(line, names)}" for line in there)


def _parts(formula: Formula, found: Check, names: Mapping[str, str]) -> list[Part]:
    if any(portion.parts <= 0 for portion in formula.portions) or not formula.portions:
        return [Part(one, 0, None, _additions(formula, one.letter, names)) for one in formula.portions]
    shares = portion_shares(formula)
    grams = found.made.portions if found.made else {}
    return [
        Part(one, 100 * shares[one.letter], grams.get(one.letter), _additions(formula, one.letter, names))
        for one in formula.portions
    ]


def about_revisions(revisions: Sequence[Revision], names: Mapping[str, str]) -> list[Told]:
    """Return each revision, newest first, with what it changed from the one before."""
    told = [Told(new, differences(old.formula, new.formula, names)) for new, old in pairwise(revisions)]
    return [*told, *(Told(first, ()) for first in revisions[-1:])]
