"""The alkali after the fats came out differently: planned, or recomputed, and what each would leave."""

from __future__ import annotations

from soapbench.bench.folding.pot import (
    acids_in_pot,
    alkali_in_use,
    as_alkali,
    fats_g,
    fats_in_pot,
    needed_alkali,
    planned_alkali,
    planned_g,
)
from soapbench.bench.folding.tally import Tally
from soapbench.bench.folding.tolerances import tolerance_of
from soapbench.bench.plan import Line
from soapbench.bench.state import Settlement
from soapbench.bench.words import grams, listed, over_or_short, percent
from soapbench.science.alkali import AlkaliMass, superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.lye import water_g
from soapbench.science.rounding import round_to
from soapbench.science.words import say


def settle(tally: Tally) -> Settlement | None:
    """Return the choice between the two alkalis, or None until every fat is in the pot."""
    if not tally.fats_are_in:
        return None
    try:
        needed = needed_alkali(tally)
    except OutOfRange:
        return None
    planned = {line.key: line.planned_g for line in tally.plan.in_group("alkali", "water", "liquid")}
    recomputed = _recomputed(tally, needed)
    fats, alkali, acids = fats_in_pot(tally), alkali_in_use(tally), acids_in_pot(tally)
    if_planned = superfat_of(fats, planned_alkali(tally), alkali, acids)
    if_recomputed = superfat_of(fats, as_alkali(recomputed), alkali, acids)
    is_needed = _differs(tally, recomputed)
    sentence = (
        _sentence(tally, recomputed, if_planned, if_recomputed) if is_needed else say("The alkali stays as planned.")
    )
    return Settlement(is_needed, planned, recomputed, if_planned, if_recomputed, sentence, tally.choice)


def _differs(tally: Tally, recomputed: dict[str, float]) -> bool:
    return any(
        abs(recomputed[line.key] - line.planned_g) > line.tolerance_g + 1e-9 for line in tally.plan.in_group("alkali")
    )


def _recomputed(tally: Tally, needed: AlkaliMass) -> dict[str, float]:
    masses = {"alkali:naoh": needed.naoh_g, "alkali:koh": needed.koh_g}
    found = {line.key: masses[line.key] for line in tally.plan.in_group("alkali")}
    more_water = _water_for(tally, needed.total_g, fats_g(tally)) - _water_for(
        tally, tally.book.planned_alkali_g, tally.book.planned_fats_g
    )
    wet = tally.plan.in_group("water", "liquid")
    total = sum(line.planned_g for line in wet)
    for line in wet:
        share = line.planned_g / total if total else 0.0
        found[line.key] = round_to(max(0.0, line.planned_g + share * more_water), tally.plan.resolution_g)
    return found


def _water_for(tally: Tally, alkali_g: float, all_fats_g: float) -> float:
    water = tally.plan.formula.water
    value = water.value / 100 if water.by == "percent of fats" else water.value
    try:
        return water_g(water.by, value, alkali_g, all_fats_g)
    except OutOfRange:
        return alkali_g  # as much water as alkali is the least that dissolves it


def _sentence(tally: Tally, recomputed: dict[str, float], if_planned: float, if_recomputed: float) -> str:
    lines = tally.plan.in_group("alkali")
    jars = listed([_jar(line, recomputed[line.key], len(lines)) for line in lines])
    wet = listed(
        [
            say("{recomputed} of {name!l}", recomputed=grams(recomputed[line.key]), name=line.name)
            for line in _jug_lines(tally)
        ]
    )
    planned = grams(sum(line.planned_g for line in lines))
    told = {
        "differences": differences(tally),
        "jars": say("{jars} in {wet}", jars=jars, wet=wet) if wet else jars,
        "superfat": percent(if_recomputed),
        "planned": planned,
    }
    if if_planned < 0:
        return say(
            "{differences} Weigh {jars} for {superfat} superfat; the planned {planned} would be lye-heavy.", **told
        )
    return say(
        "{differences} Weigh {jars} for {superfat} superfat; the planned {planned} would leave {left}.",
        left=percent(if_planned),
        **told,
    )


def _jug_lines(tally: Tally) -> list[Line]:
    into_fats = {line.material for line in tally.plan.formula.liquids if line.goes_into == "fats"}
    wet = tally.plan.in_group("water", "liquid")
    return [line for line in wet if line.material not in into_fats and line.planned_g > 0]


def _jar(line: Line, mass_g: float, jars: int) -> str:
    if jars == 1:
        return say("{mass} of alkali", mass=grams(mass_g))
    return say("{mass} of {name!l}", mass=grams(mass_g), name=line.name)


def differences(tally: Tally) -> str:
    """Return which fats differ from the plan, in words; the alkali's purity when none does."""
    return differing(tally) or say("The figures of the lots differ from the plan.")


def differing(tally: Tally) -> str:
    """Return which fats differ from the plan, in words; "" when none does."""
    words = [word for line in tally.book.fat_lines if (word := _difference(tally, line))]
    return " ".join(f"{word}." for word in words)


def _difference(tally: Tally, line: Line) -> str:
    weight = tally.weights.get(line.key)
    if line.key in tally.owed:
        return ""
    if weight is None:
        return say("{name} is left out", name=line.name) if line.key in tally.left_out else ""
    asked = planned_g(tally, line)
    gap = weight.mass_g - asked
    if weight.material != line.material:
        return say("{name} is in place of {line_name}", name=weight.name, line_name=line.name) + (
            f", {over_or_short(gap)}" if abs(gap) > 1e-9 else ""
        )
    if abs(gap) <= tolerance_of(tally, line, asked) + 1e-9:
        return ""
    return say("{name} is {over_or_short}", name=line.name, over_or_short=over_or_short(round(gap, 6)))
