"""What the run page shows: every prompt with its figures, in words that are ready to print."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bench.cut_words import CutScreen, cut_screen
from soapbench.bench.draw_screen import DrawScreen, draw_screen
from soapbench.bench.folding.book import COMBINE
from soapbench.bench.gather_screen import Gathered, ScaleScreen, gathered, scale_screen
from soapbench.bench.jar_screen import AskedRow, JarScreen, asked_rows, jar_screen
from soapbench.bench.pausing import is_no_pause
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.plan import Phase, Plan, PlanPortion, Prompt, PromptKind
from soapbench.bench.portion_screen import SplitScreen, TakeScreen, split_screen, take_screen
from soapbench.bench.pot_screen import PotOnScale, pot_on_scale, pour_part
from soapbench.bench.pour_screen import PourScreen, pour_screen
from soapbench.bench.reading_screen import PotScreen, pots_of
from soapbench.bench.start_screen import is_asked_at
from soapbench.bench.state import Fact, Notice, RunState
from soapbench.bench.ways_screen import AskWhy, WayScreen, ask_why, off_words, way_screens
from soapbench.bench.weigh_screen import LineScreen, decimals_of, grams, line_screen

Stand = Literal["now", "done", "ahead", "skipped"]

PHASES: dict[Phase, str | Promise] = {
    "gather": _("Gather"),
    "fats": _("Fats"),
    "lye": _("Lye"),
    "meanwhile": _("While it cools"),
    "combine": _("Combine"),
    "portions": _("Portions"),
    "pour": _("Pour"),
    "drawing": _("Drawing"),
    "rest": _("Rest"),
    "cut": _("Cut"),
    "cure": _("Cure"),
    "release": _("Release"),
}
STANDS: dict[Stand, str | Promise] = {
    "now": _("now"),
    "done": _("done"),
    "ahead": _("ahead"),
    "skipped": _("not needed"),
}
# Which refused events have their own place at a prompt, and which in a panel; of the others the page's top tells.
AT_THE_PROMPT: dict[PromptKind, frozenset[str]] = {
    "tick": frozenset({"done"}),
    "scale check": frozenset({"scale-checked"}),
    "weigh": frozenset({"weighed", "part-weighed"}),
    "act": frozenset({"done"}),
    "hold": frozenset({"done"}),
    "settle": frozenset({"settled"}),
    "read": frozenset({"read"}),
    "cool": frozenset({"read", "done"}),
    "pot check": frozenset({"pot-checked"}),
    "trace": frozenset({"trace-seen"}),
    "rest test": frozenset({"rest-tested"}),
    "split": frozenset({"split"}),
    "pour": frozenset({"done"}),
    "draw": frozenset({"drawn"}),
    "look": frozenset({"looked", "done"}),
    "firmness": frozenset({"firmness-checked"}),
    "wait": frozenset({"done", "looked"}),
    "cut": frozenset({"cut"}),
    "cure": frozenset({"cure-weighed", "done"}),
    "test": frozenset({"tested", "done"}),
    "release": frozenset({"released", "rejected"}),
}
IN_A_PANEL = {"changed": "different", "remedied": "outs", "noted": "note", "attached": "note", "stopped": "stop-safe"}
# From the first fat on the scale until the batter is poured.
REMEDIED: frozenset[Phase] = frozenset({"fats", "lye", "meanwhile", "combine", "portions", "pour"})
# Where splashes of caustic are possible, first aid is shown without looking for it.
CAUSTIC: frozenset[Phase] = frozenset({"lye", "meanwhile", "combine", "portions", "pour", "drawing"})


@dataclass(frozen=True)
class Refusal:
    """A form that was not taken: why, at which prompt and field, and what had been typed."""

    prompt: str
    kind: str
    sentence: str
    field: str = ""
    typed: Mapping[str, str] = dataclasses.field(default_factory=dict)
    questions: tuple[str, ...] = ()  # codes of the doubts that the sentence asks about


@dataclass(frozen=True)
class PromptScreen:
    """One prompt, ready to show."""

    prompt: Prompt
    number: int
    anchor: str
    template: str
    phase: str | Promise
    stand: Stand
    stand_word: str | Promise
    is_caustic: bool
    is_no_pause: bool
    next_title: str
    line: LineScreen | None
    gathered: Gathered | None
    scale: ScaleScreen | None
    not_in: tuple[AskedRow, ...]
    jar: JarScreen | None
    pour: PourScreen | None
    pots: tuple[PotScreen, ...]
    tells_start: bool
    portion: PlanPortion | None
    portion_g: str
    split: SplitScreen | None
    take: TakeScreen | None
    draw: DrawScreen | None
    cut: CutScreen | None
    refusal: Refusal | None
    notices: tuple[Notice, ...] = ()  # what was changed earlier and matters here
    attached: tuple[Fact, ...] = ()  # photos and voice notes

    @property
    def title(self) -> str:
        """The prompt's title; that of the cut follows what was really drawn."""
        return self.cut.title if self.cut else self.prompt.title

    @property
    def is_adding(self) -> bool:
        """Whether a colour, a scent or an addition goes into the batter here."""
        return self.prompt.phase == "portions" and self.prompt.key == f"add:{self.prompt.line}"

    @property
    def has_own_detail(self) -> bool:
        """Whether the prompt's body says in its own place what the plan says about it."""
        return bool(self.pour or self.line or self.draw or self.split or self.cut)

    @property
    def tells_remedies(self) -> bool:
        """Whether something can still be done here about a superfat that is off."""
        return self.prompt.phase in REMEDIED and self.prompt.kind != "settle"

    @property
    def tells_mixing(self) -> bool:
        """Whether the temperature of the mix matters here: from the lye into the fats to the rest test."""
        return self.prompt.key == COMBINE or self.is_mixed

    @property
    def is_mixed(self) -> bool:
        """Whether lye and fats are together here: then only a warning is worth the room."""
        return self.prompt.kind in ("trace", "rest test")

    @property
    def opens(self) -> str:
        """The panel in which a refused form stands, "" when it stands at the prompt."""
        return IN_A_PANEL.get(self.refusal.kind, "") if self.refusal else ""


