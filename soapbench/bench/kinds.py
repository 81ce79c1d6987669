"""The closed list of event kinds and what each may carry.

A kind is a frozen dataclass whose fields are its payload; its docstring says when it happens.
`payloads.parse` is the only reader of a payload that came from outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from msgspec import Meta

from soapbench.bench.plan import ChangeKind

Grams = Annotated[float, Meta(ge=0, le=100_000)]
Celsius = Annotated[float, Meta(ge=-30, le=150)]
Short = Annotated[str, Meta(max_length=200)]
Key = Annotated[str, Meta(min_length=1, max_length=120)]
Name = Annotated[str, Meta(min_length=1, max_length=200)]
Id = Annotated[str, Meta(min_length=36, max_length=36)]
Text = Annotated[str, Meta(max_length=2000)]
Needed = Annotated[str, Meta(min_length=2, max_length=2000, pattern=r"\S")]  # blanks say nothing
Gap = Annotated[float, Meta(ge=-100_000, le=100_000)]  # grams more, or less
Trace = Literal["emulsion", "thin", "medium", "thick"]


@dataclass(frozen=True)
class Started:
    """The run begins; the person has read the caution that stands before every run."""

    cautions_read: Literal[True]


@dataclass(frozen=True)
class Ticked:
    """One item of a tick prompt is at hand, or is not."""

    item: Key
    is_here: bool = True
    note: Short = ""


@dataclass(frozen=True)
class Done:
    """A prompt was done."""

    note: Short = ""
    all_here: bool = False  # of a tick prompt: every item that has no answer yet is at hand


@dataclass(frozen=True)
class ScaleChecked:
    """The scale was tried with something of known mass; beyond its permissible error, no lye is made with it."""

    known_g: Grams
    read_g: Grams


@dataclass(frozen=True)
class Postponed:
    """The batch was put off before its lye was made; whatever happens next takes it up again."""

    why: Needed
    until: Short = ""


@dataclass(frozen=True)
class Weighed:
    """A line was weighed; a second weighing of the same line replaces the first."""

    line: Key
    mass_g: Grams
    lot: int | None = None
    entered: Short = ""  # what was typed, before parsing
    jar: Literal["", "NaOH", "KOH"] = ""  # of an alkali: what its jar says
    doubts_answered: tuple[Short, ...] = ()  # codes of the questions that were asked and answered "yes, right"


@dataclass(frozen=True)
class PartWeighed:
    """A part of a line was weighed; the weighing that ends the line adds up with its parts."""

    line: Key
    mass_g: Grams
    lot: int | None = None
    entered: Short = ""
    jar: Literal["", "NaOH", "KOH"] = ""  # of an alkali: what its jar says


@dataclass(frozen=True)
class Remedied:
    """A way out of what came out differently was chosen; it says what is still to weigh, pour or count."""

    code: Key  # of the remedy: C1 to C17
    decision: Needed
    adds: Annotated[tuple[tuple[Key, Gap], ...], Meta(max_length=40)] = ()  # line and grams
    lye_share: Annotated[float, Meta(gt=0, le=1)] | None = None  # of the made lye, to pour
    factor: Annotated[float, Meta(ge=0.1, le=10)] | None = None  # of the batch as planned


@dataclass(frozen=True)
class Settled:
    """The maker chose which alkali (and water) to weigh after the fats came out differently."""

    choice: Literal["recomputed", "planned"]


@dataclass(frozen=True)
class Read:
    """A temperature was read."""

    pot: Literal["lye", "fats", "batter", "loaf", "oven", "room"]
    temp_c: Celsius
    doubts_answered: tuple[Short, ...] = ()  # "reading" when it was asked about and answered "yes, right"


@dataclass(frozen=True)
class RestTested:
    """The batter rested after its trace: is there oil on top, and does it thicken while it cools?"""

    oil_film: bool
    thickens_as_it_cools: bool


@dataclass(frozen=True)
class PotChecked:
    """The pot was weighed before lye meets fats; mass without the tare."""

    mass_g: Grams
    decision: Short = ""


@dataclass(frozen=True)
class TraceSeen:
    """The batter reached this trace."""

    trace: Trace


@dataclass(frozen=True)
class Split:
    """One portion of batter was weighed out."""

    portion: Annotated[str, Meta(min_length=1, max_length=1)]
    mass_g: Grams


@dataclass(frozen=True)
class Drawn:
    """The drawing was made, as planned or otherwise."""

    path: Key
    tool: Short = ""
    passes: Annotated[int, Meta(ge=0, le=500)] = 0


@dataclass(frozen=True)
class Changed:
    """Something differs from the plan: what, why, and what was decided."""

    what: ChangeKind
    why: Needed
    decision: Needed
    line: Short = ""
    material: Short = ""  # key of a stand-in
    lot: int | None = None
    mass_g: Grams | None = None
    temp_c: Celsius | None = None
    portion: Short = ""
    path: Short = ""
    tool: Short = ""  # key of a tool, or of a scale
    item: Short = ""  # key of the tick that this deals with
    minutes: Annotated[float, Meta(ge=0, le=100_000)] | None = None
    by: Short = ""  # who decided it, when that is not who writes it down


@dataclass(frozen=True)
class Noted:
    """A remark that changes nothing."""

    text: Needed


@dataclass(frozen=True)
class Attached:
    """A photo or a voice note was added; the digest is that of its file as it is kept."""

    what: Literal["photo", "voice"]
    sha256: Annotated[str, Meta(pattern="^[0-9a-f]{64}$")]
    media: Literal["image/jpeg", "audio/webm", "audio/ogg", "audio/mp4"]
    size: Annotated[int, Meta(ge=1, le=20_000_000)]
    words: Short = ""


@dataclass(frozen=True)
class TookBack:
    """An earlier event of this run is withdrawn; it stays in the log."""

    event: Annotated[str, Meta(min_length=36, max_length=36)]


@dataclass(frozen=True)
class Paused:
    """The maker was called away; what runs goes on running."""

    why: Short = ""


@dataclass(frozen=True)
class Resumed:
    """The maker is back; what was found about the step in hand when it was looked at again."""

    checked: Short = ""


@dataclass(frozen=True)
class Rinsed:
    """Somebody began to rinse off something caustic, or ended it. At any moment, a closed batch included."""

    is_running: bool
    where: Literal["", "eye", "skin"] = ""


@dataclass(frozen=True)
class TakenInHand:
    """Somebody takes a prompt in hand, or is handed it; the others see who has it. It locks nobody out."""

    to: Short = ""  # who is handed it, "" for the one who taps


@dataclass(frozen=True)
class GivenBack:
    """A prompt that was in somebody's hand is free again."""


