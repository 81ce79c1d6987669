"""Two answers to one question: both stay, one side counts until somebody decides, and the careful side it is.

An answer knows of another when whoever gave it had seen it (`Fact.seen`) or gave it on the same device: then it
corrects that one. Answers that knew nothing of each other stand side by side. The phone does the same in conflicts.js.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from soapbench.bench.folding.book import Book, is_fat
from soapbench.bench.plan import Line
from soapbench.bench.state import Conflict, Fact

PLAIN_PAGE = "plain page"  # pages without a script share this name, whoever sits at them
TRACES = ("emulsion", "thin", "medium", "thick")
NOTHING_COUNTS = "settled"  # no careful side is known for it: it is asked once more
# What tells two answers apart, by kind; a kind that is not here has no second answer.
TOLD: dict[str, tuple[str, ...]] = {
    "ticked": ("is_here",),
    "scale-checked": ("known_g", "read_g"),
    "weighed": ("mass_g", "lot"),
    "settled": ("choice",),
    "pot-checked": ("mass_g",),
    "trace-seen": ("trace",),
    "rest-tested": ("oil_film", "thickens_as_it_cools"),
    "split": ("mass_g",),
    "drawn": ("path", "tool", "passes"),
    "looked": ("gel",),
    "firmness-checked": ("is_firm", "crumbles"),
    "cut": ("bars", "mass_g", "offcuts_g"),
    "done": (),
}
NAMED_BY = {"ticked": "item", "weighed": "line", "split": "portion"}  # else the prompt names the question


@dataclass(frozen=True)
class Counted:
    """What the fold reads, and the answers that stood against each other."""

    facts: tuple[Fact, ...]
    conflicts: tuple[Conflict, ...]


def counted(book: Book, standing: Sequence[Fact]) -> Counted:
    """Return the facts without those that do not count, a weight that is true twice as one sum, and the conflicts."""
    conflicts = tuple(_conflict(book, answers, standing) for answers in _side_by_side(standing))
    aside = {fact.id for conflict in conflicts for fact in conflict.facts if fact.id not in conflict.counts}
    sums = {fact.id: fact for conflict in conflicts for fact in _summed(conflict)}
    aside |= {id for conflict in conflicts for id in conflict.counts if _summed(conflict) and id not in sums}
    return Counted(tuple(sums.get(fact.id, fact) for fact in standing if fact.id not in aside), conflicts)


def knows(later: Fact, earlier: Fact) -> bool:
    """Return whether whoever gave the later answer had the earlier one before them."""
    is_same_hand = later.device == earlier.device and (later.device != PLAIN_PAGE or later.person == earlier.person)
    return is_same_hand or later.seen is None or later.seen >= earlier.position


def _side_by_side(standing: Sequence[Fact]) -> list[list[Fact]]:
    """Return the answers of every question that has several which knew nothing of each other."""
    live: dict[str, list[Fact]] = {}
    for fact in standing:
        if fact.kind in TOLD:
            before = live.get(_subject(fact), [])
            live[_subject(fact)] = [*(each for each in before if not knows(fact, each)), fact]
    return [answers for answers in live.values() if len(answers) > 1]


def _subject(fact: Fact) -> str:
    name = fact.payload.get(NAMED_BY.get(fact.kind, ""), "") or fact.prompt
    return f"{fact.kind} {name}"


def _conflict(book: Book, answers: list[Fact], standing: Sequence[Fact]) -> Conflict:
    ids = tuple(fact.id for fact in answers)
    decision = _decision(ids, standing)
    is_same = all(_says_the_same(book, answers[0], each) for each in answers[1:])
    careful = _careful(book, answers, is_same)
    return Conflict(
        subject=_subject(answers[0]),
        prompt=answers[0].prompt,
        facts=tuple(answers),
        counts=tuple(id for id in ids if id in decision.payload["counts"]) if decision else careful,
        is_same=is_same,
        may_be_both=answers[0].kind == "weighed",
        decision=decision,
    )


def _decision(ids: tuple[str, ...], standing: Sequence[Fact]) -> Fact | None:
    """Return the last decision about all of these answers; None when two that differ knew nothing of each other."""
    found = [fact for fact in standing if fact.kind == "decided" and set(ids) <= set(fact.payload["events"])]
    found = [fact for fact in found if set(fact.payload["counts"]) & set(ids)]
    if not found:
        return None
    last = found[-1]
    rivals = [fact for fact in found[:-1] if not knows(last, fact)]
    is_settled = all(set(rival.payload["counts"]) == set(last.payload["counts"]) for rival in rivals)
    return last if is_settled else None


def _says_the_same(book: Book, one: Fact, other: Fact) -> bool:
    return all(_is_alike(book, one, name, other.payload.get(name)) for name in TOLD[one.kind])


def _is_alike(book: Book, one: Fact, name: str, value: Any) -> bool:
    said: Any = one.payload.get(name)
    if name == "lot":
        return said is None or value is None or said == value
    if name.endswith("_g"):
        line = book.lines.get(one.payload.get("line", ""))
        allowed = line.tolerance_g if line else book.plan.resolution_g
        return abs(float(said) - float(value)) <= allowed + 1e-9
    return bool(said == value)


def _careful(book: Book, answers: list[Fact], is_same: bool) -> tuple[str, ...]:
    kind = answers[0].kind
    if kind == NOTHING_COUNTS and not is_same:
        return ()
    side = CAREFUL.get(kind)
    return ((answers[0] if side is None else min(answers, key=lambda fact: side(book, fact.payload))).id,)


def _weight(book: Book, payload: dict[str, Any]) -> float:
    """Return what is least on the careful side: less fat and water asks for less alkali, more alkali is stronger."""
    line = book.lines.get(payload["line"])
    return float(payload["mass_g"]) * (1 if line and _is_less_careful(line) else -1)


def _is_less_careful(line: Line) -> bool:
    return is_fat(line) or line.group in ("water", "liquid", "carrier")


CAREFUL: dict[str, Callable[[Book, dict[str, Any]], float]] = {
    "ticked": lambda book, payload: payload["is_here"],
    "scale-checked": lambda book, payload: -abs(payload["read_g"] - payload["known_g"]),
    "weighed": _weight,
    "pot-checked": lambda book, payload: payload["mass_g"],
    "trace-seen": lambda book, payload: TRACES.index(payload["trace"]),
    "rest-tested": lambda book, payload: -(payload["oil_film"] + payload["thickens_as_it_cools"]),
    "split": lambda book, payload: payload["mass_g"],
    "looked": lambda book, payload: ("no", "unknown", "yes").index(payload["gel"]),
    "firmness-checked": lambda book, payload: payload["is_firm"] - 2 * payload["crumbles"],
    "cut": lambda book, payload: payload["bars"],
}


def _summed(conflict: Conflict) -> tuple[Fact, ...]:
    """Return the last of the weights that are all true, with the grams of all; () when one answer counts."""
    if len(conflict.counts) < 2:
        return ()
    told = [fact for fact in conflict.facts if fact.id in conflict.counts]
    grams = round(sum(float(fact.payload["mass_g"]) for fact in told), 6)
    return (replace(told[-1], payload={**told[-1].payload, "mass_g": grams}),)
