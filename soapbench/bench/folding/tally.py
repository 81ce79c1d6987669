"""What the events have told so far, in one place while the fold reads them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from soapbench.bench.folding.book import COMBINE, LYE, Book
from soapbench.bench.plan import Line, Plan
from soapbench.bench.state import (
    Change,
    Fact,
    Firmness,
    Pause,
    PutOff,
    Rinse,
    ScaleTried,
    TemperatureReading,
    Weight,
)
from soapbench.shelf.facts import MaterialFacts


@dataclass
class Tally:
    """The facts of a run, gathered event by event. Grows only while the fold reads."""

    book: Book
    started_at: datetime | None = None
    done: dict[str, datetime] = field(default_factory=dict)
    ticked: dict[str, bool] = field(default_factory=dict)
    weights: dict[str, Weight] = field(default_factory=dict)
    used_instead: dict[str, tuple[str, int | None]] = field(default_factory=dict)  # line -> stand-in and its lot
    left_out: dict[str, str] = field(default_factory=dict)  # line or "portion:B" -> why
    parts: dict[str, list[float]] = field(default_factory=dict)  # weighed of a line that is not whole yet
    owed: dict[str, float] = field(default_factory=dict)  # still to weigh of a line that was weighed or left out
    shift: dict[str, float] = field(default_factory=dict)  # more or less than planned of a line that is still open
    factor: float = 1.0  # of the batch, on every amount still open
    spent: dict[int, float] = field(default_factory=dict)  # lot -> grams weighed out for nothing
    lye_share: float = 1.0  # of the made lye, that is poured
    pot_read_g: float | None = None  # the pot on the scale, until what it says is dealt with
    to_do: str = ""  # with what is weighed in for a way out
    decided: str = ""  # the situation in which a way out was chosen
    dealt_with: dict[str, str] = field(default_factory=dict)  # item -> what a change does about it
    scale_tried: ScaleTried | None = None
    put_off: PutOff | None = None
    drawing_ahead: dict[str, Any] | None = None
    choice: str = ""
    lost_batter_g: float = 0.0  # from the pot; what a cup loses is taken off its portion
    thickened: list[str] = field(default_factory=list)  # letters, the first one first
    is_alkali_unknown: bool = False
    was_lye_heavy: bool = False
    readings: list[TemperatureReading] = field(default_factory=list)
    portions_g: dict[str, float] = field(default_factory=dict)
    trace: str = ""
    rest_tests: list[Fact] = field(default_factory=list)
    drawing: dict[str, Any] | None = None
    cut: dict[str, Any] | None = None
    cure_weighings: list[tuple[datetime, int, float]] = field(default_factory=list)
    tests: list[Fact] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    pauses: list[Pause] = field(default_factory=list)
    rinses: list[Rinse] = field(default_factory=list)
    looks: list[Fact] = field(default_factory=list)
    firmness: list[Firmness] = field(default_factory=list)
    notes: list[Fact] = field(default_factory=list)
    attachments: list[Fact] = field(default_factory=list)
    taken: dict[str, Fact] = field(default_factory=dict)  # prompt -> who took it in hand
    ended: Fact | None = None
    last_event: str = ""
    people: dict[str, None] = field(default_factory=dict)  # an ordered set

    @property
    def plan(self) -> Plan:
        return self.book.plan

    @property
    def lye_at(self) -> datetime | None:
        """Return when alkali met water."""
        return self.done.get(LYE)

    @property
    def is_combined(self) -> bool:
        return COMBINE in self.done

    def material_of(self, line: Line) -> tuple[str, int | None]:
        """Return the material and the lot that the line really is: as weighed, as replaced, or as planned."""
        weight = self.weights.get(line.key)
        if weight is not None:
            return weight.material, weight.lot
        return self.used_instead.get(line.key, (line.material, line.lot))

    def facts_of(self, line: Line) -> MaterialFacts | None:
        material, lot = self.material_of(line)
        return self.book.facts(material, lot)

    def name_of(self, line: Line) -> str:
        """Return the name of what the line really is."""
        material, _ = self.material_of(line)
        fact = self.book.facts(material, None)
        return line.name if material == line.material or fact is None else fact.name

    def mark_done(self, prompt: str, at: datetime) -> None:
        """Note when a prompt was first done; a second time changes nothing."""
        if prompt in self.book.prompts:
            self.done.setdefault(prompt, at)
            self.taken.pop(prompt, None)  # out of whose hand it ever was

    def is_accounted(self, line: Line) -> bool:
        return line.key in self.weights or line.key in self.left_out

    @property
    def fats_are_in(self) -> bool:
        """Return whether every fat of the pot was weighed or left out with a reason."""
        return all(self.is_accounted(line) for line in self.plan.in_group("fat"))

    def is_open(self, line: Line) -> bool:
        """Return whether a line is still to be weighed, and was not begun with."""
        return not self.is_accounted(line) and line.key not in self.parts
