"""The check of a formula: plain sentences, and what keeps a run from starting. Pure, and it never raises."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from soapbench.bars.amounts import Amounts, NotEnoughWater, amounts
from soapbench.bars.check_acids import acid_findings
from soapbench.bars.check_doses import dose_findings
from soapbench.bars.check_shape import shape_findings
from soapbench.bars.check_substances import substance_findings
from soapbench.bars.check_sums import sum_findings
from soapbench.bars.finding import Finding, gravest_first, stop
from soapbench.bars.formula import Formula, FormulaError
from soapbench.bars.sums import Sums, sums_of
from soapbench.bars.to_science import Facts
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import POT_LOSS, Mould

__all__ = ["Check", "Finding", "check"]


@dataclass(frozen=True)
class Check:
    """What was found, gravest first, and the numbers where the formula could be worked out."""

    findings: tuple[Finding, ...]
    sums: Sums | None = None

    @property
    def stops(self) -> tuple[Finding, ...]:
        """Return what keeps a run from starting; empty when it may start."""
        return tuple(finding for finding in self.findings if finding.level == "stops")

    @property
    def attentions(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.level == "attention")

    @property
    def goods(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.level == "good" and finding.code != "profile")

    @property
    def profile(self) -> tuple[Finding, ...]:
        """Return what follows from the fatty acids; it is told apart from the rest."""
        return tuple(finding for finding in self.findings if finding.code == "profile")

    @property
    def made(self) -> Amounts | None:
        return self.sums.made if self.sums else None


def check(
    formula: Formula,
    facts: Facts,
    fats_g: float,
    resolution_g: float,
    mould: Mould | None = None,
    *,
    tools: Collection[str] | None = None,
    loss_g: float = POT_LOSS.value,
) -> Check:
    """Return what there is to say about a formula at this batch size, on this scale, in this mould.

    Args:
        formula: the formula.
        facts: what the shelf knows of its materials, by key.
        fats_g: the fats of the batch, g.
        resolution_g: the step of the scale, g.
        mould: where the batter goes; None checks no room and no cut.
        tools: keys of the tools in the workshop; None checks none.
        loss_g: batter that stays in pots and cups, g.
    """
    found = list(shape_findings(formula, facts, tools))
    try:
        sums = sums_of(formula, facts, amounts(formula, facts, fats_g, resolution_g), resolution_g, mould, loss_g)
        found += sum_findings(formula, facts, sums, resolution_g, mould)
        for findings in (acid_findings, dose_findings, substance_findings):
            found += findings(formula, facts, sums.made)
    except NotEnoughWater as error:
        return _stopped(found, stop("lye-too-strong", str(error), "water"))
    except FormulaError as error:
        return _stopped(found, stop("formula", str(error), "fats"))
    except OutOfRange as error:
        return _stopped(found, stop("number", str(error), "size"))
    return Check(gravest_first(found), sums)


def _stopped(found: Iterable[Finding], reason: Finding) -> Check:
    return Check(gravest_first([*found, reason]))
