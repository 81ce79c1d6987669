"""A formula as plain data: what a bar is made of and how it is poured, drawn and cut.

Frozen dataclasses; materials, moulds and tools are named by their keys, so that a formula can
leave the database and come back. `from_document` and `to_document` are the only way in and out.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

import msgspec

from soapbench.science.words import say

SCHEMA = 1
LETTERS = "ABCDEFGH"

FatsBy = Literal["mass", "percent"]
SharesBy = Literal["mass", "mole"]
WaterBy = Literal["lye concentration", "water to alkali ratio", "percent of fats"]
Basis = Literal["percent of fats", "percent of batter", "grams per kg of fats", "grams"]
Texture = Literal["plain", "hatched", "dotted", "crossed", "waved", "striped", "ringed", "checked"]
PourWay = Literal["layer", "side by side", "down the middle", "drops", "in the pot", "against the walls", "rings"]
Trace = Literal["emulsion", "thin", "medium", "thick"]
CutWay = Literal["slices", "blocks on their sides", "long planks", "rounds", "cavities"]
Path = Literal[
    "none", "zigzag", "lengthwise zigzag", "figure eights", "spiral", "s curve", "round the edge", "lifted loops",
    "down and up",
]  # fmt: skip


class FormulaError(ValueError):
    """The document is no formula; the sentence says what is wrong."""


@dataclass(frozen=True)
class FatLine:
    material: str  # key
    amount: float  # grams or per cent, as Formula.fats_by says


@dataclass(frozen=True)
class AlkaliChoice:
    naoh_share: float = 1.0  # of the pure alkali, counted as shares_by says; 1 is a hard bar, 0 a soft soap
    naoh_purity: float = 0.99
    koh_purity: float = 0.90
    shares_by: SharesBy = "mole"


@dataclass(frozen=True)
class Water:
    by: WaterBy = "lye concentration"
    value: float = 0.33  # a fraction; a ratio; a per cent of the fats


@dataclass(frozen=True)
class LiquidLine:
    """Milk and the like in place of part of the water."""

    material: str
    share: float  # of the water mass, 0..1
    goes_into: Literal["lye", "fats"] = "fats"


@dataclass(frozen=True)
class Additive:
    """A colourant, a scent or another addition; `goes_to` is a portion's letter or "all"."""

    material: str
    dose: float
    basis: Basis = "percent of fats"
    goes_to: str = "all"
    disperse_in: str = ""  # key of the fat or liquid that it is dispersed in, taken from the recipe
    disperse_ratio: float = 0.0  # grams of that for one gram


@dataclass(frozen=True)
class Portion:
    letter: str
    name: str
    parts: float
    colour: str = "#e8dcc4"
    texture: Texture = "plain"


@dataclass(frozen=True)
class PourStage:
    way: PourWay
    portions: tuple[str, ...]  # letters, in pouring order
    share: float = 1.0  # of each named portion; the shares of a portion over all stages make 1
    height_mm: float = 50.0
    note: str = ""


@dataclass(frozen=True)
class Drawing:
    path: Path = "none"
    tool: str = ""  # key
    passes: int = 0
    spacing_mm: float = 0.0
    note: str = ""


@dataclass(frozen=True)
class Cut:
    way: CutWay = "slices"
    thickness_mm: float = 25.0
    trim_mm: float = 3.0
    tool: str = ""  # key


@dataclass(frozen=True)
class Process:
    fats_c: float = 40.0  # temperatures of the window for combining
    mix_low_c: float = 32.0
    mix_high_c: float = 43.0
    trace: Trace = "thin"
    oven: bool = False
    oven_c: float = 77.0
    oven_minutes: float = 60.0
    insulated: bool = True
    unmould_hours: float = 0.0  # 0: what the process, the gel that is seen and the lye make likely
    cut_hours: float = 0.0  # 0: with the unmoulding
    cure_days: int = 42


@dataclass(frozen=True)
class Formula:
    fats: tuple[FatLine, ...]
    portions: tuple[Portion, ...]
    fats_by: FatsBy = "percent"
    alkali: AlkaliChoice = field(default_factory=AlkaliChoice)
    superfat: float = 0.05
    water: Water = field(default_factory=Water)
    liquids: tuple[LiquidLine, ...] = ()
    additives: tuple[Additive, ...] = ()
    pour: tuple[PourStage, ...] = ()
    drawing: Drawing = field(default_factory=Drawing)
    cut: Cut = field(default_factory=Cut)
    process: Process = field(default_factory=Process)
    mould: str = ""  # key of the usual mould
    schema: int = SCHEMA

    @property
    def material_keys(self) -> frozenset[str]:
        """Return the keys of every material that the formula names."""
        lines: tuple[FatLine | LiquidLine | Additive, ...] = (*self.fats, *self.liquids, *self.additives)
        carriers = {additive.disperse_in for additive in self.additives if additive.disperse_in}
        return frozenset(line.material for line in lines) | carriers


def from_document(document: Any) -> Formula:
    """Return the formula that a JSON document holds.

    Raises:
        FormulaError: the document is not a formula of a known schema.
    """
    try:
        formula = msgspec.convert(document, Formula)
    except msgspec.ValidationError as error:
        raise FormulaError(say("This is not a formula: {error}.", error=error)) from error
    if formula.schema != SCHEMA:
        raise FormulaError(
            say(
                "This formula is written in schema {schema}; this app reads schema {SCHEMA}.",
                schema=formula.schema,
                SCHEMA=SCHEMA,
            )
        )
    return formula


def to_document(formula: Formula) -> Any:
    """Return the formula as plain JSON data."""
    return msgspec.to_builtins(formula)
