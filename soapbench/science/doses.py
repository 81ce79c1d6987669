"""Scents and colours by mass, and their limits in each portion and in the bar as a whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor
from typing import Literal

from .errors import OutOfRange, between, chosen, not_negative, number, positive
from .sources import COMMON_PRACTICE, OWN_CHOICE, Constant, Relation, Source
from .words import figure, say

Basis = Literal["percent of fats", "percent of batter", "grams per kg of fats", "grams"]

_LOCAL = Source(
    "local-share",
    "Local share of an addition",
    "a bar may be cut from one portion alone, so each portion must keep the limit by itself",
    "own choice",
)

CURE_LOSS = Constant(
    "mass that a bar loses while it cures, dry end",
    "L",
    0.15,
    "share of the fresh bar",
    COMMON_PRACTICE,
    "finished_g",
    why="The dry end of the usual 10 to 15 %: the drier bar holds the larger share of scent.",
)


@dataclass(frozen=True, slots=True)
class Limit:
    """The highest per cent allowed, of what, who says so, and how far that can be trusted.

    Raises:
        OutOfRange: a limit outside 0 to 100 %, or of something else.
    """

    max_percent: float
    of: Literal["finished product", "fats"]
    source: str
    confidence: str

    def __post_init__(self) -> None:
        between(self.max_percent, 0, 100, "A limit", "%")
        chosen(self.of, ("finished product", "fats"), "what a limit counts on")


@dataclass(frozen=True, slots=True)
class DoseCheck:
    """Whether a dose keeps its limit, its per cent, and the sentence for the screen."""

    ok: bool
    percent: float
    limit: Limit | None
    sentence: str


@dataclass(frozen=True, slots=True)
class PortionDose:
    """What one portion gets, and the mass that it counts against (its finished bars, or its fats), g."""

    portion: str
    mass_g: float
    product_g: float


@dataclass(frozen=True, slots=True)
class PortionChecks:
    """The check of each portion by its letter, and that of the whole bar; ok when every one of them is."""

    portions: tuple[tuple[str, DoseCheck], ...]
    whole: DoseCheck

    @property
    def ok(self) -> bool:
        """Return whether each portion and the whole keep the limit."""
        return self.whole.ok and all(check.ok for _, check in self.portions)

    @property
    def sentence(self) -> str:
        """Return the first complaint, with its portion, or the whole bar's sentence."""
        for portion, check in self.portions:
            if not check.ok:
                return say("Portion {portion}: {sentence}", portion=portion, sentence=check.sentence)
        return self.whole.sentence


def dose_g(amount: float, basis: Basis, fats_g: float, batter_g: float) -> float:
    """Return the grams of an addition from its amount and what the amount counts on.

    Raises:
        OutOfRange: a negative amount, fats or batter; more than 100 %; or an unknown basis.

    Source: per cent by mass; common practice of the trade counts on the fats.
    """
    not_negative(amount, "The amount")
    grams_for_one = {
        "percent of fats": not_negative(fats_g, "The mass of the fats") / 100,
        "percent of batter": not_negative(batter_g, "The mass of the batter") / 100,
        "grams per kg of fats": fats_g / 1000,
        "grams": 1.0,
    }
    chosen(basis, grams_for_one, "what an amount counts on")
    if basis.startswith("percent") and amount > 100:
        raise OutOfRange(say("{amount:g} % is more than everything. Check the decimal mark.", amount=amount))
    return amount * grams_for_one[basis]


def finished_g(batter_g: float, loss: float = CURE_LOSS.value) -> float:
    """Return the mass of the cured bars from a batter, g: what a limit in the finished product counts on.

    Raises:
        OutOfRange: a negative batter, or a loss outside 0 to below 1.

    Source: bars lose 10 to 15 % of their fresh mass, common practice; the dry end is the careful one.
    """
    if not 0 <= number(loss, "The loss") < 1:
        raise OutOfRange(say("A bar cannot lose {loss:g} % of its mass.", loss=100 * loss))
    return not_negative(batter_g, "The mass of the batter") * (1 - loss)


