"""What can be done when the pot on the scale does not weigh what was weighed into it (C15)."""

from __future__ import annotations

from soapbench.bench.folding.pot import acids_in_pot, alkali_in_use, fats_of, mass_of, planned_alkali, weighed_alkali
from soapbench.bench.folding.superfat import pot_doubt
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line
from soapbench.bench.words import grams
from soapbench.science.errors import OutOfRange
from soapbench.science.remedy import Remedy
from soapbench.science.superfat import SuperfatInterval, Weighing, superfat_interval
from soapbench.science.words import say


def pot_ways(tally: Tally) -> tuple[Remedy, ...]:
    """Return the answers to a pot that is too light or too heavy; none when it agrees."""
    doubt = pot_doubt(tally)
    if doubt is None:
        return ()
    line = next((line for line in tally.plan.in_group("fat") if _is(tally, line, doubt.suspect)), None)
    named = _forgotten(tally, line) if line and doubt.gap_g < 0 else _twice(tally, line, doubt.gap_g) if line else ()
    again = Remedy(
        "C15-again", say("Weigh the pot again"), say("Tare, unit, nothing leaning on it. Then type it once more.")
    )
    on = Remedy(
        "C15-on",
        say("Go on all the same"),
        say("The sum of the entries stays. Write it down."),
        None,
        None,
        _now(tally),
    )
    return (*named, again, on)


def _is(tally: Tally, line: Line, name: str | None) -> bool:
    return line.key in tally.weights and tally.weights[line.key].name == name


def _forgotten(tally: Tally, line: Line) -> tuple[Remedy, ...]:
    weight = tally.weights[line.key]
    out = _with(tally, line, 0.0)
    gone = Remedy(
        "C15-out",
        say("Go on without {name}", name=weight.name),
        say("{mass} less fat. What to do about the lye follows.", mass=grams(weight.mass_g)),
        None,
        out.central if out else None,
        out,
        ((line.key, -weight.mass_g),),
    )
    if tally.is_combined:
        return (gone,)
    sentence = say(
        "It stands weighed in its cup: pour all {mass} in, then weigh the pot again.", mass=grams(weight.mass_g)
    )
    into = Remedy("C15-in", say("Pour {name} in now", name=weight.name), sentence, None, None, _now(tally))
    return into, gone


def _twice(tally: Tally, line: Line, gap_g: float) -> tuple[Remedy, ...]:
    weight = tally.weights[line.key]
    found = _with(tally, line, weight.mass_g + gap_g)
    sentence = say("Count {gap} of it. What to do about the lye follows.", gap=grams(weight.mass_g + gap_g))
    title = say("{name} is in twice", name=weight.name)
    return (Remedy("C15-twice", title, sentence, None, found.central if found else None, found, ((line.key, gap_g),)),)


def _now(tally: Tally) -> SuperfatInterval | None:
    return _with(tally, None, 0.0)


def _with(tally: Tally, changed: Line | None, mass_g: float) -> SuperfatInterval | None:
    """Return the superfat with another mass of one line, the alkali as it is."""

    def mass(line: Line) -> float:
        return mass_g if changed is not None and line.key == changed.key else mass_of(tally, line)

    weighed = weighed_alkali(tally) or planned_alkali(tally)
    scale = Weighing(tally.plan.resolution_g)
    try:
        return superfat_interval(fats_of(tally, mass), weighed, alkali_in_use(tally), acids_in_pot(tally), scale)
    except OutOfRange:
        return None
