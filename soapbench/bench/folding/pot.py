"""What is really in the pot, as the sums want it: fats, acids, alkali."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from soapbench.bars.to_science import science_alkali, science_fat
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line, Plan
from soapbench.bench.state import Weight
from soapbench.science.alkali import Acid, Alkali, AlkaliMass, Fat, alkali_for
from soapbench.science.pot import PotCheck, pot_check
from soapbench.science.rounding import round_to


def mass_of(tally: Tally, line: Line) -> float:
    """Return the grams of a line: as weighed, none when left out, else as planned."""
    weight = tally.weights.get(line.key)
    if weight is not None:
        return weight.mass_g
    return 0.0 if line.key in tally.left_out else planned_g(tally, line)


def planned_g(tally: Tally, line: Line) -> float:
    """Return the grams of a line as planned, with what a chosen way out has made of them since."""
    scaled = line.planned_g * (tally.factor if line.group in ("fat", "carrier") else 1.0)
    asked = max(0.0, scaled + tally.shift.get(line.key, 0.0))
    return line.planned_g if asked == line.planned_g else round_to(asked, tally.plan.resolution_g)


def so_far_g(tally: Tally, line: Line) -> float:
    """Return the grams of a line that are weighed already while more of it is asked for."""
    weight = tally.weights.get(line.key)
    before = weight.mass_g if weight is not None and line.key in tally.owed else 0.0
    return round(before + sum(tally.parts.get(line.key, ())), 6)


def fats_in_pot(tally: Tally) -> tuple[Fat, ...]:
    """Return the fats that the lye meets; what is not weighed yet counts as planned."""
    return fats_of(tally, lambda line: mass_of(tally, line))


def fats_of(tally: Tally, mass: Callable[[Line], float]) -> tuple[Fat, ...]:
    """Return the fats with the masses that a function gives, what really is in each line."""
    found = ((tally.facts_of(line), mass(line)) for line in tally.book.fat_lines)
    return tuple(science_fat(fact.key, grams, {fact.key: fact}) for fact, grams in found if fact and grams > 0)


def planned_fats(tally: Tally) -> tuple[Fat, ...]:
    """Return the fats of the plan, in the size that was chosen since."""
    materials = tally.plan.materials
    return tuple(
        science_fat(line.material, line.planned_g * tally.factor, materials)
        for line in tally.book.fat_lines
        if line.material in materials and line.planned_g > 0
    )


def fats_g(tally: Tally) -> float:
    """Return the grams of all fats in the pot, carriers included."""
    return sum(mass_of(tally, line) for line in tally.book.fat_lines)


def acids_in_pot(tally: Tally) -> tuple[Acid, ...]:
    """Return the additions that take alkali before any fat does."""
    return acids_of(tally, lambda line: mass_of(tally, line))


def acids_of(tally: Tally, mass: Callable[[Line], float]) -> tuple[Acid, ...]:
    """Return the additions that take alkali, with the masses that a function gives."""
    found = []
    for line in tally.plan.in_group("colourant", "scent", "addition"):
        fact = tally.facts_of(line)
        if fact is not None and fact.takes_koh_mg_per_g > 0:
            found.append(Acid(fact.name, mass(line), fact.takes_koh_mg_per_g))
    return tuple(found)


def alkali_in_use(tally: Tally) -> Alkali:
    """Return the alkali with the purity of the jar that is really used."""
    choice = tally.plan.formula.alkali
    facts = [tally.facts_of(line) for line in tally.plan.in_group("alkali")]
    return science_alkali(choice, {fact.key: fact for fact in facts if fact is not None})


def as_alkali(grams_by_line: dict[str, float]) -> AlkaliMass:
    """Return grams by line key as the two alkalis."""
    return AlkaliMass(grams_by_line.get("alkali:naoh", 0.0), grams_by_line.get("alkali:koh", 0.0))


def planned_alkali(tally: Tally) -> AlkaliMass:
    return as_alkali({line.key: line.planned_g for line in tally.plan.in_group("alkali")})


def weighed_alkali(tally: Tally) -> AlkaliMass | None:
    """Return the alkali that meets the fats, or None until every jar of it is weighed: the share that is poured."""
    made = made_alkali(tally)
    return made and AlkaliMass(made.naoh_g * tally.lye_share, made.koh_g * tally.lye_share)


def made_alkali(tally: Tally) -> AlkaliMass | None:
    """Return the alkali as weighed, or None until every jar of it was."""
    lines = tally.plan.in_group("alkali")
    if not lines or any(line.key not in tally.weights for line in lines):
        return None
    return as_alkali({line.key: tally.weights[line.key].mass_g for line in lines})


def needed_alkali(tally: Tally) -> AlkaliMass:
    """Return the alkali that suits the fats in the pot, rounded to the scale.

    Raises:
        OutOfRange: no fat is left in the pot.
    """
    exact = alkali_for(fats_in_pot(tally), tally.plan.formula.superfat, alkali_in_use(tally), acids_in_pot(tally))
    step = tally.plan.resolution_g
    return AlkaliMass(round_to(exact.naoh_g, step), round_to(exact.koh_g, step))


def lye_water_g(tally: Tally) -> float:
    """Return the grams of water and liquids, as weighed or planned, without what stays in the jug."""
    return sum(poured_g(tally, line) for line in tally.plan.in_group("water", "liquid"))


def poured_g(tally: Tally, line: Line) -> float:
    """Return the grams of a line that meet the fats: of what is in the lye jug, the share that is poured."""
    return mass_of(tally, line) * (tally.lye_share if line.key in tally.book.jug_keys else 1.0)


def batter_g(tally: Tally) -> float:
    """Return the grams of batter before it is shared out: all that is not for one portion alone."""
    return sum(poured_g(tally, line) for line in tally.plan.lines if line.portion in ("", "all"))


def pot_g(tally: Tally) -> float:
    """Return the grams of batter to share out: all of it but for what was lost from the pot."""
    return max(0.0, batter_g(tally) - tally.lost_batter_g)


def pot_checked(plan: Plan, weights: Mapping[str, Weight], read_g: float) -> PotCheck:
    """Return how the pot of fats on the scale, its tare taken off, agrees with what was weighed into it.

    Raises:
        OutOfRange: nothing was weighed into the pot yet.
    """
    parts: dict[str, float] = {}
    weighed = [weights[line.key] for line in plan.in_group("fat") if line.key in weights]
    for weight in weighed:
        parts[weight.name] = parts.get(weight.name, 0.0) + weight.mass_g
    count = sum(max(1, len(weight.parts)) for weight in weighed)
    pot = next((line.vessel for line in plan.in_group("fat")), "")
    expected = round(sum(weight.mass_g for weight in weighed), 6)
    return pot_check(expected, read_g, count, plan.resolution_g, parts, tare_g=plan.tares.get(pot, 0.0))