@dataclass(frozen=True)
class RunScreen:
    prompts: tuple[PromptScreen, ...]
    shown: PromptScreen
    ways: tuple[WayScreen, ...]
    ask_why: AskWhy | None
    off_words: str  # what is not as it should be, in one line
    pot_on_scale: PotOnScale
    pour_part: str  # of the lye, "" when all of it is poured
    decimals: int
    step: str
    ten_steps: str
    pot: str
    round_half: float  # mm, half the diameter of a round mould; 0 for any other
    trouble: str  # why a form was not taken, when the prompt has no place of its own for it


def run_screen(
    plan: Plan, state: RunState, shown: str = "", refusal: Refusal | None = None, now: datetime | None = None
) -> RunScreen:
    """Return the whole page: the prompt that is shown is the one asked for, else the current one."""
    moment, loaf = now or timezone.now(), Loaf(plan, state)
    screens = tuple(_prompt_screen(loaf, index, refusal, moment) for index in range(len(plan.prompts)))
    by_key = {screen.prompt.key: screen for screen in screens}
    wanted = (shown, refusal.prompt if refusal else "", state.current)
    found = next((by_key[key] for key in wanted if key in by_key), screens[-1])
    decimals = decimals_of(plan.resolution_g)
    return RunScreen(
        prompts=screens,
        shown=found,
        ways=way_screens(state),
        ask_why=ask_why(state),
        off_words=off_words(state),
        pot_on_scale=pot_on_scale(plan, state),
        pour_part=pour_part(plan, state),
        decimals=decimals,
        step=grams(plan.resolution_g, decimals),
        ten_steps=grams(plan.resolution_g * 10, decimals),
        pot=grams(state.pot_g, decimals),
        round_half=loaf.mould.diameter_mm / 2 if loaf.is_round else 0,
        trouble=_trouble(found, refusal),
    )


def _trouble(screen: PromptScreen, refusal: Refusal | None) -> str:
    places = AT_THE_PROMPT[screen.prompt.kind] | IN_A_PANEL.keys()
    if refusal is None:
        return ""
    is_placed = screen.refusal and refusal.kind in places and _has_pot(screen, refusal)
    return "" if is_placed else refusal.sentence


def _has_pot(screen: PromptScreen, refusal: Refusal) -> bool:
    return refusal.kind != "read" or refusal.typed.get("pot") in {pot.pot for pot in screen.pots}


def _prompt_screen(loaf: Loaf, index: int, refusal: Refusal | None, now: datetime) -> PromptScreen:
    plan, state = loaf.plan, loaf.state
    prompt = plan.prompts[index]
    stand = stand_of(state, prompt)
    has_line = prompt.kind == "weigh" and bool(prompt.line)
    pour = pour_screen(loaf, prompt)
    return PromptScreen(
        prompt=prompt,
        number=index + 1,
        anchor=f"prompt-{index + 1}",
        template=f"bench/prompts/{'pour' if pour else prompt.kind.replace(' ', '_')}.html",
        phase=PHASES[prompt.phase],
        stand=stand,
        stand_word=STANDS[stand],
        is_caustic=prompt.phase in CAUSTIC,
        is_no_pause=is_no_pause(plan, prompt),
        next_title=_next_title(plan, state, index),
        line=line_screen(plan, state, plan.line(prompt.line)) if has_line else None,
        gathered=gathered(plan, state, prompt),
        scale=scale_screen(plan, state, prompt),
        not_in=asked_rows(plan, state, prompt),
        jar=jar_screen(plan, prompt),
        pour=pour,
        pots=pots_of(plan, prompt, state, now),
        tells_start=is_asked_at(prompt, plan),
        portion=next((portion for portion in plan.portions if portion.letter == prompt.portion), None),
        portion_g=_portion_g(plan, state, prompt),
        split=split_screen(plan, state, prompt),
        take=take_screen(plan, state, prompt),
        draw=draw_screen(loaf, now) if prompt.kind == "draw" else None,
        cut=cut_screen(loaf) if prompt.kind == "cut" else None,
        refusal=refusal if refusal and refusal.prompt == prompt.key else None,
        notices=state.notices.get(prompt.key, ()),
        attached=tuple(fact for fact in state.attachments if fact.prompt == prompt.key),
    )


def stand_of(state: RunState, prompt: Prompt) -> Stand:
    """Return whether a prompt is done, not needed, the one to do now, or still ahead."""
    if prompt.key in state.done:
        return "done"
    if prompt.key in state.skipped:
        return "skipped"
    return "now" if prompt.key == state.current else "ahead"


def _next_title(plan: Plan, state: RunState, index: int) -> str:
    ahead = (prompt for prompt in plan.prompts[index + 1 :] if stand_of(state, prompt) == "ahead")
    return next((prompt.title for prompt in ahead), "")


def _portion_g(plan: Plan, state: RunState, prompt: Prompt) -> str:
    target = state.targets.get(f"portion:{prompt.portion}")
    return "" if target is None else grams(target, decimals_of(plan.resolution_g))
