"""What a check finds: one plain sentence each, and how grave it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

Level = Literal["good", "attention", "stops"]
# The part of a formula that a finding is about; the page for editing has a heading for each.
Field = Literal["fats", "alkali", "water", "liquids", "additives", "portions", "pour", "drawing", "cut", "size"]

_ORDER: tuple[Level, ...] = ("stops", "attention", "good")


@dataclass(frozen=True)
class Finding:
    """One sentence on a formula; "stops" keeps a run from starting."""

    code: str
    level: Level
    sentence: str
    field: Field


Findings = Iterator[Finding]


def stop(code: str, sentence: str, field: Field) -> Finding:
    return Finding(code, "stops", sentence, field)


def attention(code: str, sentence: str, field: Field) -> Finding:
    return Finding(code, "attention", sentence, field)


def good(code: str, sentence: str, field: Field) -> Finding:
    return Finding(code, "good", sentence, field)


def gravest_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings, what stops a run first, the order otherwise kept."""
    return tuple(sorted(findings, key=lambda finding: _ORDER.index(finding.level)))
