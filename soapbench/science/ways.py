"""Two ways to a superfat, by less alkali or by more fat, and why their per cents differ."""

from __future__ import annotations

from collections.abc import Sequence

from .alkali import Alkali, AlkaliMass, alkali_for, check_superfat, demand_mol
from .errors import SMALLEST, OutOfRange, not_negative
from .fats import Fat
from .sources import STOICHIOMETRY, Constant, Relation
from .words import say


def superfat_from_excess_fat(excess: float) -> float:
    """Return the superfat, a fraction, when so much of the same fat is added on top of fats with their full alkali.

    f = e / (1 + e): 5 % of extra fat is a superfat of 4.76 %.

    Raises:
        OutOfRange: a negative share.

    Source: mole balance.
    """
    return not_negative(excess, "The share of extra fat", "%") / (1 + excess)


def excess_fat_from_superfat(superfat: float) -> float:
    """Return the share of extra fat, of the fats below it, that equals this superfat: e = f / (1 - f).

    Raises:
        OutOfRange: a superfat below 0 or above 50 %.

    Source: mole balance.
    """
    return check_superfat(superfat) / (1 - superfat)


def alkali_in_full(fats: Sequence[Fat], alkali: Alkali) -> AlkaliMass:
    """Return the alkali for all of these fats with no discount, on the careful side of wide ranges, g to weigh.

    Raises:
        OutOfRange: there is no fat that takes alkali.

    Source: as alkali.alkali_for, with no superfat.
    """
    return alkali_for(fats, 0.0, alkali)


def superfat_of_added_fat(base: Sequence[Fat], extra: Sequence[Fat]) -> float:
    """Return the superfat that extra fat leaves over a base that gets its full alkali, by what each can take.

    f = demand of the extra / demand of all. Grams alone would mislead: a gram of coconut oil takes 1.35 times
    the alkali of a gram of olive oil.

    Raises:
        OutOfRange: nothing there takes alkali.

    Source: mole balance.
    """
    total = demand_mol(base) + demand_mol(extra)
    if total < SMALLEST:
        raise OutOfRange(say("There is no fat here that takes alkali. Weigh the fats first."))
    return demand_mol(extra) / total


def two_ways(superfat: float) -> str:
    """Return the sentences that name both ways and say how their per cents differ, for this superfat.

    Raises:
        OutOfRange: a superfat below 0 or above 50 %.

    Source: mole balance; that alkali picks no favourites is general chemistry, from memory.
    """
    excess = excess_fat_from_superfat(superfat)
    return say(
        "Alkali discount: {superfat:.3g} % of the alkali that all fats could take is left out, so "
        "{superfat:.3g} % of the fat finds none. Excess fat: full alkali for the recipe, then {excess:.3g} % "
        "more fat on top; it is the same bar. The same per cent said of extra fat leaves only "
        "{superfat_from_excess_fat:.3g} % superfat. Either way the alkali picks no favourites: the fat that "
        "is left over is a mixture of all of them.",
        superfat=100 * superfat,
        excess=100 * excess,
        superfat_from_excess_fat=100 * superfat_from_excess_fat(superfat),
    )


CONSTANTS: tuple[Constant, ...] = ()
_AT = "soapbench.science.ways."
RELATIONS = (
    Relation("superfat by excess fat", "f = e / (1 + e)", "share", STOICHIOMETRY, _AT + "superfat_from_excess_fat"),
    Relation("excess fat for a superfat", "e = f / (1 - f)", "share", STOICHIOMETRY, _AT + "excess_fat_from_superfat"),
    Relation(
        "alkali with no discount", "n = sum of mass x SV / 1000 / M(KOH)", "g", STOICHIOMETRY, _AT + "alkali_in_full"
    ),
    Relation(
        "superfat of a fat added on top",
        "f = n extra / (n base + n extra)",
        "share",
        STOICHIOMETRY,
        _AT + "superfat_of_added_fat",
    ),
    Relation(
        "two ways to a superfat", "f by discount; e = f / (1 - f) by excess", "share", STOICHIOMETRY, _AT + "two_ways"
    ),
)
