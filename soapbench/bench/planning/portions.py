"""Sharing the batter out, colouring, scenting and pouring, in the order that suits the working times."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from soapbench.bars.formula import PourStage
from soapbench.bench.plan import Line, Prompt, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import BATTER, short
from soapbench.bench.planning.cups import cups_of
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.pouring import pour_prompt, stages_of
from soapbench.science.errors import OutOfRange
from soapbench.science.words import mark, say
from soapbench.science.working_time import ScentedPortion, schedule

SCENT_MINUTES = 1.0  # hands-on time of scenting one portion; own choice, until measured
GROUPS = ("colourant", "addition", "scent")


@dataclass(frozen=True)
class Turns:
    """The order of scents and of pours, and what to say about it."""

    scents: tuple[str, ...]
    pours: tuple[str, ...]
    sentence: str


# What goes into the whole batter, and into one portion.
PUT_IN = {
    "colourant": (mark("Colour the batter with {name}"), mark("Colour portion {portion} with {name}")),
    "scent": (mark("Scent the batter with {name}"), mark("Scent portion {portion} with {name}")),
    "addition": (mark("Finish the batter with {name}"), mark("Finish portion {portion} with {name}")),
}


def portions(batch: Batch, lines: tuple[Line, ...]) -> tuple[list[Prompt], str]:
    """Return the prompts from the whole batter to the last pour, and the schedule in words."""
    turns = _turns(batch, lines)
    whole = [_goes_in(batch, line) for line in _into(lines, "all")]
    # A portion without a scent has no place among the scents, but it is coloured all the same.
    letters = dict.fromkeys((*batch.made.portions, *turns.scents))
    coloured = [_goes_in(batch, line) for each in letters for line in _into(lines, each) if line.group != "scent"]
    stages = stages_of(batch, turns.pours)
    before = [*whole, *_splits(batch), *coloured]
    if _is_layered(batch):
        return [*before, *_layered(batch, lines, stages)], turns.sentence
    scented = [prompt for letter in turns.scents for prompt in _scents(batch, lines, letter, stages)]
    return [*before, *scented, *[pour_prompt(batch, n, stage) for n, stage in enumerate(stages, 1)]], turns.sentence


def _into(lines: tuple[Line, ...], portion: str) -> list[Line]:
    return sorted(
        (line for line in lines if line.portion == portion and line.group in GROUPS),
        key=lambda line: GROUPS.index(line.group),
    )


def _is_layered(batch: Batch) -> bool:
    """Return whether each portion is poured on its own, so that it can be scented just before."""
    named = [letter for stage in batch.formula.pour for letter in stage.portions]
    is_single = all(stage.way == "layer" and len(stage.portions) == 1 for stage in batch.formula.pour)
    return len(named) > 1 and is_single and len(set(named)) == len(named)


def _layered(batch: Batch, lines: tuple[Line, ...], stages: tuple[PourStage, ...]) -> list[Prompt]:
    found = []
    for number, stage in enumerate(stages, 1):
        for letter in stage.portions:
            found += _scents(batch, lines, letter, stages)
        found.append(pour_prompt(batch, number, stage))
    return found


def _splits(batch: Batch) -> list[Prompt]:
    """Return the weighing out of every portion but the largest, which stays in the pot."""
    masses = batch.made.portions
    stays = max(masses, key=lambda letter: masses[letter])
    return [_split(batch, letter) for letter, mass in masses.items() if letter != stays and mass > 0]


def _split(batch: Batch, letter: str) -> Prompt:
    name = _name(batch, letter)
    return Prompt(
        key=f"split:{letter}",
        phase="portions",
        kind="split",
        title=short(_weigh_out(letter, name)),
        detail=say("Into {cups}, marked {letter}.", cups=cups_of(batch)[letter], letter=letter),
        portion=letter,
        pot="batter",
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )


def _weigh_out(letter: str, name: str) -> str:
    if not name:
        return say("Weigh out portion {letter}", letter=letter)
    return say("Weigh out portion {letter}, {name}", letter=letter, name=name)


def _put_in(line: Line) -> str:
    whole, part = PUT_IN[line.group]
    return say(whole if line.portion == "all" else part, name=line.name, portion=line.portion)


def _goes_in(batch: Batch, line: Line, timer: Timer | None = None) -> Prompt:
    return Prompt(
        key=f"add:{line.key}",
        phase="portions",
        kind="act",
        title=short(_put_in(line)),
        detail=say("Stir by hand until even."),
        line=line.key,
        portion=line.portion if line.portion != "all" else "",
        pot="batter",
        timer=timer,
        cautions=(cautions.SCENT,) if line.group == "scent" else (),
        changes=("substituted", "left out", "amount off", *BATTER),
    )


def _scents(batch: Batch, lines: tuple[Line, ...], letter: str, stages: tuple[PourStage, ...]) -> list[Prompt]:
    """Return the prompts of a portion's scents; its working time runs from the first drop, and the shortest counts."""
    last = next((n for n, stage in reversed(list(enumerate(stages, 1))) if letter in stage.portions), 1)
    scents = [line for line in _into(lines, letter) if line.group == "scent"]
    minutes = _shortest(batch, scents)
    label = " · ".join(filter(None, (letter, _name(batch, letter))))
    timer = None if minutes == inf else Timer(f"working:{letter}", label, minutes, f"pour:{last}", letter)
    return [_goes_in(batch, line, timer if line == scents[0] else None) for line in scents]


def _name(batch: Batch, letter: str) -> str:
    return next((portion.name for portion in batch.formula.portions if portion.letter == letter), "")


def _turns(batch: Batch, lines: tuple[Line, ...]) -> Turns:
    letters = tuple(batch.made.portions)
    places = _places(batch)
    scented = [_scented(batch, lines, letter, places) for letter in letters]
    try:
        found = schedule(scented, scent_all_first=not _is_layered(batch))
    except OutOfRange:  # too many free portions to try every order
        by_time = sorted(scented, key=lambda one: -one.working_minutes)
        return Turns(tuple(one.letter for one in by_time), letters, "")
    return Turns(found.scent_order or letters, found.order, found.sentence)


def _places(batch: Batch) -> dict[str, int]:
    """Return the place of each portion that the pour fixes; side by side and drops leave the order free."""
    stages = batch.formula.pour
    if len(stages) <= 1 and all(stage.way in ("side by side", "in the pot") for stage in stages):
        return {}
    named: dict[str, int] = {}
    for stage in stages:
        for letter in stage.portions:
            named.setdefault(letter, len(named) + 1)
    return named


def _scented(batch: Batch, lines: tuple[Line, ...], letter: str, places: dict[str, int]) -> ScentedPortion:
    scents = [line for line in _into(lines, letter) if line.group == "scent"]
    return ScentedPortion(letter, _shortest(batch, scents), SCENT_MINUTES * len(scents), places.get(letter))


def _shortest(batch: Batch, scents: list[Line]) -> float:
    return min((minutes for line in scents if (minutes := _working_minutes(batch, line))), default=inf)


def _working_minutes(batch: Batch, line: Line) -> float | None:
    """Return how long to plan with a scent: as earlier runs taught, else as the shelf has it."""
    fact = batch.fact(line.material)
    return batch.learnt.working_minutes(fact, batch.mixed_c) if fact else None
