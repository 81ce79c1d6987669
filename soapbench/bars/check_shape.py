"""Whether a formula hangs together: percentages, portions, pour, drawing and tools."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Hashable, Iterable
from typing import TypeVar

from soapbench.bars.amount import ALL
from soapbench.bars.finding import Findings, attention, good, stop
from soapbench.bars.formula import Formula
from soapbench.bars.to_science import Facts
from soapbench.science.words import say

_Value = TypeVar("_Value", bound=Hashable)
NEAR = 0.005  # a third written as 0.33 three times is near enough to 1


def shape_findings(formula: Formula, facts: Facts, tools: Collection[str] | None) -> Findings:
    """Yield what is wrong with the parts of a formula, before any sum; `tools` are the keys of those at hand."""
    yield from _fats(formula, facts)
    yield from _portions(formula)
    yield from _additions(formula, facts)
    yield from _pour(formula)
    yield from _tools(formula, tools)


def _fats(formula: Formula, facts: Facts) -> Findings:
    for key in _twice(line.material for line in formula.fats):
        yield attention(
            "fat-twice",
            say("{name} is listed twice among the fats. Put both amounts on one line.", name=_name(key, facts)),
            "fats",
        )
    total = sum(line.amount for line in formula.fats)
    if formula.fats_by == "percent" and formula.fats and abs(total - 100) > 0.05:
        gap = 100 - total
        what = say("{gap:.4g} % are missing", gap=gap) if gap > 0 else say("{gap:.4g} % are too many", gap=-gap)
        yield stop("percent", say("The fats make {total:.4g} %, not 100 %: {what}.", total=total, what=what), "fats")
    if any(line.amount < 0 for line in formula.fats):
        yield stop("negative", say("A fat has an amount below 0. Write how much there is of it."), "fats")


def _portions(formula: Formula) -> Findings:
    for letter in _twice(portion.letter for portion in formula.portions):
        yield stop(
            "letter-twice", say("Two portions have the letter {letter}. Give each its own.", letter=letter), "portions"
        )
    for portion in formula.portions:
        if portion.parts <= 0:
            yield stop(
                "parts",
                say("Portion {letter} has no part of the batter. Give it more than 0.", letter=portion.letter),
                "portions",
            )
    if not formula.portions:
        yield stop("no-portion", say("There is no portion. Name at least one."), "portions")
    elif all(portion.parts > 0 for portion in formula.portions):
        yield good("portions", _portion_words(formula), "portions")


def _portion_words(formula: Formula) -> str:
    if len(formula.portions) == 1:
        return say("The batter stays whole.")
    total = sum(portion.parts for portion in formula.portions)
    parts = ", ".join(f"{p.letter} {100 * p.parts / total:.0f} %" for p in formula.portions)
    return say("The batter is split: {parts}.", parts=parts)


def _additions(formula: Formula, facts: Facts) -> Findings:
    letters = {portion.letter for portion in formula.portions} | {ALL}
    for line in formula.additives:
        if line.goes_to not in letters:
            sentence = say(
                "{name} goes to portion {goes_to}, which is not there.",
                name=_name(line.material, facts),
                goes_to=line.goes_to,
            )
            yield stop("addition-portion", say("{sentence} Choose another portion.", sentence=sentence), "additives")
    for key, goes_to in _twice((line.material, line.goes_to) for line in formula.additives):
        where = "the whole batter" if goes_to == ALL else say("portion {goes_to}", goes_to=goes_to)
        yield stop(
            "addition-twice",
            say("{name} goes to {where} twice. Put both doses on one line.", name=_name(key, facts), where=where),
            "additives",
        )


def _pour(formula: Formula) -> Findings:
    letters = [portion.letter for portion in formula.portions]
    poured: defaultdict[str, float] = defaultdict(float)
    for number, stage in enumerate(formula.pour, 1):
        for letter in stage.portions:
            poured[letter] += stage.share
            if letter not in letters:
                sentence = say(
                    "Stage {number} of the pour names portion {letter}, which is not there.",
                    number=number,
                    letter=letter,
                )
                yield stop(
                    "pour-portion", say("{sentence} Take it out, or add the portion.", sentence=sentence), "pour"
                )
    if not formula.pour and len(letters) < 2:
        return
    for letter in dict.fromkeys(letters):
        if abs(poured[letter] - 1) > NEAR:
            yield stop("pour-shares", _pour_words(letter, poured[letter]), "pour")


def _pour_words(letter: str, share: float) -> str:
    if share == 0:
        return say("Portion {letter} is never poured. Name it in a stage of the pour.", letter=letter)
    return say(
        "The pour uses {share:.0f} % of portion {letter}. Its shares must make 100 %.", share=100 * share, letter=letter
    )


def _tools(formula: Formula, tools: Collection[str] | None) -> Findings:
    if formula.drawing.path != "none" and not formula.drawing.tool:
        yield attention(
            "no-tool", say("The drawing names no tool, so no picture of the cut can be computed."), "drawing"
        )
    for tool, field in ((formula.drawing.tool, "drawing"), (formula.cut.tool, "cut")):
        if tool and tools is not None and tool not in tools:
            sentence = say("The tool “{tool}” is not in the workshop. Choose another, or bring it back.", tool=tool)
            yield stop("tool", sentence, "drawing" if field == "drawing" else "cut")


def _name(key: str, facts: Facts) -> str:
    return facts[key].name if key in facts else f"“{key}”"


def _twice(values: Iterable[_Value]) -> list[_Value]:
    return [value for value, count in Counter(values).items() if count > 1]
