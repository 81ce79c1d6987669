"""What a batch record is made of: sections of a few kinds of blocks, for the screen and for paper alike."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from soapbench.rack.chart import Chart

Tone = Literal["", "good", "attention", "stop"]


@dataclass(frozen=True)
class Swatch:
    colour: str
    texture: str
    letter: str


@dataclass(frozen=True)
class Cell:
    """A value, a smaller remark under it, and how it should be taken; the words alone say that too."""

    text: str
    note: str = ""
    tone: Tone = ""
    swatch: Swatch | None = None


@dataclass(frozen=True)
class Column:
    title: str
    share: float = 1.0  # of the width on paper, against the other columns
    is_number: bool = False


@dataclass(frozen=True)
class Words:
    text: str
    tone: Tone = ""
    kind: Literal["words"] = field(default="words", init=False)


@dataclass(frozen=True)
class Pairs:
    """Names with their values."""

    rows: tuple[tuple[str, Cell], ...]
    kind: Literal["pairs"] = field(default="pairs", init=False)


@dataclass(frozen=True)
class Table:
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str = ""
    stays: bool = False  # few narrow columns: it stays a table on a phone
    kind: Literal["table"] = field(default="table", init=False)

    @property
    def lines(self) -> list[list[tuple[Column, Cell]]]:
        """Return each row as its cells beside their columns."""
        return [list(zip(self.columns, row, strict=True)) for row in self.rows]


@dataclass(frozen=True)
class Curve:
    chart: Chart
    kind: Literal["curve"] = field(default="curve", init=False)


@dataclass(frozen=True)
class Figure:
    """A photo or a voice note, with its caption and who took it when."""

    what: Literal["photo", "voice"]
    address: str  # where the screen fetches it
    path: str  # where paper reads it; "" when the file is not there
    caption: str
    note: str
    kind: Literal["figure"] = field(default="figure", init=False)


@dataclass(frozen=True)
class Code:
    """Words that a camera reads off paper, with what is in them; the screen has them as text already."""

    text: str
    caption: str
    kind: Literal["code"] = field(default="code", init=False)


Block = Words | Pairs | Table | Curve | Figure | Code


@dataclass(frozen=True)
class Section:
    key: str
    title: str
    blocks: tuple[Block, ...]
    is_folded: bool = False  # long and seldom read: the screen shows it when it is asked for, paper always


@dataclass(frozen=True)
class Glance:
    """One of the few figures at the head: what a reader looks for first."""

    name: str
    value: str
    note: str = ""
    tone: Tone = ""


@dataclass(frozen=True)
class Record:
    """One batch as it was made; everything is words by now."""

    code: str
    bar: str
    author: str
    is_invented: bool
    made_on: str
    workshop: str
    status: str
    glances: tuple[Glance, ...]
    sections: tuple[Section, ...]
