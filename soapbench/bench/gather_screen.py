"""What is set out, as the screen shows it: each item with its answer, and the trial of the scale."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.folding.book import PROTECTION
from soapbench.bench.plan import Plan, Prompt, Tick
from soapbench.bench.state import RunState, ScaleTried
from soapbench.bench.weigh_screen import decimals_of, grams


@dataclass(frozen=True)
class TickRow:
    tick: Tick
    is_here: bool
    is_missing: bool  # somebody said so, and nothing is done about it
    dealt: str  # what is done about it
    detail: str

    @property
    def is_needed(self) -> bool:
        """Whether the list stays open until this very row is answered."""
        return not self.is_here and not self.dealt and (self.tick.alone or self.is_missing)


@dataclass(frozen=True)
class Gathered:
    """A list to tick: whether its items may be missing, and the words of its button."""

    rows: tuple[TickRow, ...]
    asks_what_is_missing: bool
    done_words: str | Promise


@dataclass(frozen=True)
class ScaleScreen:
    """The trial of the scale: the known mass, "" where the maker types it, and how the last trial went."""

    known: str
    known_g: float
    tried: ScaleTried | None


def gathered(plan: Plan, state: RunState, prompt: Prompt) -> Gathered | None:
    """Return the list of a tick prompt, None for any other."""
    if prompt.kind != "tick":
        return None
    rows = tuple(_row(plan, state, tick) for tick in prompt.ticks)
    return Gathered(rows, prompt.phase == "gather", _done_words(prompt))


def _row(plan: Plan, state: RunState, tick: Tick) -> TickRow:
    is_here, dealt = state.ticked.get(tick.key, False), state.dealt.get(tick.key, "")
    is_missing = state.ticked.get(tick.key) is False and not dealt
    return TickRow(tick, is_here, is_missing, "" if is_here else dealt, _detail(plan, tick))


def _detail(plan: Plan, tick: Tick) -> str:
    if tick.what != "time":
        return tick.detail.replace(" g", "\N{NO-BREAK SPACE}g")
    until = timezone.localtime(timezone.now() + timedelta(minutes=plan.active_minutes))
    return _("Until about %s, when the drawing is done.") % date_format(until, "H:i")


def _done_words(prompt: Prompt) -> str | Promise:
    if prompt.key == PROTECTION:
        return later("All of it is so")
    return later("All of these are here") if prompt.phase == "gather" else later("All of this is so")


def scale_screen(plan: Plan, state: RunState, prompt: Prompt) -> ScaleScreen | None:
    """Return the trial of the scale at its prompt, None at any other."""
    if prompt.kind != "scale check":
        return None
    known = plan.check_mass_g
    return ScaleScreen(grams(known, decimals_of(plan.resolution_g)) if known else "", known, state.scale_tried)
