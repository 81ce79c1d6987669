"""What many runs teach together, and what it does to the next plan. Pure."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from soapbench.bench.learning.lesson import Lesson, ScentTime
from soapbench.bench.plan import Teaching
from soapbench.bench.pots import Pot
from soapbench.bench.words import grams, percent
from soapbench.science.cooling import LearntRate, learn_rate
from soapbench.science.interval import Interval
from soapbench.science.mould import POT_LOSS, pot_loss
from soapbench.science.scent_time import (
    GUESSES,
    at_temperature,
    learnt_minutes,
    planning_minutes,
    usual_trace_minutes,
)
from soapbench.science.words import say
from soapbench.shelf.facts import MaterialFacts


@dataclass(frozen=True)
class Usual:
    """A figure with the band of the next run, and on how many runs it rests."""

    value: Interval
    runs: int


@dataclass(frozen=True)
class Learnt:
    """What the finished runs of a workshop teach about one bar. Empty where they teach nothing."""

    cooling: Mapping[str, LearntRate] = field(default_factory=dict)  # by vessel
    scents: Mapping[str, tuple[ScentTime, ...]] = field(default_factory=dict)  # by material
    pot_loss_g: Usual | None = None
    trace_minutes: Usual | None = None
    yield_share: Usual | None = None  # bars cut for a bar planned

    @property
    def loss_g(self) -> float:
        """Return the grams to reckon with for what stays in the pots."""
        return self.pot_loss_g.value.central if self.pot_loss_g else POT_LOSS.value

    def working_minutes(self, fact: MaterialFacts, mixed_c: float) -> float | None:
        """Return how long to plan with this scent at that temperature; what the shelf says where no run taught it."""
        guess = fact.working_minutes or GUESSES["unknown"].value
        times = self.scents.get(fact.key, ())
        records = _records(times, guess, mixed_c)
        if not records:
            return fact.working_minutes
        planned = planning_minutes(learnt_minutes(guess, records))
        # Batter that never thickened is no reason to hurry more than the shelf says.
        return planned if any(time.thickened for time in times) else max(guess, planned)


def _records(times: Sequence[ScentTime], guess: float, mixed_c: float) -> list[float]:
    """Return the times as they would be at this temperature; one that did not thicken counts when it was longer."""
    found = [
        (at_temperature(time.minutes, time.mixed_c, mixed_c) if time.mixed_c is not None else time.minutes, time)
        for time in times
    ]
    return [minutes for minutes, time in found if time.thickened or minutes > guess]


def learnt_from(lessons: Sequence[Lesson], bar: str, trace: str) -> Learnt:
    """Return what the lessons teach about a bar.

    Jugs, scents and what stays in the pots are the workshop's; the time to this trace and the yield are the bar's own.
    """
    own = [lesson for lesson in lessons if lesson.bar == bar]
    losses = [(each.made_g, each.cut_g) for each in lessons if each.made_g and each.cut_g]
    times = [each.trace_minutes for each in own if each.trace_minutes and each.trace == trace]
    shares = [each.bars_cut / each.bars_planned for each in own if each.bars_cut and each.bars_planned]
    return Learnt(
        cooling=_cooling(lessons),
        scents=_scents(lessons),
        pot_loss_g=Usual(pot_loss(losses), len(losses)) if losses else None,
        trace_minutes=Usual(usual_trace_minutes(times), len(times)) if times else None,
        yield_share=Usual(Interval(min(shares), sum(shares) / len(shares), max(shares)), len(shares))
        if shares
        else None,
    )


def _cooling(lessons: Sequence[Lesson]) -> dict[str, LearntRate]:
    found: dict[str, LearntRate] = {}
    for rate in (rate for lesson in lessons for rate in lesson.pots):
        known = found.get(rate.vessel)
        found[rate.vessel] = learn_rate(known, rate.ln_k_mean, rate.ln_k_sd, rate.heat_capacity)
    return found


def _scents(lessons: Sequence[Lesson]) -> dict[str, tuple[ScentTime, ...]]:
    found: dict[str, tuple[ScentTime, ...]] = {}
    for time in (time for lesson in lessons for time in lesson.scents):
        found[time.material] = (*found.get(time.material, ()), time)
    return found


def without(learnt: Learnt, refused: Collection[str]) -> Learnt:
    """Return what is left when the maker does not want to reckon with some of it; by the keys of `teachings`."""
    return Learnt(
        cooling={name: rate for name, rate in learnt.cooling.items() if f"cooling:{name}" not in refused},
        scents={key: times for key, times in learnt.scents.items() if f"scent:{key}" not in refused},
        pot_loss_g=None if "pot loss" in refused else learnt.pot_loss_g,
        trace_minutes=None if "trace" in refused else learnt.trace_minutes,
        yield_share=None if "yield" in refused else learnt.yield_share,
    )


def teachings(
    learnt: Learnt, facts: Mapping[str, MaterialFacts], vessels: Mapping[Pot, str], mixed_c: float
) -> tuple[Teaching, ...]:
    """Return what is learnt in plain sentences, each with the number of its runs; only what this batch meets."""
    return (*_of_pots(learnt, vessels), *_of_scents(learnt, facts, mixed_c), *_of_the_rest(learnt))


def _of_pots(learnt: Learnt, vessels: Mapping[Pot, str]) -> Iterator[Teaching]:
    for pot, vessel in vessels.items():
        rate = learnt.cooling.get(vessel)
        if rate:
            cools = "lye cools" if pot == "lye" else "fats cool"
            yield Teaching(
                f"cooling:{vessel}", say("How fast the {cools} in {vessel}.", cools=cools, vessel=vessel), rate.runs
            )


def _of_scents(learnt: Learnt, facts: Mapping[str, MaterialFacts], mixed_c: float) -> Iterator[Teaching]:
    for key, times in learnt.scents.items():
        fact = facts.get(key)
        minutes = learnt.working_minutes(fact, mixed_c) if fact else None
        if fact and minutes and minutes != fact.working_minutes:
            sentence = say(
                "{name}: plan with {minutes:.0f} min of pourable batter at {mixed:.0f} °C.",
                name=fact.name,
                minutes=minutes,
                mixed=mixed_c,
            )
            yield Teaching(f"scent:{key}", sentence, len(times))


def _of_the_rest(learnt: Learnt) -> Iterator[Teaching]:
    if learnt.trace_minutes:
        usual = learnt.trace_minutes.value
        sentence = say(
            "Trace usually comes after {central:.0f} min, mostly {low:.0f} to {high:.0f}.",
            central=usual.central,
            low=usual.low,
            high=usual.high,
        )
        yield Teaching("trace", sentence, learnt.trace_minutes.runs)
    if learnt.pot_loss_g:
        sentence = say(
            "About {loss} of batter stays in pots and cups; that much more is made.", loss=grams(round(learnt.loss_g))
        )
        yield Teaching("pot loss", sentence, learnt.pot_loss_g.runs)
    if learnt.yield_share:
        sentence = say(
            "{central} of the planned bars came off the cutter.", central=percent(learnt.yield_share.value.central)
        )
        yield Teaching("yield", sentence, learnt.yield_share.runs)
