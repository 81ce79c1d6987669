"""Scent, colour, mould and cure when they depart from the plan."""

from __future__ import annotations

from .drying import LEVEL, water_left
from .errors import OutOfRange, fraction, not_negative, positive
from .remedy_answer import Remedy, percent
from .sources import STOICHIOMETRY, Constant, Relation
from .words import say


def dose_for_portion(rate: float, share: float, fats_g: float) -> Remedy:
    """C10: grams for one portion: rate x share x fats.

    Raises:
        OutOfRange: a rate or share outside 0 to 1, or negative fats.

    Source: proportion.
    """
    grams = fraction(rate, "The rate") * fraction(share, "The share") * not_negative(fats_g, "The fats")
    return Remedy(
        "C10",
        say("For this portion"),
        say("Weigh {grams:.2f} g: {rate} of this portion's fats.", grams=grams, rate=percent(rate)),
        grams,
    )


def dose_for_rest(dose_g: float, poured_share: float) -> Remedy:
    """C11: scent remembered late. grams for the rest only: F (1 - u), never F.

    Raises:
        OutOfRange: a negative dose, or a share outside 0 to 1.

    Source: proportion.
    """
    grams = not_negative(dose_g, "The dose") * (1 - fraction(poured_share, "The share that is poured"))
    if poured_share == 1:
        return Remedy(
            "C11", say("All is poured"), say("All of it is poured: leave it out, and name the bar without it."), 0.0
        )
    sentence = say(
        "Add {grams:.1f} g to what is left, not {dose:.1f} g: the whole dose would be too strong there. Note "
        "that {poured_share} went without.",
        grams=grams,
        dose=dose_g,
        poured_share=percent(poured_share),
    )
    return Remedy("C11", say("Dose the rest"), sentence, grams)


def mould_gap(volume_ml: float, mould_ml: float) -> Remedy:
    """C12: batter against mould; grams is None, the sentence tells millilitres over or left.

    Raises:
        OutOfRange: a volume that is not above 0.

    Source: difference of the two volumes.
    """
    gap = positive(mould_ml, "The mould", "ml") - positive(volume_ml, "The batter", "ml")
    if gap < 0:
        sentence = say("{gap:.0f} ml will not go in. Have a small mould ready for it.", gap=-gap)
        return Remedy("C12", say("More than the mould holds"), sentence)
    sentence = say(
        "The mould is filled to {mould}; {gap:.0f} ml stay free.", mould=percent(volume_ml / mould_ml), gap=gap
    )
    return Remedy("C12", say("It fits"), sentence)


def keep_the_shade(share: float, have_g: float, need_g: float, batter_g: float) -> Remedy:
    """C13, first way: short of colour. A smaller portion in the same shade; grams is the batter that moves elsewhere.

    share' = share x have / need.

    Raises:
        OutOfRange: nothing is short, or a share outside 0 to 1.

    Source: proportion.
    """
    left = _colour_left(have_g, need_g)
    smaller = fraction(share, "The share") * left
    moved = (share - smaller) * positive(batter_g, "The batter")
    sentence = say(
        "Make this portion {smaller} of the batter in place of {share} and give {moved:.0f} g to another portion.",
        smaller=percent(smaller),
        share=percent(share),
        moved=moved,
    )
    return Remedy("C13", say("Keep the shade, make less of it"), sentence, moved)


def keep_the_size(rate: float, have_g: float, need_g: float) -> Remedy:
    """C13, second way: short of colour. The same portion paler; rate' = rate x have / need, grams is what there is.

    Raises:
        OutOfRange: nothing is short, or a rate outside 0 to 1.

    Source: proportion.
    """
    paler = fraction(rate, "The rate") * _colour_left(have_g, need_g)
    sentence = say(
        "Use all {have:.2f} g: {paler} in place of {rate}, so expect a paler shade.",
        have=have_g,
        paler=percent(paler),
        rate=percent(rate),
    )
    return Remedy("C13", say("Keep the size, paler"), sentence, have_g)


def _colour_left(have_g: float, need_g: float) -> float:
    left = not_negative(have_g, "What is left of the colour") / positive(need_g, "The colour needed")
    if left >= 1:
        raise OutOfRange(say("There is enough of this colour. Nothing needs to change."))
    return left


def cure_progress(fresh_g: float, now_g: float, fresh_water: float, week_ago_g: float | None = None) -> Remedy:
    """C17: loss since fresh, water that is left, and whether the bar is level; grams is the loss.

    L = 1 - w / w0; water left = (w_f - L) / (1 - L); level below 0.5 % a week.

    Raises:
        OutOfRange: a mass that is not above 0, or a bar that grew or has lost more than all of its water.

    Source: mass balance of the water, as drying.water_left; level is an own choice, LEVEL.
    """
    water = water_left(fresh_water, fresh_g, now_g)
    loss = 1 - now_g / fresh_g
    if loss > fresh_water:
        raise OutOfRange(say("The bar has lost more than its water. Is it the same bar, whole?"))
    sentence = say("It has lost {loss} and still holds {water} water.", loss=percent(loss), water=percent(water))
    if week_ago_g is not None:
        weekly = 1 - now_g / positive(week_ago_g, "The bar a week ago")
        sentence += (
            " " + say("It is level.")
            if weekly < LEVEL.value
            else " " + say("It still loses {weekly} a week.", weekly=percent(weekly))
        )
    return Remedy("C17", "Cure", sentence, fresh_g - now_g)


CONSTANTS: tuple[Constant, ...] = ()
_AT = "soapbench.science.remedy_dose."
RELATIONS = (
    Relation("C10 addition per portion", "g_k = rate x share x fats", "g", STOICHIOMETRY, _AT + "dose_for_portion"),
    Relation("C11 scent for the rest", "F (1 - u)", "g", STOICHIOMETRY, _AT + "dose_for_rest"),
    Relation("C12 mould against batter", "mould - batter", "ml", STOICHIOMETRY, _AT + "mould_gap"),
    Relation("C13 keep the shade", "share' = share x have / need", "share", STOICHIOMETRY, _AT + "keep_the_shade"),
    Relation("C13 keep the size", "rate' = rate x have / need", "share", STOICHIOMETRY, _AT + "keep_the_size"),
    Relation(
        "C17 cure progress", "L = 1 - w/w0; water = (w_f - L) / (1 - L)", "share", STOICHIOMETRY, _AT + "cure_progress"
    ),
)
