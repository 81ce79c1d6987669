"""The lye is in the pot: what superfat the batch has now, and what puts it right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .alkali import (
    Acid,
    Alkali,
    AlkaliMass,
    acid_mol,
    alkali_for,
    careful_mol,
    check_superfat,
    excess_alkali_g,
    pure_equivalents,
    superfat_of,
)
from .atoms import KOH
from .errors import SMALLEST, OutOfRange
from .fats import Fat
from .remedy_answer import Remedy, percent
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation
from .superfat import SuperfatInterval, Weighing, superfat_interval
from .words import say

CLOSE_ENOUGH = Constant(
    "departure from the asked superfat that is left alone",
    "",
    0.005,
    "share",
    OWN_CHOICE,
    "remedies_lye_in",
    why="Half a point is within the doubt of any recipe.",
)
HIGH = Constant(
    "superfat above which the bar turns soft and rancid sooner",
    "",
    0.12,
    "share",
    OWN_CHOICE,
    "remedies_lye_in",
    why="Usual bars carry 3 to 8 %; half as much again is still a bar.",
)
WATER_TO_ALKALI = 2.0  # "twice its weight", as the sentence says


def superfat_now(fats: Sequence[Fat], weighed: AlkaliMass, alkali: Alkali, acids: Iterable[Acid] = ()) -> Remedy:
    """C2: the superfat that the batch really has; grams is the excess of pure NaOH when it is lye-heavy.

    f' = 1 - p N / A; E = p N - A.

    Raises:
        OutOfRange: no fat that takes alkali.

    Source: mole balance.
    """
    acids = tuple(acids)
    value = superfat_of(fats, weighed, alkali, acids)
    excess = excess_alkali_g(fats, weighed, alkali, acids)
    if value >= 0:
        return Remedy(
            "C2", say("Superfat now"), say("The batch has {percent} superfat.", percent=percent(value)), None, value
        )
    sentence = say(
        "The batch is lye-heavy by {percent}: {excess:.1f} g of alkali finds no fat. It burns skin. Do not "
        "use or sell it as it is.",
        percent=percent(-value),
        excess=excess,
    )
    return Remedy("C2", "Lye-heavy", sentence, excess, value)


def fat_to_add(
    fats: Sequence[Fat], weighed: AlkaliMass, alkali: Alkali, superfat: float, other: Fat, acids: Iterable[Acid] = ()
) -> Remedy:
    """C5: the grams of one fat that bring the superfat up: x = (p N / (1 - f) - A) / S.

    Args:
        other: the fat to add; only its values count, not its mass.

    Raises:
        OutOfRange: the fat takes no alkali, or a superfat out of range.

    Source: mole balance; the fats on their careful side.
    """
    acids = tuple(acids)
    if other.sv_for_alkali < SMALLEST:
        raise OutOfRange(say("{name} takes no alkali, so it cannot put this right. Choose a fat.", name=other.name))
    wanted = (pure_equivalents(weighed, alkali) - acid_mol(acids)) / (1 - check_superfat(superfat))
    grams = max(0.0, (wanted - careful_mol(fats)) * KOH * 1000 / other.sv_for_alkali)
    after = superfat_of([*fats, replace(other, mass_g=grams)], weighed, alkali, acids)
    sentence = say(
        "Melt {grams:.0f} g of {name}, bring it to the warmth of the batter and blend it in while it is "
        "fluid: the superfat is then {after}. The batch grows by that much; look at the mould.",
        grams=grams,
        name=other.name,
        after=percent(after),
    )
    return Remedy("C5", say("Add {name}", name=other.name), sentence, grams, after, adds=((other.name, grams),))


def alkali_to_add(
    fats: Sequence[Fat], weighed: AlkaliMass, alkali: Alkali, superfat: float, acids: Iterable[Acid] = ()
) -> Remedy:
    """C6: the grams of alkali, as weighed, that bring a high superfat down: dN = (1 - f) A / p - N.

    Raises:
        OutOfRange: no fat, or a superfat out of range.

    Source: mole balance.
    """
    acids = tuple(acids)
    needed = alkali_for(fats, superfat, alkali, acids)
    more = AlkaliMass(max(0.0, needed.naoh_g - weighed.naoh_g), max(0.0, needed.koh_g - weighed.koh_g))
    after = superfat_of(fats, AlkaliMass(weighed.naoh_g + more.naoh_g, weighed.koh_g + more.koh_g), alkali, acids)
    sentence = say(
        "Dissolve {total:.1f} g of alkali in twice its weight of water, let it cool, and blend it into fluid "
        "batter only. Never dry, never into a loaf. Goggles and gloves on.",
        total=more.total_g,
    )
    adds = (("water", WATER_TO_ALKALI * more.total_g), ("NaOH", more.naoh_g), ("KOH", more.koh_g))
    found = tuple((name, mass) for name, mass in adds if mass > 0)
    return Remedy("C6", say("Add cool lye"), sentence, more.total_g, after, adds=found)


def remedies_lye_in(
    fats: Sequence[Fat],
    weighed: AlkaliMass,
    alkali: Alkali,
    superfat: float,
    acids: Iterable[Acid] = (),
    *,
    owed: Sequence[Fat] = (),
    scale: Weighing | None = None,
) -> tuple[Remedy, ...]:
    """Return the ways out with the lye in the pot, best first; C2 is first when nothing needs doing.

    Args:
        owed: fats that are short or were forgotten, their masses what is missing; they are offered before the others.

    Raises:
        OutOfRange: no fat that takes alkali, or a superfat out of range.

    Source: mole balance; decisions look at the unlucky end of the superfat's 95 % interval; order is an own choice.
    """
    batch = _Batch(tuple(fats), weighed, alkali, check_superfat(superfat), tuple(acids), scale)
    now, careful = batch.interval().central, batch.careful
    if careful < superfat - CLOSE_ENOUGH.value:
        return batch.too_low(owed)
    accept = batch.accept()
    if careful <= superfat + CLOSE_ENOUGH.value:
        return (accept,)
    lye = batch.with_lye(alkali_to_add(fats, weighed, alkali, superfat, batch.acids))
    return (accept, lye) if now <= max(HIGH.value, superfat) else (lye, accept)


@dataclass(frozen=True)
class _Batch:
    """What is in the pot, and what each way out would make of it."""

    fats: tuple[Fat, ...]
    weighed: AlkaliMass
    alkali: Alkali
    superfat: float
    acids: tuple[Acid, ...]
    scale: Weighing | None

    @property
    def careful(self) -> float:
        return 1 - (pure_equivalents(self.weighed, self.alkali) - acid_mol(self.acids)) / careful_mol(self.fats)

    def interval(self, more: tuple[Fat, ...] = (), lye: AlkaliMass | None = None) -> SuperfatInterval:
        return superfat_interval((*self.fats, *more), lye or self.weighed, self.alkali, self.acids, self.scale)

    def with_lye(self, remedy: Remedy) -> Remedy:
        more = dict(remedy.adds)
        naoh, koh = self.weighed.naoh_g + more.get("NaOH", 0), self.weighed.koh_g + more.get("KOH", 0)
        return replace(remedy, interval=self.interval(lye=AlkaliMass(naoh, koh)))

    def too_low(self, owed: Sequence[Fat]) -> tuple[Remedy, ...]:
        usable = {fat.name: fat for fat in (*owed, *self.fats) if fat.sv_for_alkali > 0 and fat.kind == "triglyceride"}
        added = [self._fat(fat) for fat in usable.values()]
        now = superfat_now(self.fats, self.weighed, self.alkali, self.acids)
        if now.superfat is not None and now.superfat >= 0:
            return *added, self.accept()
        sentence = say(
            "{sentence} Mark the loaf caustic and hold it: melt it down with the fat that is owed, or discard it "
            "as caustic waste.",
            sentence=now.sentence,
        )
        held = Remedy("C2", say("It has set already"), sentence, now.grams, now.superfat, self.interval())
        return *added, held

    def _fat(self, fat: Fat) -> Remedy:
        remedy = fat_to_add(self.fats, self.weighed, self.alkali, self.superfat, fat, self.acids)
        return replace(remedy, interval=self.interval((replace(fat, mass_g=remedy.grams or 0.0),)))

    def accept(self) -> Remedy:
        found = self.interval()
        now = found.central
        sentence = say(
            "The batch has {now} superfat ({low} to {high}).",
            now=percent(now),
            low=percent(found.low),
            high=percent(found.high),
        )
        if found.lye_heavy_possible:
            sentence += " " + say("Its unlucky end is lye-heavy: test it for free alkali before anyone uses it.")
        elif now > HIGH.value:
            sentence += " " + say("That much makes a softer bar that turns rancid sooner: sell it fresh, keep it cool.")
        else:
            sentence += " " + say("That is a fine bar; write it down and go on.")
        return Remedy("C2", say("Leave it"), sentence, None, now, found)


CONSTANTS = (CLOSE_ENOUGH, HIGH)
_AT = "soapbench.science.remedy_after."
RELATIONS = (
    Relation("C2 superfat now", "f' = 1 - p N / A; E = p N - A", "share, g", STOICHIOMETRY, _AT + "superfat_now"),
    Relation("C5 fat to add", "x = (p N / (1 - f) - A) / S", "g", STOICHIOMETRY, _AT + "fat_to_add"),
    Relation("C6 alkali to add", "dN = (1 - f) A / p - N", "g", STOICHIOMETRY, _AT + "alkali_to_add"),
    Relation("ways out with the lye in", "C2, C5, C6", "", OWN_CHOICE, _AT + "remedies_lye_in"),
)