@dataclass(frozen=True)
class Credited:
    """An entry was made by somebody else than the one whose phone it was tapped on."""

    event: Annotated[str, Meta(min_length=36, max_length=36)]
    by: Name


@dataclass(frozen=True)
class Decided:
    """Answers that did not know of each other: which of them counts, or that all are true."""

    events: Annotated[tuple[Id, ...], Meta(min_length=2, max_length=8)]
    counts: Annotated[tuple[Id, ...], Meta(min_length=1, max_length=8)]
    by: Short = ""  # who decided it, when that is not who writes it down


@dataclass(frozen=True)
class Looked:
    """The loaf was looked at: a dark wet centre or a ring says that it gels."""

    gel: Literal["yes", "no", "unknown"]


@dataclass(frozen=True)
class FirmnessChecked:
    """The loaf was pressed with a gloved thumb; one that crumbles is tested before anything else."""

    is_firm: bool
    note: Short = ""
    crumbles: bool = False


@dataclass(frozen=True)
class Cut:
    """The loaf was cut: bars, their mass together, and what was trimmed off."""

    bars: Annotated[int, Meta(ge=0, le=10_000)]
    mass_g: Grams
    offcuts_g: Grams = 0.0
    way: Literal["", "slices", "blocks on their sides", "long planks", "rounds", "cavities"] = ""  # "" as planned


@dataclass(frozen=True)
class CureWeighed:
    """Marked bars were weighed while they dry."""

    bars: Annotated[int, Meta(ge=1, le=10_000)]
    mass_g: Grams


@dataclass(frozen=True)
class Tested:
    """A finished bar was tested."""

    method: Literal["pH of a 1 % solution", "titration of free alkali", "phenolphthalein in ethanol"]
    value: Annotated[float, Meta(ge=0, le=100)]
    passed: bool
    note: Short = ""


@dataclass(frozen=True)
class Released:
    """A named person lets the bars be sold."""

    bars: Annotated[int, Meta(ge=0, le=10_000)]
    note: Short = ""


@dataclass(frozen=True)
class Rejected:
    """A named person keeps the bars from being sold, and says why."""

    reason: Needed


@dataclass(frozen=True)
class Stopped:
    """The batch was given up before its release, made safe, and the reason given."""

    reason: Needed
    made_safe: Text = ""  # in own words
    steps: tuple[Short, ...] = ()  # codes of what was ticked, see bench/safety.py
    lye: Literal["", "kept", "handed in", "poured away", "other batch", "spilt"] = ""  # where lye is that met no fats


Payload = (
    Started | Ticked | Done | ScaleChecked | Postponed | Weighed | PartWeighed | Remedied | Settled | Read | PotChecked
    | TraceSeen | RestTested | Split | Drawn | Changed | Noted | Attached | TookBack | Paused | Resumed | Rinsed
    | TakenInHand | GivenBack | Credited | Decided | Looked | FirmnessChecked | Cut | CureWeighed | Tested | Released
    | Rejected | Stopped
)  # fmt: skip

# The name that the log stores, the phone sends and the export carries.
KINDS: dict[str, type[Payload]] = {
    "started": Started,
    "ticked": Ticked,
    "done": Done,
    "scale-checked": ScaleChecked,
    "postponed": Postponed,
    "weighed": Weighed,
    "part-weighed": PartWeighed,
    "remedied": Remedied,
    "settled": Settled,
    "read": Read,
    "pot-checked": PotChecked,
    "trace-seen": TraceSeen,
    "rest-tested": RestTested,
    "split": Split,
    "drawn": Drawn,
    "changed": Changed,
    "noted": Noted,
    "attached": Attached,
    "took-back": TookBack,
    "paused": Paused,
    "resumed": Resumed,
    "rinsed": Rinsed,
    "taken-in-hand": TakenInHand,
    "given-back": GivenBack,
    "credited": Credited,
    "decided": Decided,
    "looked": Looked,
    "firmness-checked": FirmnessChecked,
    "cut": Cut,
    "cure-weighed": CureWeighed,
    "tested": Tested,
    "released": Released,
    "rejected": Rejected,
    "stopped": Stopped,
}
