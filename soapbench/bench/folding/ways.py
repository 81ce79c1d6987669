"""The ways out of what came out differently, and the event that chooses each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from soapbench.bench.folding.pot import (
    acids_in_pot,
    alkali_in_use,
    as_alkali,
    fats_in_pot,
    made_alkali,
    mass_of,
    needed_alkali,
    planned_alkali,
    planned_fats,
    weighed_alkali,
)
from soapbench.bench.folding.pot_ways import pot_ways
from soapbench.bench.folding.room import room_words
from soapbench.bench.folding.superfat import STRONGEST, interval_now, situation, strength_now, superfat_off
from soapbench.bench.folding.tally import Tally
from soapbench.bench.state import Settlement, Way
from soapbench.bench.words import grams, listed
from soapbench.science.alkali import Fat, superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.remedy import Remedy, put_water_right, remedies_before_lye, remedies_lye_in, remedies_lye_made
from soapbench.science.rounding import round_to
from soapbench.science.superfat import Weighing, superfat_interval
from soapbench.science.words import mark, say

REMAKE = Remedy(
    "remake",
    mark("Make the lye again"),
    mark("Set this lye aside safely, weigh new water and new alkali, and make the lye again."),
)
HOLD = Remedy(
    "hold", mark("Hold the batch"), mark("Do not sell it. Test the cured bars for free alkali before anything else.")
)


def _said(remedy: Remedy) -> Remedy:
    return replace(remedy, title=say(remedy.title), sentence=say(remedy.sentence))


MOST_FATS = 3  # of the fats that may put a lye-heavy batch right, how many are offered; own choice
HOLD_IT = mark("Hold it as caustic")
JARS = {"NaOH": "alkali:naoh", "KOH": "alkali:koh", "water": "water"}


def remedies(tally: Tally, settlement: Settlement | None) -> tuple[Remedy, ...]:
    """Return what can be done about what is not as it should be; nothing once it was decided about just that."""
    about = situation(tally)
    if not about or about == tally.decided:
        return ()
    if tally.is_alkali_unknown:
        return (_said(HOLD),) if tally.is_combined else (_said(REMAKE),)
    of_pot = pot_ways(tally)
    if of_pot:
        return of_pot
    try:
        if weighed_alkali(tally) is None:
            return _before_lye(tally)
        return _of_the_lye(tally)
    except OutOfRange as error:
        return (Remedy("C2", say("No way out by weighing"), str(error)),)


def _scale(tally: Tally) -> Weighing:
    return Weighing(tally.plan.resolution_g)


def _before_lye(tally: Tally) -> tuple[Remedy, ...]:
    open_fats = {tally.name_of(line) for line in tally.plan.in_group("fat") if tally.is_open(line)}
    found = remedies_before_lye(
        fats_in_pot(tally),
        planned_fats(tally),
        tally.plan.formula.superfat,
        alkali_in_use(tally),
        acids_in_pot(tally),
        open_fats=open_fats,
        planned_alkali=planned_alkali(tally),
        scale=_scale(tally),
    )
    return tuple(_checked(tally, remedy) for remedy in found if _can_be(tally, remedy))


def _can_be(tally: Tally, remedy: Remedy) -> bool:
    """Return whether a smaller batch is still possible: what is in the pot cannot be taken out again."""
    if remedy.factor is None or remedy.factor >= 1:
        return True
    weighed = ((line, tally.weights[line.key].mass_g) for line in tally.book.fat_lines if line.key in tally.weights)
    return all(mass <= line.planned_g * (remedy.factor or 1) + line.tolerance_g for line, mass in weighed)


def _checked(tally: Tally, remedy: Remedy) -> Remedy:
    factor = remedy.factor
    if factor is None:
        return remedy
    remedy = replace(remedy, adds=_top_ups(tally, factor))
    return replace(
        remedy, sentence=f"{remedy.sentence} {room_words(tally, factor) or 'Check that the mould holds it.'}"
    )


def _top_ups(tally: Tally, factor: float) -> tuple[tuple[str, float], ...]:
    """Return what the fats that are weighed already still need in a batch of another size, by line."""
    weighed = ((line, tally.weights[line.key].mass_g) for line in tally.book.fat_lines if line.key in tally.weights)
    gaps = ((line.key, line.planned_g * factor - mass) for line, mass in weighed)
    return tuple((key, gap) for key, gap in gaps if gap > tally.plan.resolution_g)


def _of_the_lye(tally: Tally) -> tuple[Remedy, ...]:
    water = _water(tally)
    strength = strength_now(tally)
    if water and strength is not None and strength > STRONGEST and not tally.is_combined:
        return water
    return _about_superfat(tally) or water


def _about_superfat(tally: Tally) -> tuple[Remedy, ...]:
    made = made_alkali(tally)
    if made is None or not superfat_off(tally):
        return ()
    fats, alkali, acids = fats_in_pot(tally), alkali_in_use(tally), acids_in_pot(tally)
    superfat, scale = tally.plan.formula.superfat, _scale(tally)
    if tally.is_combined:
        used = weighed_alkali(tally) or made
        found = remedies_lye_in(fats, used, alkali, superfat, acids, owed=_owed_fats(tally), scale=scale)
        return _still_possible(tally, found)
    if tally.lye_at is not None:
        return remedies_lye_made(fats, made, _jug_water_g(tally), superfat, alkali, acids, scale)
    return _weigh_again(tally), _as_weighed(tally)


def _jug_water_g(tally: Tally) -> float:
    wet = tally.plan.in_group("water", "liquid")
    return sum(mass_of(tally, line) for line in wet if line.key in tally.book.jug_keys)


def _owed_fats(tally: Tally) -> tuple[Fat, ...]:
    """Return the fats that are short or were left out, with what is missing of each."""
    have = {fat.name: fat.mass_g for fat in fats_in_pot(tally)}
    gaps = ((fat, fat.mass_g - have.get(fat.name, 0.0)) for fat in planned_fats(tally))
    return tuple(replace(fat, mass_g=gap) for fat, gap in gaps if gap > tally.plan.resolution_g)


def _still_possible(tally: Tally, found: tuple[Remedy, ...]) -> tuple[Remedy, ...]:
    """Leave out what only fluid batter takes once the pour has begun; of many fats, keep the likeliest."""
    found = tuple(replace(one, title=say(HOLD_IT)) if one.title == say("It has set already") else one for one in found)
    is_poured = any(prompt.phase == "pour" and prompt.key in tally.done for prompt in tally.plan.prompts)
    if is_poured:
        return tuple(remedy for remedy in found if not remedy.adds)
    fats = [remedy for remedy in found if remedy.code == "C5"]
    owed = {fat.name for fat in _owed_fats(tally)}
    likeliest = sorted(fats, key=lambda remedy: remedy.adds[0][0] not in owed)[:MOST_FATS]
    return (*likeliest, *(remedy for remedy in found if remedy.code != "C5"))


def _weigh_again(tally: Tally) -> Remedy:
    needed = needed_alkali(tally)
    masses = {"alkali:naoh": needed.naoh_g, "alkali:koh": needed.koh_g}
    parts = [f"{line.name}: {grams(masses[line.key])}" for line in tally.plan.in_group("alkali")]
    fats, alkali, acids = fats_in_pot(tally), alkali_in_use(tally), acids_in_pot(tally)
    after = superfat_of(fats, as_alkali(masses), alkali, acids)
    found = superfat_interval(fats, needed, alkali, acids, _scale(tally))
    sentence = say("It is not in the water yet. Weigh it again. {parts}.", parts="; ".join(parts))
    return Remedy("C1", say("Weigh the alkali again"), sentence, needed.total_g, after, found)


def _as_weighed(tally: Tally) -> Remedy:
    found = interval_now(tally)
    return Remedy("C2", say("Keep it as weighed"), say("Go on with what is on the scale."), None, found.central, found)


def _water(tally: Tally) -> tuple[Remedy, ...]:
    """Return what to do about the water of a lye that did not meet the fats yet (C8)."""
    lines = [line for line in tally.plan.in_group("water", "liquid") if line.key in tally.book.jug_keys]
    weights = [tally.weights[line.key] for line in lines if line.key in tally.weights]
    made = made_alkali(tally)
    if not weights or made is None or tally.is_combined or tally.lye_share < 1:
        return ()
    asked = sum(weight.target_g for weight in weights)
    remedy = put_water_right(made.total_g, _jug_water_g(tally), made.total_g / (made.total_g + asked))
    leave = Remedy("C8", say("Leave it"), say("Write it down and go on."), None)
    if not remedy.adds:
        return (replace(remedy, title=say("Go on with more water")),)
    return (remedy,) if (strength_now(tally) or 0.0) > STRONGEST else (remedy, leave)


def ways(tally: Tally, settlement: Settlement | None, found: tuple[Remedy, ...]) -> tuple[Way, ...]:
    """Return the remedies as events to choose from; those that cannot be carried out by weighing are left out."""
    if made_alkali(tally) is None and settlement is not None and settlement.is_needed and not tally.pot_read_g:
        return _settling(tally, settlement, found)
    is_early = made_alkali(tally) is None and tally.pot_read_g is None
    offered = [remedy for remedy in found if not (is_early and remedy.code in ("C1", "C2"))]
    return tuple(way for remedy in offered if (way := _way(tally, remedy)))


def _settling(tally: Tally, settlement: Settlement, found: tuple[Remedy, ...]) -> tuple[Way, ...]:
    """Return the answers to the question of the alkali: as the fats are, other ways out, as planned."""
    others = [way for remedy in found if remedy.code not in ("C1", "C2") and (way := _way(tally, remedy))]
    return (
        _settled(tally, settlement, "recomputed", "Recomputed"),
        *others,
        _settled(tally, settlement, "planned", say("As planned")),
    )


def _settled(tally: Tally, settlement: Settlement, choice: str, title: str) -> Way:
    masses = settlement.recomputed if choice == "recomputed" else settlement.planned
    lines = [line for line in tally.plan.lines if line.key in masses]
    said = listed([f"{line.name} {grams(masses[line.key])}" for line in lines])
    fats, alkali, acids = fats_in_pot(tally), alkali_in_use(tally), acids_in_pot(tally)
    interval = superfat_interval(fats, as_alkali(masses), alkali, acids, _scale(tally))
    return Way("C1" if choice == "recomputed" else "C2", title, f"{said}.", "settled", {"choice": choice}, interval)


def _way(tally: Tally, remedy: Remedy) -> Way | None:
    adds = _lines_of(tally, remedy.adds)
    if adds is None:
        return None
    payload: dict[str, Any] = {"code": remedy.code, "decision": remedy.title}
    if adds:
        payload["adds"] = adds
    if remedy.lye_share is not None:
        payload["lye_share"] = remedy.lye_share
    if remedy.factor is not None:
        payload["factor"] = remedy.factor
    return Way(remedy.code, remedy.title, remedy.sentence, "remedied", payload, remedy.interval)


def _lines_of(tally: Tally, adds: Iterable[tuple[str, float]]) -> list[list[Any]] | None:
    """Return what is added by line, in steps of the scale; None when a fat has no line of its own here."""
    by_name = {tally.name_of(line): line.key for line in reversed(tally.book.fat_lines)}
    keys = {**by_name, **JARS, **{line.key: line.key for line in tally.plan.lines}}
    step = tally.plan.resolution_g
    found = []
    for name, mass in adds:
        if name not in keys or keys[name] not in tally.book.lines:
            return None
        found.append([keys[name], round_to(mass, step) if mass > 0 else -round_to(-mass, step)])
    return [add for add in found if add[1]]
