"""Doses against their limits: in each portion by itself, and in the bar as a whole."""

from __future__ import annotations

from collections.abc import Iterable

from soapbench.bars.amount import ALL, Amount
from soapbench.bars.amounts import Amounts
from soapbench.bars.finding import Findings, good, stop
from soapbench.bars.formula import Formula
from soapbench.bars.to_science import Facts, portion_shares
from soapbench.science.doses import Limit, PortionChecks, PortionDose, check_portions, finished_g
from soapbench.science.words import say
from soapbench.shelf.facts import MaterialFacts


def dose_findings(formula: Formula, facts: Facts, made: Amounts) -> Findings:
    """Yield a sentence for each scent, and for each other addition that has a limit."""
    for key in dict.fromkeys(line.material for line in made.additives):
        fact = facts[key]
        if fact.kind != "scent" and fact.limit_percent is None:
            continue
        doses = list(_doses(formula, made, key))
        if not any(dose.mass_g for dose in doses):
            continue
        checks = check_portions(fact.name, doses, _limit(fact))
        if checks.ok:
            yield good("dose", _kept(checks), "additives")
        else:
            code = "no-limit" if fact.limit_percent is None else "over-limit"
            yield stop(code, checks.whole.sentence if code == "no-limit" else checks.sentence, "additives")


def _kept(checks: PortionChecks) -> str:
    """Return the whole bar's sentence, and where the dose is highest when the portions differ."""
    letter, highest = max(checks.portions, key=lambda pair: pair[1].percent)
    if highest.percent < 1.01 * checks.whole.percent:
        return checks.whole.sentence
    return say(
        "{sentence} In portion {letter} it is {percent:.3g} %.",
        sentence=checks.whole.sentence,
        letter=letter,
        percent=highest.percent,
    )


def _limit(fact: MaterialFacts) -> Limit | None:
    if fact.limit_percent is None:
        return None
    source = fact.limit_source or "source not noted"
    return Limit(fact.limit_percent, "finished product", source, fact.limit_confidence or fact.confidence)


def _doses(formula: Formula, made: Amounts, key: str) -> Iterable[PortionDose]:
    lines = [line for line in made.additives if line.material == key]
    for letter, share in portion_shares(formula).items():
        mass = sum(mass_in_portion(line, letter, share) for line in lines)
        yield PortionDose(letter, mass, finished_g(made.of_portion(letter)))


def mass_in_portion(line: Amount, letter: str, share: float) -> float:
    """Return the grams of an addition that a portion with this share of the batter gets."""
    if line.portion == ALL:
        return share * line.mass_g
    return line.mass_g if line.portion == letter else 0.0
