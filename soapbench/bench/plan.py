"""The plan of a run as plain data: what to weigh, what to do, in which order.

Made by `planning.make_plan`, frozen into the run, never edited. Everything that the bench shows
is here or is computed from the plan and the events.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

import msgspec

from soapbench.bars.formula import Formula
from soapbench.science.cooling_law import LearntRate
from soapbench.science.mould import POT_LOSS
from soapbench.shelf.facts import MaterialFacts

SCHEMA = 1

Phase = Literal[
    "gather", "fats", "lye", "meanwhile", "combine", "portions", "pour", "drawing", "rest", "cut", "cure", "release"
]  # fmt: skip
PromptKind = Literal[
    "tick",  # tick every item that is at hand
    "scale check",  # try the scale with a known mass
    "weigh",  # one line to weigh
    "act",  # do it, one tap
    "hold",  # cannot be undone at the bench: held to confirm
    "settle",  # decide on the alkali after the fats; skipped when nothing differs
    "read",  # one temperature reading of a pot
    "cool",  # readings until both pots are in the window
    "pot check",  # weigh the pot against the sum of the entries
    "trace",  # blend until the planned trace is seen
    "rest test",  # two minutes of rest tell false trace
    "split",  # weigh out one portion of batter
    "pour",  # one stage of the pour, held to confirm
    "draw",  # the drawing
    "look",  # at the loaf: does it gel
    "firmness",  # press the loaf
    "wait",  # until a time has passed
    "cut",  # count and weigh the bars
    "cure",  # weighings while the bars dry, done when they are ready
    "test",  # a test of the finished bar
    "release",  # a named person decides
]
LineGroup = Literal["fat", "water", "liquid", "alkali", "colourant", "scent", "addition", "carrier"]
ChangeKind = Literal[
    "substituted", "amount off", "temperature off", "drawn differently", "thickened early", "lost or spilt",
    "left out", "not at hand", "another scale", "interrupted", "other",
]  # fmt: skip


@dataclass(frozen=True)
class Line:
    """One thing to weigh."""

    key: str  # "fat:olive", "water", "alkali:naoh", "colourant:B:indigo", …
    material: str
    name: str
    group: LineGroup
    planned_g: float  # rounded to the scale's resolution
    tolerance_g: float
    portion: str = ""  # a letter, "all" for the whole batter, "" before the batter exists
    vessel: str = ""
    lot: int | None = None
    lot_code: str = ""
    rate: float = 0.0  # of an addition: the dose
    basis: str = ""  # what the dose counts on; of a carrier: the group that it is taken from


@dataclass(frozen=True)
class PlanLot:
    """A usable lot of one of the run's materials or stand-ins, with what its paper says."""

    lot: int  # primary key
    material: str
    code: str
    sv_own: float | None = None
    purity: float | None = None
    purity_is_stated: bool = False
    takes_mol_per_g: float | None = None  # as in Plan.takes_mol_per_g, where the paper differs


@dataclass(frozen=True)
class Tick:
    """One item to have at hand before anything starts."""

    key: str
    text: str
    what: Literal["material", "tool", "protection", "room", "time"]
    detail: str = ""
    lines: tuple[str, ...] = ()  # of a material: the keys of what is weighed from it
    is_short: bool = False  # of a material: the shelf holds less than the batch needs
    alone: bool = False  # ticked by itself, never together with the rest of its list


@dataclass(frozen=True)
class Timer:
    """Starts when its prompt is done."""

    key: str
    label: str
    minutes: float
    until: str = ""  # key of the prompt that ends it
    portion: str = ""  # letter, where it is a portion's working time


@dataclass(frozen=True)
class Caution:
    """Shown with the prompt where it matters. The signal words are those of ANSI Z535 and of the jar."""

    code: str
    word: Literal["DANGER", "WARNING", "CAUTION", "Note"]
    text: str


@dataclass(frozen=True)
class Prompt:
    """One thing to do at the bench."""

    key: str
    phase: Phase
    kind: PromptKind
    title: str  # verb first, at most 12 words
    detail: str = ""
    line: str = ""  # key of the line that is weighed here, or that goes in here
    portion: str = ""  # letter
    pot: Literal["", "lye", "fats", "batter"] = ""
    ticks: tuple[Tick, ...] = ()
    cautions: tuple[Caution, ...] = ()
    timer: Timer | None = None
    low_c: float | None = None
    high_c: float | None = None
    minutes: float | None = None  # of a wait
    takes_minutes: float = 0.0  # of hands, of what may be done while the lye cools
    meanwhile: bool = False  # may be done while the lye cools
    changes: tuple[ChangeKind, ...] = ("interrupted", "other")  # what makes sense here


