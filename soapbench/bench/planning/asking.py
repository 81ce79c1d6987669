"""Small hands for writing prompts."""

from __future__ import annotations

from dataclasses import replace

from soapbench.bench.plan import Caution, ChangeKind, Line, Phase, Prompt, Tick
from soapbench.bench.planning import cautions
from soapbench.bench.planning.given import Batch
from soapbench.science.words import say

WORDS_IN_TITLE = 12
WEIGHING_MINUTES = 1.5  # hands-on time of one small weighing; own choice, until measured
_WEIGHED: tuple[ChangeKind, ...] = ("amount off", "lost or spilt", "interrupted", "other")
_REPLACEABLE: tuple[ChangeKind, ...] = ("substituted", "left out", *_WEIGHED)
CHANGES: dict[str, tuple[ChangeKind, ...]] = {
    "fat": _REPLACEABLE,
    "colourant": _REPLACEABLE,
    "scent": _REPLACEABLE,
    "addition": ("left out", *_WEIGHED),
    "carrier": ("substituted", *_WEIGHED),
    "liquid": _WEIGHED,
    "water": _WEIGHED,
    "alkali": _WEIGHED,
}
BATTER: tuple[ChangeKind, ...] = ("thickened early", "temperature off", "lost or spilt", "interrupted", "other")


def said(tick: Tick) -> Tick:
    """Return an item of a standing list in the language of the run."""
    return replace(tick, text=say(tick.text), detail=say(tick.detail) if tick.detail else "")


def with_cautions_said(prompt: Prompt) -> Prompt:
    """Return a prompt with its cautions in the language of the run."""
    return replace(prompt, cautions=tuple(_caution_said(caution) for caution in prompt.cautions))


def _caution_said(caution: Caution) -> Caution:
    return replace(caution, text=say(caution.text))


def short(title: str) -> str:
    """Return a title of at most twelve words."""
    words = title.split()
    return title if len(words) <= WORDS_IN_TITLE else " ".join(words[:WORDS_IN_TITLE])


def weigh(batch: Batch, line: Line, phase: Phase, *, meanwhile: bool = False) -> Prompt:
    """Return the prompt that weighs one line."""
    return Prompt(
        key=f"weigh:{line.key}",
        phase=phase,
        kind="weigh",
        title=short(say("Weigh {name}{for_whom}", name=line.name, for_whom=_for_whom(line))),
        detail=_detail(batch, line),
        line=line.key,
        portion=line.portion if len(line.portion) == 1 else "",
        pot="fats" if line.group == "fat" else "lye" if line.group in ("water", "alkali") else "",
        cautions={
            "alkali": (cautions.DRY_ALKALI, cautions.FIRST_AID),
            "colourant": (cautions.POWDER,),
            "scent": (cautions.SCENT,),
        }.get(line.group, ()),
        meanwhile=meanwhile,
        takes_minutes=WEIGHING_MINUTES if meanwhile else 0.0,
        changes=CHANGES[line.group],
    )


def _for_whom(line: Line) -> str:
    if line.group == "alkali":
        return f" ({'NaOH' if line.key == 'alkali:naoh' else 'KOH'})"
    return " " + say("for portion {portion}", portion=line.portion) if len(line.portion) == 1 else ""


def _detail(batch: Batch, line: Line) -> str:
    fact = batch.fact(line.material)
    # No grams here: the figure of the prompt follows what happened, and two figures on one screen would be a trap.
    parts = [say("Into {vessel}.", vessel=line.vessel)]
    if line.lot_code:
        parts.append(say("Lot {lot_code}.", lot_code=line.lot_code))
    if line.group == "alkali":
        if line.key == "alkali:naoh":
            parts.append(say("Read the jar: not potassium hydroxide, not citric acid, not salt."))
        else:
            parts.append(say("Read the jar: not sodium hydroxide, not citric acid, not salt."))
    if fact and fact.handling:
        parts.append(fact.handling)
    return " ".join(parts)
