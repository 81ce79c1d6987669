"""A fat came out over or short, and the lye is not made yet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from .alkali import Acid, Alkali, alkali_for, careful_mol, superfat_of
from .errors import SMALLEST, OutOfRange, not_negative, number, positive
from .fats import Fat
from .lye import water_to_alkali
from .remedy_answer import Remedy, percent, scaled
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation

SAME_SHARE = Constant(
    "departure from the plan that is not worth a word",
    "",
    0.001,
    "share",
    OWN_CHOICE,
    "remedies_before_lye",
    why="A gram in a kilogram changes no superfat that can be told.",
)


def recompute_alkali(
    fats: Sequence[Fat], superfat: float, alkali: Alkali, acids: Iterable[Acid] = (), concentration: float = 1 / 3
) -> Remedy:
    """C1: the alkali for the fats as they are, g, and the water for it in the sentence.

    N = (1 - f) A / p; W = N (1 - c) / c.

    Raises:
        OutOfRange: a superfat out of range, no fat, or a lye stronger than 50 % or of no strength.

    Source: mole balance, as alkali.alkali_for.
    """
    acids = tuple(acids)
    weighed = alkali_for(fats, superfat, alkali, acids)
    water = water_for(weighed.total_g, concentration)
    return Remedy(
        "C1",
        "Take the fats as they are",
        f"Weigh {weighed.total_g:.1f} g of alkali into {water:.0f} g of water. The superfat stays as planned.",
        weighed.total_g,
        superfat_of(fats, weighed, alkali, acids),
    )


def water_for(alkali_g: float, concentration: float) -> float:
    """Return the water for a lye of this strength, g: W = N (1 - c) / c.

    Raises:
        OutOfRange: stronger than 50 %, where alkali may stay undissolved, or not above 0; a negative alkali.

    Source: lye.water_to_alkali.
    """
    return not_negative(alkali_g, "The alkali") * water_to_alkali(concentration)


def keep_proportions(planned: Sequence[Fat], factor: float) -> Remedy:
    """C7: every fat times the factor of the one that went over; grams is the new total of the fats.

    Raises:
        OutOfRange: a factor below 1.

    Source: proportion.
    """
    if number(factor, "The factor") < 1:
        raise OutOfRange("To keep the proportions, the factor must be 1 or more.")
    larger = scaled(planned, factor)
    amounts = ", ".join(f"{fat.name} {fat.mass_g:.0f} g" for fat in larger)
    return Remedy(
        "C7",
        "Make a bigger batch in the same proportions",
        f"Bring every fat up: {amounts}. Alkali, water, scent and colour grow by {percent(factor - 1)} too; "
        "check that the mould holds it.",
        sum(fat.mass_g for fat in larger),
    )


def shrink_to_stock(planned: Sequence[Fat], short: str, have_g: float) -> Remedy:
    """C14, first way: all fats times what there is of the short one; grams is the new total of the fats.

    Raises:
        OutOfRange: the fat is not in the plan, or there is none of it.

    Source: proportion.
    """
    needed = sum(fat.mass_g for fat in planned if fat.name == short)
    if needed < SMALLEST:
        raise OutOfRange(f"There is no {short} in this recipe.")
    factor = positive(have_g, f"What is left of {short}") / needed
    smaller = scaled(planned, factor)
    amounts = ", ".join(f"{fat.name} {fat.mass_g:.0f} g" for fat in smaller)
    return Remedy(
        "C14",
        "Make a smaller batch",
        f"Take {percent(factor)} of everything: {amounts}. Alkali, water and additions shrink with it.",
        sum(fat.mass_g for fat in smaller),
    )


def substitute(planned: Sequence[Fat], short: str, have_g: float, other: Fat) -> tuple[list[Fat], Remedy]:
    """C14, second way: another fat fills the gap gram for gram; returns the new fats for C1, and the sentence.

    Raises:
        OutOfRange: the fat is not in the plan, or nothing is missing of it.

    Source: mass balance.
    """
    needed = sum(fat.mass_g for fat in planned if fat.name == short)
    gap = needed - not_negative(have_g, f"What is left of {short}")
    if needed < SMALLEST or gap <= 0:
        raise OutOfRange(f"Nothing is missing of {short}.")
    kept = [replace(fat, mass_g=fat.mass_g * have_g / needed) if fat.name == short else fat for fat in planned]
    return [*kept, replace(other, mass_g=gap)], Remedy(
        "C14",
        f"Fill up with {other.name}",
        f"Weigh {gap:.0f} g of {other.name} in place of {short}, then the alkali for the new mixture. "
        "The bar changes with its fats, and so does its label.",
        gap,
    )


def add_what_is_owed(actual: Sequence[Fat], planned: Sequence[Fat]) -> Remedy | None:
    """Return the short fats with the grams still owed, or None when nothing is short.

    Source: planned less weighed; what is not worth a word is an own choice, SAME_SHARE.
    """
    have = _masses(actual)
    owed = {name: mass - have.get(name, 0.0) for name, mass in _masses(planned).items()}
    short = {name: gap for name, gap in owed.items() if gap > SAME_SHARE.value * _masses(planned)[name]}
    if not short:
        return None
    amounts = ", ".join(f"{gap:.0f} g of {name}" for name, gap in short.items())
    return Remedy("C5", "Add what is missing", f"Weigh in {amounts}. Then all is as planned.", sum(short.values()))


def remedies_before_lye(
    fats_actual: Sequence[Fat],
    fats_planned: Sequence[Fat],
    superfat: float,
    alkali: Alkali,
    acids: Iterable[Acid] = (),
) -> tuple[Remedy, ...]:
    """Return the ways out while the lye is not made; the first is the one to take without a reason against it.

    Raises:
        OutOfRange: no fat weighed, or a superfat out of range.

    Source: mole balance; the order is an own choice.
    """
    if careful_mol(fats_actual) < SMALLEST:
        raise OutOfRange("There is no fat here that takes alkali. Weigh the fats first.")
    owed = add_what_is_owed(fats_actual, fats_planned)
    found = [owed, recompute_alkali(fats_actual, superfat, alkali, acids)]
    ratios = _ratios(fats_actual, fats_planned)
    over, (short, least) = max(ratios.values()), min(ratios.items(), key=lambda pair: pair[1])
    if over > 1 + SAME_SHARE.value:
        found.append(keep_proportions(fats_planned, over))
    if 0 < least < 1 - SAME_SHARE.value:
        found.append(shrink_to_stock(fats_planned, short, _masses(fats_actual)[short]))
    return tuple(remedy for remedy in found if remedy)


def _masses(fats: Sequence[Fat]) -> dict[str, float]:
    masses: dict[str, float] = {}
    for fat in fats:
        masses[fat.name] = masses.get(fat.name, 0.0) + fat.mass_g
    return masses


def _ratios(actual: Sequence[Fat], planned: Sequence[Fat]) -> dict[str, float]:
    have = _masses(actual)
    ratios = {name: have.get(name, 0.0) / mass for name, mass in _masses(planned).items() if mass > SMALLEST}
    return ratios or {"": 1.0}


CONSTANTS = (SAME_SHARE,)
_AT = "soapbench.science.remedy_before."
RELATIONS = (
    Relation("C1 alkali for the fats as they are", "N = (1 - f) A / p", "g", STOICHIOMETRY, _AT + "recompute_alkali"),
    Relation("C1 water for the alkali", "W = N (1 - c) / c", "g", STOICHIOMETRY, _AT + "water_for"),
    Relation("C7 keep the proportions", "every fat x k", "g", STOICHIOMETRY, _AT + "keep_proportions"),
    Relation("C14 shrink to stock", "every fat x have / need", "g", STOICHIOMETRY, _AT + "shrink_to_stock"),
    Relation("C14 substitute", "gap = need - have, then C1", "g", STOICHIOMETRY, _AT + "substitute"),
    Relation("what is owed", "planned - actual", "g", STOICHIOMETRY, _AT + "add_what_is_owed"),
    Relation("ways out before the lye", "C1, C5, C7, C14", "", OWN_CHOICE, _AT + "remedies_before_lye"),
)
