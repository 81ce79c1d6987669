"""What is really in the pot, as the sums want it: fats, acids, alkali."""

from __future__ import annotations

from soapbench.bars.to_science import KOH, NAOH, science_fat
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line, Plan
from soapbench.bench.state import RunState
from soapbench.science.alkali import Acid, Alkali, AlkaliMass, Fat, alkali_for
from soapbench.science.pot import PotCheck, pot_check
from soapbench.science.rounding import round_to


def mass_of(tally: Tally, line: Line) -> float:
    """Return the grams of a line: as weighed, none when left out, else as planned."""
    weight = tally.weights.get(line.key)
    if weight is not None:
        return weight.mass_g
    return 0.0 if line.key in tally.left_out else line.planned_g


def fats_in_pot(tally: Tally) -> tuple[Fat, ...]:
    """Return the fats that the lye meets; what is not weighed yet counts as planned."""
    found = ((tally.facts_of(line), mass_of(tally, line)) for line in tally.book.fat_lines)
    return tuple(science_fat(fact.key, mass, {fact.key: fact}) for fact, mass in found if fact is not None and mass > 0)


def planned_fats(tally: Tally) -> tuple[Fat, ...]:
    """Return the fats of the plan."""
    materials = tally.plan.materials
    return tuple(
        science_fat(line.material, line.planned_g, materials)
        for line in tally.book.fat_lines
        if line.material in materials and line.planned_g > 0
    )


def fats_g(tally: Tally) -> float:
    """Return the grams of all fats in the pot, carriers included."""
    return sum(mass_of(tally, line) for line in tally.book.fat_lines)


def acids_in_pot(tally: Tally) -> tuple[Acid, ...]:
    """Return the additions that take alkali before any fat does."""
    found = []
    for line in tally.plan.in_group("colourant", "scent", "addition"):
        fact = tally.facts_of(line)
        if fact is not None and fact.takes_koh_mg_per_g > 0:
            found.append(Acid(fact.name, mass_of(tally, line), fact.takes_koh_mg_per_g))
    return tuple(found)


def alkali_in_use(tally: Tally) -> Alkali:
    """Return the alkali with the purity of the jar that is really used."""
    choice = tally.plan.formula.alkali
    purity = {NAOH: choice.naoh_purity, KOH: choice.koh_purity}
    for line in tally.plan.in_group("alkali"):
        fact = tally.facts_of(line)
        if fact is not None and fact.lot is not None and fact.purity:
            purity[line.material] = fact.purity
    return Alkali(choice.naoh_share, purity[NAOH], purity[KOH], shares_by=choice.shares_by)


def as_alkali(grams_by_line: dict[str, float]) -> AlkaliMass:
    """Return grams by line key as the two alkalis."""
    return AlkaliMass(grams_by_line.get("alkali:naoh", 0.0), grams_by_line.get("alkali:koh", 0.0))


def planned_alkali(tally: Tally) -> AlkaliMass:
    return as_alkali({line.key: line.planned_g for line in tally.plan.in_group("alkali")})


def weighed_alkali(tally: Tally) -> AlkaliMass | None:
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
    """Return the grams of water and liquids, as weighed or planned."""
    return sum(mass_of(tally, line) for line in tally.plan.in_group("water", "liquid"))


def batter_g(tally: Tally) -> float:
    """Return the grams of batter before it is shared out: all that is not for one portion alone."""
    return sum(mass_of(tally, line) for line in tally.plan.lines if line.portion in ("", "all"))


def pot_checked(plan: Plan, state: RunState, read_g: float) -> PotCheck:
    """Return how the pot of fats on the scale, its tare taken off, agrees with what was weighed into it.

    Raises:
        OutOfRange: nothing was weighed into the pot yet.
    """
    parts: dict[str, float] = {}
    weighed = [state.weights[line.key] for line in plan.in_group("fat") if line.key in state.weights]
    for weight in weighed:
        parts[weight.name] = parts.get(weight.name, 0.0) + weight.mass_g
    return pot_check(state.pot_g, read_g, len(weighed), plan.resolution_g, parts)