def check_dose(name: str, mass_g: float, product_g: float, limit: Limit | None) -> DoseCheck:
    """Compare a dose with its limit in the mass that it is part of.

    product_g is the finished mass of the portion or the bar, or its fats when the limit counts on fats.
    Without a limit the answer is no, with the sentence that says what to do.

    Raises:
        OutOfRange: a negative dose, or a product that is not above 0.

    Source: per cent by mass, as IFRA standards and cosmetics law count; the limit names its own source.
    """
    percent = (
        100 * not_negative(mass_g, "The mass of {name}", name=name) / positive(product_g, "The mass of the product")
    )
    if limit is None:
        return DoseCheck(
            False,
            percent,
            None,
            say(
                "No limit is known for {name}. Enter the category 9 figure of the supplier's certificate before you "
                "use it.",
                name=name,
            ),
        )
    told: dict[str, object] = {
        "name": name,
        "percent": percent,
        "of": say(limit.of),
        "most": limit.max_percent,
        "source": limit.source,
        "confidence": say(limit.confidence),
    }
    if percent <= limit.max_percent * (1 + 1e-9):
        allowed = say(
            "{name} is {percent:.3g} % of the {of}; up to {most:g} % is allowed ({source}, {confidence}).", **told
        )
        return DoseCheck(True, percent, limit, allowed)
    use = _cut(limit.max_percent / 100 * product_g)
    over = say(
        "{name} is {percent:.3g} % of the {of}, over {most:g} % ({source}, {confidence}). Use {use} g or less here.",
        use=use,
        **told,
    )
    return DoseCheck(False, percent, limit, over)


def _cut(grams: float) -> str:
    # Cut off, never rounded up: the figure itself must keep the limit.
    return figure(floor(grams * 100 + 1e-9) / 100, "g")


def largest_dose_g(product_g: float, limit: Limit) -> float:
    """Return the most grams that keep the limit in this mass.

    Raises:
        OutOfRange: a negative product.

    Source: per cent by mass, turned round.
    """
    return not_negative(product_g, "The mass of the product") * limit.max_percent / 100


def check_portions(name: str, doses: Sequence[PortionDose], limit: Limit | None) -> PortionChecks:
    """Check one addition in each portion that holds it and in the bar as a whole.

    Raises:
        OutOfRange: no portion, or a portion without mass.

    Source: a bar may be cut from one portion alone, so the local share counts too; own choice.
    """
    if not doses:
        raise OutOfRange(say("Say which portion gets {name}.", name=name))
    portions = tuple(
        (dose.portion, check_dose(name, dose.mass_g, dose.product_g, limit)) for dose in doses if dose.mass_g > 0
    )
    whole = check_dose(name, sum(dose.mass_g for dose in doses), sum(dose.product_g for dose in doses), limit)
    return PortionChecks(portions, whole)


@dataclass(frozen=True, slots=True)
class SpoonMass:
    """Grams in the spoons, and the warning that goes with every such figure."""

    grams: float
    warning: str


def spoon_to_g(spoons: float, spoon_ml: float, density_g_per_ml: float | None) -> SpoonMass:
    """Return the mass in level spoons of a stuff whose bulk density is stated.

    Raises:
        OutOfRange: no density stated, a negative number of spoons, or a spoon or density that is not above 0.

    Source: mass = volume x density; that a teaspoon of powder weighs 1.5 to 5 g is from memory.
    """
    if density_g_per_ml is None:
        raise OutOfRange(say("A spoon is not a weight. Weigh one level spoon and enter its grams per ml first."))
    grams = (
        not_negative(spoons, "The number of spoons")
        * positive(spoon_ml, "The spoon", "ml")
        * positive(density_g_per_ml, "The density", "g/ml")
    )
    return SpoonMass(
        grams,
        say("A spoon is a guess: a level teaspoon of powder weighs from 1.5 to 5 g. Weigh it, and record the grams."),
    )


CONSTANTS = (CURE_LOSS,)
_AT = "soapbench.science.doses."
RELATIONS = (
    Relation("dose", "grams = amount x what it counts on", "g", COMMON_PRACTICE, _AT + "dose_g"),
    Relation("finished mass", "batter x (1 - L)", "g", COMMON_PRACTICE, _AT + "finished_g"),
    Relation("share against its limit", "100 x dose / product <= limit", "%", OWN_CHOICE, _AT + "check_dose"),
    Relation("largest dose", "product x limit / 100", "g", OWN_CHOICE, _AT + "largest_dose_g"),
    Relation(
        "share in each portion", "100 x dose / portion, and 100 x all / whole", "%", _LOCAL, _AT + "check_portions"
    ),
    Relation("spoons to grams", "spoons x ml x density", "g", COMMON_PRACTICE, _AT + "spoon_to_g"),
)