@dataclass(frozen=True)
class PlanPortion:
    letter: str
    name: str
    share: float  # of the batter, all portions make 1
    planned_g: float
    colour: str
    texture: str


@dataclass(frozen=True)
class Size:
    by: Literal["fats", "bars", "mould"]
    fats_g: float
    bars: int
    batter_g: float
    fill_mm: float


@dataclass(frozen=True)
class Choice:
    """A drawing that a tool in the workshop could make."""

    tool: str
    tool_name: str
    tool_kind: str
    path: str


@dataclass(frozen=True)
class Teaching:
    """Something that finished runs taught and that this plan reckons with; its key says what, for refusing it."""

    key: str
    sentence: str
    runs: int


@dataclass(frozen=True)
class PlanScale:
    """A scale of the workshop."""

    key: str
    name: str
    resolution_g: float
    capacity_g: float
    check_mass_g: float = 0.0  # kept to try it with, 0 for none
    check_name: str = ""


@dataclass(frozen=True)
class RestWindow:
    """When a loaf is usually firm, in hours after it was set aside, and why."""

    earliest_h: float
    latest_h: float
    sentence: str


@dataclass(frozen=True)
class RestPlan:
    """The windows of the loaf by the gel that was seen: "" as planned, "yes", "no"."""

    windows: dict[str, RestWindow]
    starts: str  # key of the prompt from which the hours count
    again_hours: float  # a loaf that dented is pressed again after so long
    gel_shows_hours: float  # no gel seen before counts for nothing yet


@dataclass(frozen=True)
class Plan:
    bar: str
    bar_slug: str
    revision: int
    formula: Formula
    size: Size
    made_at: str  # ISO 8601, UTC
    made_by: str
    workshop: str
    is_invented: bool
    scale: str
    resolution_g: float
    capacity_g: float
    mould: str  # name
    mould_shape: dict[str, Any]  # fields of science.mould.Mould
    room_c: float
    lines: tuple[Line, ...]
    prompts: tuple[Prompt, ...]
    portions: tuple[PlanPortion, ...]
    materials: dict[str, MaterialFacts]  # of every line
    stand_ins: dict[str, MaterialFacts]  # fats, colourants, scents of this shelf that could be used instead
    drawings: tuple[Choice, ...]
    tares: dict[str, float]  # vessel name -> grams
    planned_superfat: float
    emergency: str = ""  # the local numbers, ready to show
    lots: tuple[PlanLot, ...] = ()
    # Moles of alkali to weigh for a gram of a material: the superfat is taken off a fat, an acid counts in full.
    takes_mol_per_g: dict[str, float] = field(default_factory=dict)
    # Grams to weigh, impurities included, for one mole of alkali: the mixture's recipe by line key.
    alkali_g_per_mol: dict[str, float] = field(default_factory=dict)
    jug_hottest_c: float | None = None  # what the jug of the lye stands
    volumes_ml: dict[str, float] = field(default_factory=dict)  # vessel name -> how much it holds
    cup: str = ""  # the vessel in which to weigh what its own is too heavy for
    check_mass_g: float = 0.0  # kept to try the scale with, 0 for none
    check_name: str = ""
    other_scales: tuple[PlanScale, ...] = ()
    active_minutes: float = 0.0  # from the beginning to the end of the drawing
    schedule: str = ""  # the order of scenting and pouring, in words
    cups: dict[str, str] = field(default_factory=dict)  # letter -> vessel that the portion is poured from
    # What finished runs taught: in words, and as the figures that the bench reckons with.
    learnt: tuple[Teaching, ...] = ()
    cooling_learnt: dict[str, LearntRate] = field(default_factory=dict)  # by pot, "lye" and "fats"
    usual_trace_minutes: float | None = None
    usual_trace_runs: int = 0
    loss_g: float = POT_LOSS.value  # batter that stays in pots and cups
    rest: RestPlan | None = None  # of runs planned before there were windows: None, their timers' minutes count
    schema: int = SCHEMA

    def line(self, key: str) -> Line:
        return next(line for line in self.lines if line.key == key)

    def prompt(self, key: str) -> Prompt:
        return next(prompt for prompt in self.prompts if prompt.key == key)

    def in_group(self, *groups: LineGroup) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.group in groups)


def from_document(document: Any) -> Plan:
    """Return the plan that a run froze."""
    return msgspec.convert(document, Plan)


def to_document(plan: Plan) -> Any:
    """Return the plan as plain JSON data."""
    return msgspec.to_builtins(plan)
