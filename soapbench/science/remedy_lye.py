"""The lye is made but not in the pot: pour part of it, make more, put its water right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from .alkali import Acid, Alkali, AlkaliMass, alkali_for, superfat_of
from .errors import OutOfRange, not_negative, number, positive
from .fats import Fat
from .lye_properties import STRONGEST
from .remedy_answer import Remedy, percent
from .remedy_before import SAME_SHARE, water_for
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation
from .superfat import Weighing, superfat_interval
from .words import mark, say

_GUARD = mark("Goggles and gloves on.")


def pour_part_of_lye(made_g: float, solution_g: float, needed_g: float) -> Remedy:
    """C3: fats short. grams is how much of the solution to pour: S_use = S_total x N_new / N.

    Args:
        made_g: alkali dissolved, as weighed, g.
        solution_g: the whole solution, g.
        needed_g: alkali that is needed now, as weighed, g.

    Raises:
        OutOfRange: more is needed than was made, a solution lighter than its alkali, or a mass not above 0.

    Source: proportion.
    """
    _check_lye(made_g, solution_g)
    if positive(needed_g, "The alkali needed") > made_g:
        raise OutOfRange(say("More alkali is needed than was made. Make more solution instead."))
    pour = solution_g * needed_g / made_g
    return Remedy(
        "C3",
        say("Pour only part of the lye"),
        say(
            "Pour {pour:.1f} g of the {solution:.1f} g, clear and stirred, by the scale. Keep the other "
            "{rest:.1f} g labelled as lye, or make it harmless. {guard}",
            pour=pour,
            solution=solution_g,
            rest=solution_g - pour,
            guard=say(_GUARD),
        ),
        pour,
        lye_share=needed_g / made_g,
    )


def make_more_lye(made_g: float, solution_g: float, needed_g: float) -> Remedy:
    """C4: fats over. grams is the extra solution of the same strength: dN / c.

    Raises:
        OutOfRange: enough was made already, a solution lighter than its alkali, or a mass not above 0.

    Source: proportion; the same strength again.
    """
    _check_lye(made_g, solution_g)
    if positive(needed_g, "The alkali needed") <= made_g:
        raise OutOfRange(say("There is enough alkali in the lye already. Pour part of it instead."))
    more = needed_g - made_g
    extra = more * solution_g / made_g
    return Remedy(
        "C4",
        say("Make more lye"),
        say(
            "Dissolve {more:.1f} g of alkali in {water:.1f} g of water: {extra:.1f} g more of the same lye. "
            "Alkali into water, never water onto alkali. {guard}",
            more=more,
            water=extra - more,
            extra=extra,
            guard=say(_GUARD),
        ),
        extra,
        adds=(("water", extra - more),),
    )


def put_water_right(alkali_g: float, water_g: float, concentration: float) -> Remedy:
    """C8: wrong water. grams is the water still to add: dW = N (1 - c) / c - W'.

    Short water goes to the fats or the batter; below the mass of the alkali it must go in before use.

    Raises:
        OutOfRange: an alkali not above 0, a negative water, or a strength above 50 %.

    Source: definition of the strength; what more or less water does is common practice.
    """
    actual = positive(alkali_g, "The alkali") / (alkali_g + not_negative(water_g, "The water"))
    missing = water_for(alkali_g, concentration) - water_g
    if actual > STRONGEST.value:
        sentence = say(
            "The lye is at {actual}: too strong, the alkali may not dissolve. Pour it slowly into {missing:.0f} "
            "g of cold water before use. {guard}",
            actual=percent(actual),
            missing=missing,
            guard=say(_GUARD),
        )
        return Remedy("C8", say("Too little water: add it before use"), sentence, missing, adds=(("water", missing),))
    if missing <= 0:
        sentence = say(
            "The lye is at {actual}, {missing:.0f} g of water more than planned. It is safe: expect slower "
            "trace, a softer loaf, more ash, and a longer cure.",
            actual=percent(actual),
            missing=-missing,
        )
        return Remedy("C8", say("More water than planned"), sentence, 0.0)
    sentence = say(
        "The lye is at {actual}. It is safe, only quicker: stir {missing:.0f} g of water into the fats or "
        "the batter, or leave it.",
        actual=percent(actual),
        missing=missing,
    )
    return Remedy("C8", say("Less water than planned"), sentence, missing, adds=(("water", missing),))


def share_of_stock_lye(needed_g: float, stock_alkali_g: float, stock_water_g: float) -> Remedy:
    """C16: lye taken from a bigger make. grams is needs share x (N + W), never share x W.

    Raises:
        OutOfRange: the make holds less alkali than is needed, or a mass is not above 0.

    Source: proportion.
    """
    positive(needed_g, "The alkali needed")
    if needed_g > positive(stock_alkali_g, "The alkali in the make"):
        raise OutOfRange(say("The make does not hold that much alkali."))
    share = needed_g / stock_alkali_g
    pour = share * (stock_alkali_g + positive(stock_water_g, "The water in the make"))
    return Remedy(
        "C16",
        say("Take a share of the make"),
        say(
            "Pour {pour:.1f} g: {share} of alkali and water together, not of the water alone. {guard}",
            pour=pour,
            share=percent(share),
            guard=say(_GUARD),
        ),
        pour,
    )


def remedies_lye_made(
    fats: Sequence[Fat],
    made: AlkaliMass,
    water_g: float,
    superfat: float,
    alkali: Alkali,
    acids: Iterable[Acid] = (),
    scale: Weighing | None = None,
) -> tuple[Remedy, ...]:
    """Return the ways out while the made lye waits; the first is the one to take without a reason against it.

    Raises:
        OutOfRange: no fat, no alkali made, or a superfat out of range.

    Source: mole balance; the order is an own choice.
    """
    acids = tuple(acids)
    needed = alkali_for(fats, superfat, alkali, acids)
    solution = made.total_g + not_negative(water_g, "The water")
    ratio = needed.total_g / positive(made.total_g, "The alkali in the lye")
    now = superfat_of(fats, made, alkali, acids)

    def told(remedy: Remedy, used: AlkaliMass) -> Remedy:
        found = superfat_interval(fats, used, alkali, acids, scale)
        return replace(remedy, interval=found, superfat=found.central)

    if abs(ratio - 1) <= SAME_SHARE.value:
        return (told(Remedy("C2", say("Go on"), say("The lye fits: the superfat is {now}.", now=percent(now))), made),)
    accept = told(Remedy("C2", say("Use the lye as it is"), _as_it_is(now, superfat)), made)
    if ratio < 1:
        pour = pour_part_of_lye(made.total_g, solution, needed.total_g)
        return told(pour, AlkaliMass(made.naoh_g * ratio, made.koh_g * ratio)), accept
    return told(_more_of(made, solution, needed), needed), accept


def _as_it_is(now: float, superfat: float) -> str:
    if now < 0:
        return say("The bar would be lye-heavy by {now} and would burn skin. Do not.", now=percent(-now))
    if now < superfat:
        return say(
            "The bar then has {now} superfat: leaner than planned, less room for what was misread.", now=percent(now)
        )
    return say("The bar then has {now} superfat: softer, milder, fine.", now=percent(now))


def _more_of(made: AlkaliMass, solution_g: float, needed: AlkaliMass) -> Remedy:
    remedy = make_more_lye(made.total_g, solution_g, needed.total_g)
    jars = (("NaOH", needed.naoh_g - made.naoh_g), ("KOH", needed.koh_g - made.koh_g))
    return replace(remedy, adds=(*remedy.adds, *((jar, more) for jar, more in jars if more > 0)))


def _check_lye(made_g: float, solution_g: float) -> None:
    if positive(made_g, "The alkali in the lye") > number(solution_g, "The solution"):
        raise OutOfRange(say("The solution cannot weigh less than the alkali in it. Weigh it without its jug."))


CONSTANTS: tuple[Constant, ...] = ()
_AT = "soapbench.science.remedy_lye."
RELATIONS = (
    Relation("C3 pour part of the lye", "S_use = S_total x N_new / N", "g", STOICHIOMETRY, _AT + "pour_part_of_lye"),
    Relation("C4 make more lye", "extra = (N_new - N) / c", "g", STOICHIOMETRY, _AT + "make_more_lye"),
    Relation(
        "C8 wrong water", "c' = N / (N + W'); dW = N (1 - c) / c - W'", "g", STOICHIOMETRY, _AT + "put_water_right"
    ),
    Relation("C16 share of a make", "needed / N x (N + W)", "g", STOICHIOMETRY, _AT + "share_of_stock_lye"),
    Relation("ways out with the lye made", "C2, C3, C4", "", OWN_CHOICE, _AT + "remedies_lye_made"),
)
