"""Small hands for writing prompts."""

from __future__ import annotations

from soapbench.bench.plan import ChangeKind, Line, Phase, Prompt
from soapbench.bench.planning import cautions
from soapbench.bench.planning.given import Batch

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
        title=short(f"Weigh {line.name}{_for_whom(line)}"),
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
    return f" for portion {line.portion}" if len(line.portion) == 1 else ""


def _detail(batch: Batch, line: Line) -> str:
    fact = batch.fact(line.material)
    # No grams here: the figure of the prompt follows what happened, and two figures on one screen would be a trap.
    parts = [f"Into {line.vessel}."]
    if line.lot_code:
        parts.append(f"Lot {line.lot_code}.")
    if line.group == "alkali":
        other = "potassium" if line.key == "alkali:naoh" else "sodium"
        parts.append(f"Read the jar: not {other} hydroxide, not citric acid, not salt.")
    if fact and fact.handling:
        parts.append(fact.handling)
    return " ".join(parts)
