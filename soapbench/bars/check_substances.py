"""Substances with a limit of their own, added up over all scents: in each portion, and in the bar as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from soapbench.bars.amounts import Amounts
from soapbench.bars.check_doses import mass_in_portion
from soapbench.bars.finding import Findings, attention, good, stop
from soapbench.bars.formula import Formula
from soapbench.bars.to_science import Facts, portion_shares
from soapbench.science.doses import DoseCheck, finished_g
from soapbench.science.restricted import Scent, check_substances
from soapbench.science.words import mark, say

WHOLE = ""
RICHER = 1.01  # less than that is the rounding of the weights
ONE_CERTIFICATE = mark("The certificate of your lot wins over this figure.")
MORE_CERTIFICATES = mark(
    "The certificates of your lots win over this figure; ask the supplier whether they count together."
)


@dataclass(frozen=True)
class _Place:
    """A portion by its letter, or the whole bar, with the scents in it and the finished mass they count against."""

    letter: str
    scents: tuple[Scent, ...]
    product_g: float


def substance_findings(formula: Formula, facts: Facts, made: Amounts) -> Findings:
    """Yield a stop for each substance over its limit anywhere, and one sentence on those that keep theirs."""
    worst: dict[str, tuple[str, DoseCheck]] = {}
    for place in _places(formula, facts, made):
        for substance, found in check_substances(place.scents, place.product_g):
            if found.percent > 0 and (substance not in worst or _is_worse(found, worst[substance][1])):
                worst[substance] = (place.letter, found)
    over = {substance: pair for substance, pair in worst.items() if not pair[1].ok}
    for substance, (letter, found) in over.items():
        yield from _over(substance, letter, found, facts, made)
    kept = [(substance, found) for substance, (_, found) in worst.items() if found.ok]
    if kept:
        yield good("substances", _kept_words(kept), "additives")


def _is_worse(found: DoseCheck, known: DoseCheck) -> bool:
    """Return whether a place is worth naming: over the limit where the others keep it, or clearly richer."""
    return (known.ok and not found.ok) or found.percent > RICHER * known.percent


def _places(formula: Formula, facts: Facts, made: Amounts) -> Iterable[_Place]:
    # The whole comes first: a portion is named only where it holds more than the bar as a whole does.
    shares = portion_shares(formula)
    yield _Place(WHOLE, _scents(facts, made, shares), sum(finished_g(made.of_portion(letter)) for letter in shares))
    if len(shares) > 1:
        for letter, share in shares.items():
            yield _Place(letter, _scents(facts, made, {letter: share}), finished_g(made.of_portion(letter)))


def _scents(facts: Facts, made: Amounts, shares: dict[str, float]) -> tuple[Scent, ...]:
    """Return the scents in these portions together."""
    found = []
    for key in _with_parts(facts, made):
        lines = [line for line in made.additives if line.material == key]
        mass = sum(mass_in_portion(line, letter, share) for line in lines for letter, share in shares.items())
        parts = {name: percent / 100 for name, percent in (facts[key].parts or {}).items()}
        found.append(Scent(facts[key].name, mass, parts))
    return tuple(found)


def _with_parts(facts: Facts, made: Amounts) -> Sequence[str]:
    return [key for key in dict.fromkeys(line.material for line in made.additives) if facts[key].parts]


def _over(substance: str, letter: str, found: DoseCheck, facts: Facts, made: Amounts) -> Findings:
    bringers = {key: _share_in(facts, key, substance) for key in _with_parts(facts, made)}
    bringers = {key: share for key, share in bringers.items() if share > 0}
    where = say("Portion {letter}, all scents together: ", letter=letter) if letter else say("All scents together: ")
    names = ", ".join(
        say("{name} (up to {share:g} % of it)", name=facts[key].name, share=share) for key, share in bringers.items()
    )
    sentence = say("{where}{sentence} It comes with {names}.", where=where, sentence=found.sentence, names=names)
    if all(facts[key].limit_confidence == "supplier" for key in bringers):
        # The certificate of the very oil wins over the table, but says nothing of two oils together.
        words = say(MORE_CERTIFICATES if len(bringers) > 1 else ONE_CERTIFICATE)
        yield attention("substance", f"{sentence} {words}", "additives")
    else:
        yield stop(
            "substance",
            say("{sentence} Take less of that, or write down the certificate of your lot.", sentence=sentence),
            "additives",
        )


def _share_in(facts: Facts, key: str, substance: str) -> float:
    return {name.lower(): percent for name, percent in (facts[key].parts or {}).items()}.get(substance, 0.0)


def _kept_words(kept: Sequence[tuple[str, DoseCheck]]) -> str:
    told = ", ".join(
        say(
            "{substance} {percent:.2g} of {max_percent:g} % ({confidence})",
            substance=substance,
            percent=found.percent,
            max_percent=found.limit.max_percent,
            confidence=found.limit.confidence,
        )
        for substance, found in kept
        if found.limit
    )
    sources = "; ".join(dict.fromkeys(found.limit.source for _, found in kept if found.limit))
    return say(
        "Limited substances, added up over all scents at the most that they may hold: {told}. Limits: {sources}.",
        told=told,
        sources=sources,
    )
