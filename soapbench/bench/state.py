"""Where a run stands, as plain data. Made by `run.fold(plan, events)` and by nothing else."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal

from soapbench.bench.cooling import Cooling, Mixing
from soapbench.science.remedy import Remedy
from soapbench.science.superfat import SuperfatInterval
from soapbench.science.taking import Taking

Status = Literal["bench", "resting", "curing", "released", "rejected", "stopped"]


@dataclass(frozen=True)
class Fact:
    """An event as the fold reads it."""

    id: str
    position: int
    kind: str
    prompt: str
    payload: dict[str, Any]
    happened_at: datetime
    received_at: datetime
    person: str
    device: str
    device_at: datetime | None = None  # by the device's own clock
    seen: int | None = None  # how many events whoever tapped knew of; None when nobody kept that


@dataclass(frozen=True)
class Weight:
    """What was really weighed for a line."""

    line: str
    mass_g: float
    planned_g: float
    target_g: float  # what the bench asked for at that moment
    lot: int | None
    at: datetime
    person: str
    event: str
    material: str  # key; a stand-in's after a substitution
    name: str
    is_within: bool  # tolerance
    parts: tuple[float, ...] = ()  # when it was weighed in several


@dataclass(frozen=True)
class TemperatureReading:
    pot: str
    temp_c: float
    at: datetime
    event: str
    minutes: float  # since alkali met water; negative before


@dataclass(frozen=True)
class Change:
    """A departure from the plan, with its decision and what follows from it."""

    event: str
    what: str
    prompt: str
    prompt_title: str
    why: str
    decision: str
    effect: str  # computed, in words
    at: datetime
    person: str  # who wrote it down
    details: dict[str, Any]
    decided_by: str = ""  # the same one, unless another was named


@dataclass(frozen=True)
class Notice:
    """What an earlier change means at a prompt that is still to come."""

    event: str
    at: datetime
    sentence: str


@dataclass(frozen=True)
class Pause:
    """A time away from the bench, from "hold on" to the next thing done there."""

    since: datetime
    until: datetime | None  # None while it lasts
    prompt: str
    person: str
    why: str = ""
    checked: str = ""  # what was found about the step in hand on return

    @property
    def minutes(self) -> float | None:
        """Return how long it was, None while it lasts."""
        return None if self.until is None else (self.until - self.since).total_seconds() / 60


@dataclass(frozen=True)
class Rinse:
    """Rinsing after a splash."""

    began: datetime
    ended: datetime | None  # None while it runs
    where: str  # "eye", "skin" or ""
    person: str

    @property
    def minutes(self) -> float | None:
        return None if self.ended is None else (self.ended - self.began).total_seconds() / 60


@dataclass(frozen=True)
class Firmness:
    """One pressing of the loaf."""

    at: datetime
    is_firm: bool
    crumbles: bool
    note: str
    person: str


@dataclass(frozen=True)
class Rest:
    """The loaf in its mould: since when, which gel was seen, and when it is usually firm."""

    began: datetime
    gel: str  # "yes", "no", "" while nobody can say
    earliest: datetime
    latest: datetime
    sentence: str


@dataclass(frozen=True)
class InHand:
    """Who has a prompt in hand."""

    person: str
    device: str  # "" when it was handed to somebody who has not tapped yet
    since: datetime
    event: str


@dataclass(frozen=True)
class Conflict:
    """Answers to one question by hands that did not know of each other. All stay in the log."""

    subject: str  # what was asked, such as "weighed fat:coconut"
    prompt: str
    facts: tuple[Fact, ...]  # in the order of the log
    counts: tuple[str, ...]  # ids of those that count: as decided, else the careful side; () when none does
    is_same: bool  # they say the same: nothing to decide
    may_be_both: bool  # such as a fat that really went in twice
    decision: Fact | None = None

    @property
    def is_open(self) -> bool:
        return self.decision is None and not self.is_same


@dataclass(frozen=True)
class RunningTimer:
    key: str
    label: str
    started_at: datetime
    ends_at: datetime
    portion: str = ""  # letter, where it is a portion's working time


@dataclass(frozen=True)
class Settlement:
    """The choice between the planned alkali and the one that suits the fats in the pot."""

    is_needed: bool
    planned: dict[str, float]  # line key -> grams, alkali and water
    recomputed: dict[str, float]
    superfat_if_planned: float
    superfat_if_recomputed: float
    sentence: str
    choice: str = ""  # "", "planned", "recomputed"


@dataclass(frozen=True)
class Way:
    """A way out that can be chosen: the event that chooses it, in words, and what the batch would then have."""

    code: str
    title: str
    sentence: str
    kind: Literal["settled", "remedied"]
    payload: dict[str, Any]
    interval: SuperfatInterval | None = None


@dataclass(frozen=True)
class ScaleTried:
    """The scale against something of known mass."""

    known_g: float
    read_g: float
    is_good: bool
    sentence: str
    event: str


@dataclass(frozen=True)
class PutOff:
    """The batch waits for another day."""

    why: str
    until: str
    at: datetime
    person: str
    event: str


@dataclass(frozen=True)
class RunState:
    status: Status
    current: str  # key of the prompt to do now; "" when the run has ended
    done: dict[str, datetime]  # prompt key -> when, in the order done
    skipped: dict[str, str]  # prompt key -> why it is not needed
    ticked: dict[str, bool]  # item key -> is here
    weights: dict[str, Weight]  # line key -> actual
    targets: dict[str, float]  # line key -> grams to weigh now
    tolerances: dict[str, float]
    pot_g: float  # running total of the fats in the pot
    batter_g: float | None
    portions_g: dict[str, float]  # letter -> grams, as split
    settlement: Settlement | None
    superfat: SuperfatInterval | None  # of what is really in the pot; None until the alkali is weighed
    superfat_sentence: str
    remedies: tuple[Remedy, ...]
    readings: tuple[TemperatureReading, ...]
    changes: tuple[Change, ...]
    notes: tuple[Fact, ...]
    timers: tuple[RunningTimer, ...]
    due_at: datetime | None
    last_event: str  # the one that "take back" would withdraw; "" when there is none
    withdrawn: frozenset[str]
    drawing: dict[str, Any] | None  # as really drawn
    trace: str
    cut: dict[str, Any] | None
    cure_weighings: tuple[tuple[datetime, int, float], ...]
    tests: tuple[Fact, ...]
    ended: Fact | None  # the event that released, rejected or stopped the run
    started_at: datetime | None
    people: tuple[str, ...]
    is_combined: bool = False  # lye and fats have met
    lye_made: bool = False  # alkali is in the water
    pauses: tuple[Pause, ...] = ()  # the last one may last still
    rinses: tuple[Rinse, ...] = ()  # after splashes; the last one may run still
    attachments: tuple[Fact, ...] = ()  # photos and voice notes
    notices: dict[str, tuple[Notice, ...]] = field(default_factory=dict)  # prompt key -> what was changed for it
    cooling: Cooling | None = None  # between alkali in water and lye in fats
    mixing: Mixing | None = None  # what the latest readings make together
    batter_since: datetime | None = None  # lye met fats, and not all is poured
    rest_tests: tuple[Fact, ...] = ()
    parts: dict[str, tuple[float, ...]] = field(default_factory=dict)  # of lines not whole yet
    owed: dict[str, float] = field(default_factory=dict)  # line key -> grams still to weigh of a line that was weighed
    spent: dict[int, float] = field(default_factory=dict)  # lot -> grams weighed out for nothing
    lye_share: float = 1.0  # of the made lye, that is poured
    factor: float = 1.0  # of the batch as planned
    left_out: frozenset[str] = frozenset()  # line keys
    superfat_as_asked: float | None = None  # when all that is still open comes out as asked
    strength_as_asked: float | None = None  # of the lye, a fraction, likewise
    to_do: str = ""  # with what is weighed in for a way out, until the next step is done
    situation: str = ""  # what the ways out are about
    ways: tuple[Way, ...] = ()
    takings: dict[str, Taking] = field(default_factory=dict)  # line key -> how much of what was weighed goes in
    thickened: tuple[str, ...] = ()  # letters of portions that thickened early, the first one first
    dealt: dict[str, str] = field(default_factory=dict)  # item that is not at hand -> what is done about it
    scale: str = ""  # name of the one in use
    scale_tried: ScaleTried | None = None
    put_off: PutOff | None = None
    drawing_ahead: dict[str, Any] | None = None  # chosen before the drawing in place of the planned one
    rest: Rest | None = None  # of a loaf in its mould, and what it was then
    looks: tuple[Fact, ...] = ()  # at the loaf
    firmness: tuple[Firmness, ...] = ()  # each pressing
    in_hand: dict[str, InHand] = field(default_factory=dict)  # prompt key -> who has it
    conflicts: tuple[Conflict, ...] = ()  # decided ones too
    credits: dict[str, str] = field(default_factory=dict)  # event -> who really did it
    needs_test: bool = False  # is or was lye-heavy, or nobody knows: no release without a passed test

    def so_far_g(self, line: str) -> float:
        """Return the grams of a line that are weighed already while more of it is asked for."""
        before = self.weights[line].mass_g if line in self.owed and line in self.weights else 0.0
        return round(before + sum(self.parts.get(line, ())), 6)

    @property
    def paused_since(self) -> datetime | None:
        """Return since when the bench is on hold, None when it is not."""
        last = self.pauses[-1] if self.pauses else None
        return last.since if last and last.until is None and self.ended is None else None

    @property
    def rinsing_since(self) -> datetime | None:
        last = self.rinses[-1] if self.rinses else None
        return last.began if last and last.ended is None else None

    @property
    def untold_weights(self) -> tuple[Weight, ...]:
        """Return the weights outside their tolerance that no change speaks of."""
        told = {change.event for change in self.changes}
        return tuple(weight for weight in self.weights.values() if not weight.is_within and weight.event not in told)

    @property
    def open_conflicts(self) -> tuple[Conflict, ...]:
        return tuple(conflict for conflict in self.conflicts if conflict.is_open)

    @property
    def is_lye_heavy(self) -> bool:
        return self.superfat is not None and self.superfat.is_lye_heavy

    @property
    def deviations(self) -> int:
        apart = sum(not conflict.is_same for conflict in self.conflicts)
        return len(self.changes) + len(self.untold_weights) + apart
