"""What a plan is made from, as plain data: the order, the workshop, the scale, the mould, the tools."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from soapbench.bars.amounts import Amounts
from soapbench.bars.formula import Formula
from soapbench.bench.learning.learnt import Learnt, without
from soapbench.bench.plan import PlanLot, PlanScale
from soapbench.science.mould import Mould
from soapbench.shelf.facts import MaterialFacts


@dataclass(frozen=True)
class Vessel:
    name: str
    use: Literal["lye", "pot", "cup"]
    material: str
    volume_ml: float
    tare_g: float


@dataclass(frozen=True)
class Tool:
    key: str
    name: str
    kind: str


@dataclass(frozen=True)
class Bench:
    """The workshop on the day of the run."""

    workshop: str
    is_invented: bool
    room_c: float
    emergency: str  # the local numbers, ready to show
    scale: PlanScale
    mould_name: str
    mould: Mould
    vessels: tuple[Vessel, ...] = ()
    tools: tuple[Tool, ...] = ()
    other_scales: tuple[PlanScale, ...] = ()

    def vessel(self, use: str, fallback: str) -> str:
        """Return the name of the first vessel for this use."""
        return next((vessel.name for vessel in self.vessels if vessel.use == use), fallback)

    def tool(self, kind: str, fallback: str) -> str:
        return next((tool.name for tool in self.tools if tool.kind == kind), fallback)

    def tool_by_key(self, key: str) -> Tool | None:
        return next((tool for tool in self.tools if tool.key == key), None)


@dataclass(frozen=True)
class SizeAsked:
    """How much to make: grams of fats, a number of bars, or as much as fills the mould."""

    by: Literal["fats", "bars", "mould"]
    fats_g: float = 0.0
    bars: int = 0
    bar_g: float = 0.0  # fresh; 0 takes the bar that the formula's cut gives from a full mould
    fill: float = 1.0


@dataclass(frozen=True)
class Order:
    """One bar in one revision, how much of it, on which bench, by whom and when."""

    bar: str
    bar_slug: str
    revision: int
    formula: Formula
    size: SizeAsked
    facts: Mapping[str, MaterialFacts]
    stand_ins: Mapping[str, MaterialFacts]
    lots: tuple[PlanLot, ...]
    bench: Bench
    made_by: str
    made_at: str  # ISO 8601, UTC
    learnt: Learnt = Learnt()
    refused: frozenset[str] = frozenset()  # keys of what was learnt and is not to be reckoned with

    @property
    def reckoned(self) -> Learnt:
        """Return what was learnt and is to be reckoned with."""
        return without(self.learnt, self.refused)


@dataclass(frozen=True)
class Batch:
    """An order with its amounts worked out: what every part of the plan is written from."""

    order: Order
    made: Amounts

    @property
    def formula(self) -> Formula:
        return self.order.formula

    @property
    def bench(self) -> Bench:
        return self.order.bench

    @property
    def learnt(self) -> Learnt:
        return self.order.reckoned

    @property
    def mixed_c(self) -> float:
        """Return the temperature at which lye and fats are planned to meet, °C."""
        process = self.formula.process
        return (process.mix_low_c + process.mix_high_c) / 2

    def fact(self, material: str) -> MaterialFacts | None:
        return self.order.facts.get(material)
