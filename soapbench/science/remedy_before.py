"""A fat came out over or short, and the lye is not made yet."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from .alkali import Acid, Alkali, AlkaliMass, alkali_for, careful_mol, superfat_of
from .errors import SMALLEST, OutOfRange, not_negative, number, positive
from .fats import Fat
from .lye import water_to_alkali
from .remedy_answer import Remedy, percent, scaled
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation
from .superfat import Weighing, superfat_interval
from .words import say

SAME_SHARE = Constant(
    "departure from the plan that is not worth a word",
    "",
    0.001,
    "share",
    OWN_CHOICE,
    "remedies_before_lye",
    why="A gram in a kilogram changes no superfat that can be told.",
)

_HAIR = 1e-6  # grams


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
        say("Take the fats as they are"),
        say(
            "Weigh {total:.1f} g of alkali into {water:.0f} g of water. The superfat stays as planned.",
            total=weighed.total_g,
            water=water,
        ),
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
        raise OutOfRange(say("To keep the proportions, the factor must be 1 or more."))
    larger = scaled(planned, factor)
    amounts = ", ".join(say("{name} {mass:.0f} g", name=name, mass=mass) for name, mass in _masses(larger).items())
    return Remedy(
        "C7",
        say("Make a bigger batch in the same proportions"),
        say(
            "Bring every fat up: {amounts}. Alkali, water, scent and colour grow by {factor} too.",
            amounts=amounts,
            factor=percent(factor - 1),
        ),
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
        raise OutOfRange(say("There is no {short} in this recipe.", short=short))
    factor = positive(have_g, "What is left of {short}", short=short) / needed
    smaller = scaled(planned, factor)
    amounts = ", ".join(say("{name} {mass:.0f} g", name=name, mass=mass) for name, mass in _masses(smaller).items())
    return Remedy(
        "C14",
        say("Make a smaller batch"),
        say(
            "Take {factor} of everything: {amounts}. Alkali, water and additions shrink with it.",
            factor=percent(factor),
            amounts=amounts,
        ),
        sum(fat.mass_g for fat in smaller),
        factor=factor,
    )


def substitute(planned: Sequence[Fat], short: str, have_g: float, other: Fat) -> tuple[list[Fat], Remedy]:
    """C14, second way: another fat fills the gap gram for gram; returns the new fats for C1, and the sentence.

    Raises:
        OutOfRange: the fat is not in the plan, or nothing is missing of it.

    Source: mass balance.
    """
    needed = sum(fat.mass_g for fat in planned if fat.name == short)
    gap = needed - not_negative(have_g, "What is left of {short}", short=short)
    if needed < SMALLEST or gap <= 0:
        raise OutOfRange(say("Nothing is missing of {short}.", short=short))
    kept = [replace(fat, mass_g=fat.mass_g * have_g / needed) if fat.name == short else fat for fat in planned]
    return [*kept, replace(other, mass_g=gap)], Remedy(
        "C14",
        say("Fill up with {name}", name=other.name),
        say(
            "Weigh {gap:.0f} g of {name} in place of {short}, then the alkali for the new mixture. The bar "
            "changes with its fats, and so does its label.",
            gap=gap,
            name=other.name,
            short=short,
        ),
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
    amounts = ", ".join(say("{gap:.0f} g of {name}", gap=gap, name=name) for name, gap in short.items())
    sentence = say("Weigh in {amounts}. Then all is as planned.", amounts=amounts)
    return Remedy("C5", say("Add what is missing"), sentence, sum(short.values()), adds=tuple(short.items()))


def take_less_of(actual: Sequence[Fat], planned: Sequence[Fat], over: str, other: str) -> Remedy | None:
    """Make up for one fat with another that is not weighed yet: the batch keeps its size; None when it cannot.

    grams is what is then weighed of the other fat. Source: the fats keep their sum; own choice.
    """
    have, wanted = _masses(actual), _masses(planned)
    gap = have.get(over, 0.0) - wanted.get(over, 0.0)
    left = wanted.get(other, 0.0) - gap
    if left < SMALLEST or gap == 0 or over == other:
        return None
    if gap > 0:
        title = say("Take {gap:.0f} g less of {other}", gap=gap, other=other)
    else:
        title = say("Take {gap:.0f} g more of {other}", gap=-gap, other=other)
    sentence = say(
        "Weigh {left:.0f} g of {other}: the batch keeps its size. Alkali and water are then worked out anew.",
        left=left,
        other=other,
    )
    return Remedy("C14", title, sentence, left, adds=((other, -gap),))


def keep_planned_alkali(
    actual: Sequence[Fat], planned: AlkaliMass, alkali: Alkali, acids: Iterable[Acid] = ()
) -> Remedy:
    """C2 before the lye: the planned alkali for the fats as they are; grams is that alkali.

    Raises:
        OutOfRange: no fat that takes alkali.

    Source: alkali.superfat_of.
    """
    value = superfat_of(actual, planned, alkali, acids)
    sentence = say("Weigh {total:.1f} g of alkali all the same.", total=planned.total_g)
    return Remedy("C2", say("Keep the planned alkali"), sentence, planned.total_g, value)


def remedies_before_lye(
    fats_actual: Sequence[Fat],
    fats_planned: Sequence[Fat],
    superfat: float,
    alkali: Alkali,
    acids: Iterable[Acid] = (),
    *,
    open_fats: Collection[str] = (),
    planned_alkali: AlkaliMass | None = None,
    scale: Weighing | None = None,
) -> tuple[Remedy, ...]:
    """Return the ways out while the lye is not made; the first is the one to take without a reason against it.

    Args:
        open_fats: names of fats that are not weighed yet; fats_actual counts them as planned.
        planned_alkali: offers to keep it, too.

    Raises:
        OutOfRange: no fat weighed, or a superfat out of range.

    Source: mole balance; the order is an own choice.
    """
    if careful_mol(fats_actual) < SMALLEST:
        raise OutOfRange(say("There is no fat here that takes alkali. Weigh the fats first."))
    acids = tuple(acids)
    found = [add_what_is_owed(fats_actual, fats_planned), recompute_alkali(fats_actual, superfat, alkali, acids)]
    ratios = _ratios(fats_actual, fats_planned)
    over, (short, least) = max(ratios.values()), min(ratios.items(), key=lambda pair: pair[1])
    if over > 1 + SAME_SHARE.value:
        found.append(_topped_up(keep_proportions(fats_planned, over), fats_actual, fats_planned, over, open_fats))
    found.extend(_made_up_for(fats_actual, fats_planned, ratios, open_fats))
    if 0 < least < 1 - SAME_SHARE.value:
        found.append(shrink_to_stock(fats_planned, short, _masses(fats_actual)[short]))
    if planned_alkali is not None:
        found.append(keep_planned_alkali(fats_actual, planned_alkali, alkali, acids))
    told = _Telling(tuple(fats_actual), tuple(fats_planned), superfat, alkali, acids, planned_alkali, scale)
    return tuple(told.with_interval(remedy) for remedy in found if remedy)


def _topped_up(
    remedy: Remedy, actual: Sequence[Fat], planned: Sequence[Fat], factor: float, open_fats: Collection[str]
) -> Remedy:
    """Name what the fats that are weighed already still need; an open one takes the factor by itself."""
    have = _masses(actual)
    gaps = {name: factor * mass - have.get(name, 0.0) for name, mass in _masses(planned).items()}
    adds = tuple((name, gap) for name, gap in gaps.items() if name not in open_fats and gap > _HAIR)
    return replace(remedy, adds=adds, factor=factor)


def _made_up_for(
    actual: Sequence[Fat], planned: Sequence[Fat], ratios: dict[str, float], open_fats: Collection[str]
) -> list[Remedy]:
    off = [name for name, ratio in ratios.items() if abs(ratio - 1) > SAME_SHARE.value and name not in open_fats]
    if len(off) != 1:
        return []
    largest = sorted((name for name in ratios if name in open_fats), key=lambda name: -_masses(planned)[name])
    return [remedy for name in largest[:1] if (remedy := take_less_of(actual, planned, off[0], name))]


@dataclass(frozen=True)
class _Telling:
    """What the batch would have after each way out."""

    actual: tuple[Fat, ...]
    planned: tuple[Fat, ...]
    superfat: float
    alkali: Alkali
    acids: tuple[Acid, ...]
    planned_alkali: AlkaliMass | None
    scale: Weighing | None

    def with_interval(self, remedy: Remedy) -> Remedy:
        fats = self._fats(remedy)
        weighed = alkali_for(fats, self.superfat, self.alkali, self.acids)
        if remedy.code == "C2" and self.planned_alkali is not None:
            weighed = self.planned_alkali
        found = superfat_interval(fats, weighed, self.alkali, self.acids, self.scale)
        return replace(remedy, interval=found, superfat=found.central)

    def _fats(self, remedy: Remedy) -> Sequence[Fat]:
        if remedy.factor is not None:
            return scaled(self.planned, remedy.factor)
        return _with_adds(self.actual, self.planned, remedy.adds)


def _with_adds(actual: Sequence[Fat], planned: Sequence[Fat], adds: Iterable[tuple[str, float]]) -> tuple[Fat, ...]:
    """Return the fats with what a way out adds or takes, g; values of a fat that is not in come from the plan."""
    values = {fat.name: fat for fat in (*planned, *actual)}
    more = dict(adds)
    masses = _masses(actual)
    changed = {**masses, **{name: masses.get(name, 0.0) + gap for name, gap in more.items() if name in values}}
    kept = [fat for fat in actual if fat.name not in more]
    return (*kept, *(replace(values[name], mass_g=max(0.0, changed[name])) for name in more if name in values))


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
    Relation("C14 another fat makes up for it", "planned - (actual - planned)", "g", OWN_CHOICE, _AT + "take_less_of"),
    Relation("C2 keep the planned alkali", "f' = 1 - p N / A", "share", STOICHIOMETRY, _AT + "keep_planned_alkali"),
    Relation("ways out before the lye", "C1, C5, C7, C14", "", OWN_CHOICE, _AT + "remedies_before_lye"),
)
