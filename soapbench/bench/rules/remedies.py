"""Rules on parts of a weighing, on ways out, and on a lye too strong to dissolve."""

from __future__ import annotations

from soapbench.bench.folding.book import COMBINE, LYE, is_fat
from soapbench.bench.folding.superfat import STRONGEST
from soapbench.bench.kinds import Done, PartWeighed, Remedied
from soapbench.bench.plan import Line
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.weighing import check_lot, material_of
from soapbench.bench.rules.words import Asked
from soapbench.bench.words import grams, percent
from soapbench.science.words import say

CODES = frozenset({f"C{number}" for number in range(1, 18)} | {"remake", "hold"})
OF_THE_POT = frozenset({"C15-in", "C15-out", "C15-twice", "C15-again", "C15-on"})


def check_part(asked: Asked) -> None:
    """Refuse a part of nothing, or of what is weighed already."""
    payload = asked.payload
    if not isinstance(payload, PartWeighed):
        return
    line = asked.line(payload.line)
    if asked.prompt is not None and asked.prompt.line != line.key:
        raise Refused(say("“{title}” weighs something else.", title=asked.prompt.title), "line")
    if payload.mass_g == 0:
        raise Refused(say("0 g is nothing. Type what the scale shows."), "mass_g")
    if line.key in asked.state.weights and line.key not in asked.state.owed:
        raise Refused(
            say("{name} is weighed already. Take that back first, or type its whole weight.", name=line.name), "line"
        )
    check_lot(asked, payload.lot, material_of(asked, line))


def check_remedied(asked: Asked) -> None:
    """Refuse a way out that this batch does not have at this moment."""
    chosen = asked.payload
    if not isinstance(chosen, Remedied):
        return
    if chosen.code not in CODES | OF_THE_POT:
        raise Refused(say("Choose one of the ways out that the bench offers."), "code")
    for key, mass in chosen.adds:
        _check_add(asked, asked.line(key), mass, chosen.code)
    if chosen.factor is not None and any(line.key in asked.state.weights for line in _jars(asked)):
        raise Refused(say("The alkali is weighed already. Another size is no longer possible."), "factor")
    if chosen.lye_share is not None and (not asked.state.lye_made or asked.state.is_combined):
        raise Refused(
            say("A part of the lye can be poured only once it is made, and before it meets the fats."), "lye_share"
        )


def _jars(asked: Asked) -> tuple[Line, ...]:
    return asked.book.plan.in_group("alkali")


def _check_add(asked: Asked, line: Line, mass_g: float, code: str) -> None:
    weight = asked.state.weights.get(line.key)
    if mass_g < 0 and weight is not None and code not in OF_THE_POT:
        raise Refused(say("{name} is weighed. What is in cannot be taken out again.", name=line.name), "adds")
    if mass_g < 0 and weight is not None and mass_g < -weight.mass_g - 1e-6:
        raise Refused(
            say("No more than {mass} of {name} was weighed.", mass=grams(weight.mass_g), name=line.name), "adds"
        )
    is_caustic = line.group in ("alkali", "water") or is_fat(line)
    poured = [p for p in asked.book.plan.prompts if p.phase == "pour" and p.key in asked.state.done]
    if is_caustic and poured and code not in OF_THE_POT:
        raise Refused(
            say("The batter is in the mould. Nothing can be blended into it now: hold it and test it."), "adds"
        )


def check_strength(asked: Asked) -> None:
    """Refuse alkali into too little water, and a lye of that kind into the fats (C8)."""
    if not isinstance(asked.payload, Done) or asked.prompt_key not in (LYE, COMBINE):
        return
    weights = asked.state.weights
    dry = sum(weights[line.key].mass_g for line in _jars(asked) if line.key in weights)
    jug = [weights[key].mass_g for key in asked.book.jug_keys if key in weights]
    whole = sum(jug)
    if dry > 0 and dry / whole > STRONGEST + 1e-9:
        raise Refused(
            say(
                "The lye would be at {whole}: more alkali than water, it does not all dissolve. Weigh in {whole_2} "
                "of cold water first, or more.",
                whole=percent(dry / whole),
                whole_2=grams(round(2 * dry - whole, 1)),
            )
        )
