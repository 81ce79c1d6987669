"""The superfat of each portion when some oil or acid goes to one portion only."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .alkali import Acid, Alkali, AlkaliMass, superfat_of
from .errors import SMALLEST, OutOfRange, fraction
from .fats import Fat
from .scale import Weighing
from .sources import STOICHIOMETRY, Constant, Relation
from .superfat import SuperfatInterval, superfat_interval
from .words import say

BASE = "base"
NOTHING_LEFT = 1e-9  # shares are sums of fractions, which seldom make exactly 1


@dataclass(frozen=True, slots=True)
class Portion:
    """A share of the base batter, a fraction by mass, and the oil and acid that go into it alone.

    Oil of a colour slurry, of a diluted scent, or kept back from the pot and returned to one portion: all count here.

    Raises:
        OutOfRange: a share outside 0 to 1.
    """

    letter: str
    share: float
    oil: tuple[Fat, ...] = ()
    acids: tuple[Acid, ...] = ()

    def __post_init__(self) -> None:
        fraction(self.share, "The share of portion {letter}", letter=self.letter)


@dataclass(frozen=True, slots=True)
class PortionSuperfats:
    """The superfat of the base batter, of each portion by letter, and of the batch as a whole, fractions.

    rest is the share of the batter that is in no portion: only then is there a bar of the base alone.
    """

    base: float
    portions: tuple[tuple[str, float], ...]
    batch: float
    rest: float = 1.0

    @property
    def lowest(self) -> float:
        """Return the lowest superfat of any bar of the batch."""
        return min(value for _, value in self._places)

    @property
    def _places(self) -> list[tuple[str, float]]:
        alone = self.rest > NOTHING_LEFT or not self.portions
        return [(BASE, self.base), *self.portions] if alone else [*self.portions]

    @property
    def sentence(self) -> str:
        """Return what the spread means for the maker."""
        worst = min(self._places, key=lambda pair: pair[1])
        if worst[1] < 0:
            where = say("The base batter") if worst[0] == BASE else say("Portion {worst}", worst=worst[0])
            return say(
                "{where} would be lye-heavy ({worst:.1f} %) although the batch has {batch:.1f} %. Share the oil "
                "among all portions, or stir it into the whole batter.",
                where=where,
                worst=100 * worst[1],
                batch=100 * self.batch,
            )
        highest = max(value for _, value in self._places)
        return say(
            "The superfat runs from {worst:.1f} to {highest:.1f} % across the batch.",
            worst=100 * worst[1],
            highest=100 * highest,
        )


def portion_superfats(
    base_fats: Sequence[Fat],
    weighed: AlkaliMass,
    alkali: Alkali,
    portions: Sequence[Portion],
    acids: Iterable[Acid] = (),
) -> PortionSuperfats:
    """Return the superfat of each portion; base_fats are the fats in the pot when the lye goes in.

    f_b = 1 - n / A_b; f_k = 1 - share n / (share A_b + oil): the lye is shared as the batter is, the oil is not.

    Raises:
        OutOfRange: no fat, or portions that are together more than the batter.

    Source: mole balance.
    """
    acids = tuple(acids)
    _check_shares(portions)
    every_oil = [fat for portion in portions for fat in portion.oil]
    every_acid = [*acids, *(acid for portion in portions for acid in portion.acids)]
    return PortionSuperfats(
        base=superfat_of(base_fats, weighed, alkali, acids),
        portions=tuple(
            (portion.letter, superfat_of(*portion_of(base_fats, weighed, portion), alkali, _acids(portion, acids)))
            for portion in portions
            if portion.share > SMALLEST
        ),
        batch=superfat_of([*base_fats, *every_oil], weighed, alkali, every_acid),
        rest=max(0.0, 1 - sum(portion.share for portion in portions)),
    )


def portion_of(base_fats: Sequence[Fat], weighed: AlkaliMass, portion: Portion) -> tuple[list[Fat], AlkaliMass]:
    """Return the fats and the alkali of one portion: its share of the base, and its own oil in full.

    Source: mass balance; the lye is shared as the batter is.
    """
    fats = [replace(fat, mass_g=portion.share * fat.mass_g) for fat in base_fats]
    share = AlkaliMass(portion.share * weighed.naoh_g, portion.share * weighed.koh_g)
    return [*fats, *portion.oil], share


def portion_interval(
    base_fats: Sequence[Fat],
    weighed: AlkaliMass,
    alkali: Alkali,
    portion: Portion,
    acids: Iterable[Acid] = (),
    scale: Weighing | None = None,
) -> SuperfatInterval:
    """Return the 95 % interval of one portion's superfat.

    The doubts of the weighings belong to the whole batch, so they are scaled with the portion.

    Raises:
        OutOfRange: the portion is empty, or holds no fat that takes alkali.

    Source: as superfat.superfat_interval.
    """
    if portion.share < SMALLEST:
        raise OutOfRange(say("Portion {letter} is empty. Give it a share of the batter.", letter=portion.letter))
    scale = scale or Weighing(1.0)
    fats, share = portion_of(base_fats, weighed, portion)
    return superfat_interval(fats, share, alkali, _acids(portion, tuple(acids)), _shrunk(scale, portion.share))


def _shrunk(scale: Weighing, share: float) -> Weighing:
    """Return the scale as it looks from a portion: the weighings were made of the whole batch."""
    repeat = None if scale.repeat_g is None else scale.repeat_g * share
    error = None if scale.mpe_g is None else scale.mpe_g * share
    return Weighing(scale.resolution_g * share, repeat, error)


def _acids(portion: Portion, acids: tuple[Acid, ...]) -> list[Acid]:
    return [*(replace(acid, mass_g=portion.share * acid.mass_g) for acid in acids), *portion.acids]


def _check_shares(portions: Sequence[Portion]) -> None:
    total = sum(portion.share for portion in portions)
    if total > 1 + 1e-9:
        raise OutOfRange(
            say("The portions are together {total:.0f} % of the batter. Make them 100 % or less.", total=100 * total)
        )


CONSTANTS: tuple[Constant, ...] = ()
_AT = "soapbench.science.portions."
RELATIONS = (
    Relation(
        "superfat of a portion",
        "f_k = 1 - share n / (share A_b + S_e e_k)",
        "share",
        STOICHIOMETRY,
        _AT + "portion_superfats",
    ),
    Relation("fats and alkali of a portion", "share x base + own oil", "g", STOICHIOMETRY, _AT + "portion_of"),
    Relation(
        "interval of a portion",
        "as the superfat interval, weighings scaled by the share",
        "share",
        STOICHIOMETRY,
        _AT + "portion_interval",
    ),
)
