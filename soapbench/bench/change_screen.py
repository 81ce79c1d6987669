"""The panel "something is different": which tiles make sense here, and one screen with few fields for each kind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.functional import Promise

from soapbench.bars.formula import Path
from soapbench.bench.change_words import ChangeTile, tiles_for
from soapbench.bench.draw_screen import PATHS
from soapbench.bench.plan import ChangeKind, LineGroup, Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.shelf.facts import MaterialFacts

MOST_TILES = 8
# A carrier is a fat or water that a colour is stirred into.
KIND_ON_SHELF: dict[LineGroup, str] = {"carrier": "fat"}
REPLACEABLE: frozenset[LineGroup] = frozenset({"fat", "colourant", "scent", "carrier"})
MAY_BE_LEFT_OUT: frozenset[LineGroup] = frozenset({"fat", "colourant", "scent", "addition", "liquid", "carrier"})
QUICK_MINUTES = (2, 5, 10, 15, 30, 60)


@dataclass(frozen=True)
class LineChoice:
    key: str
    name: str
    portion: str  # a letter, "" for the whole batter or none
    kind: str  # what may stand in for it
    mass: float  # grams to weigh now: where a weight is nudged from


@dataclass(frozen=True)
class StandIn:
    key: str
    name: str
    kind: str
    left: str  # "420 g left", "" when no lot is kept


@dataclass(frozen=True)
class ToolPath:
    path: str
    words: str | Promise
    tools: str  # keys of the tools that can make it, with spaces between


@dataclass(frozen=True)
class KindScreen:
    """One kind of change with its own few fields."""

    tile: ChangeTile
    lines: tuple[LineChoice, ...]
    is_open: bool

    @property
    def templates(self) -> tuple[str, ...]:
        return tuple(f"bench/changes/{field}.html" for field in self.tile.fields)


@dataclass(frozen=True)
class DifferentScreen:
    kinds: tuple[KindScreen, ...]
    here: tuple[ChangeKind, ...]  # the kinds that make sense at the prompt on the screen
    stand_ins: tuple[StandIn, ...]
    paths: tuple[ToolPath, ...]
    tools: tuple[tuple[str, str], ...]
    people: tuple[str, ...]  # who else may have decided
    typed: Mapping[str, str]
    is_opened: bool  # by a refused form or by a link, on a page without a script
    minutes: tuple[int, ...] = QUICK_MINUTES

    @property
    def is_choosing(self) -> bool:
        return not any(kind.is_open for kind in self.kinds)


def different_screen(
    plan: Plan, state: RunState, prompt: Prompt, *, opened: str, typed: Mapping[str, str], people: tuple[str, ...]
) -> DifferentScreen:
    """Return the panel for the prompt on the screen; every kind of the plan is in it, because the page moves on."""
    kinds: dict[ChangeKind, None] = {change: None for each in plan.prompts for change in each.changes}
    return DifferentScreen(
        kinds=tuple(
            KindScreen(tile, _lines(plan, state, tile), tile.kind == opened) for tile in tiles_for(tuple(kinds))
        ),
        here=prompt.changes[:MOST_TILES],
        stand_ins=tuple(_stand_in(facts) for facts in sorted(plan.stand_ins.values(), key=lambda one: one.name)),
        paths=_paths(plan),
        tools=tuple(sorted({(choice.tool, choice.tool_name) for choice in plan.drawings})),
        people=people,
        typed=typed or {"line": prompt.line, "portion": "" if prompt.line else prompt.portion},
        is_opened=bool(opened or typed),
    )


def _lines(plan: Plan, state: RunState, tile: ChangeTile) -> tuple[LineChoice, ...]:
    groups = {"substituted": REPLACEABLE, "left out": MAY_BE_LEFT_OUT}.get(tile.kind)
    return tuple(
        LineChoice(
            line.key,
            line.name,
            line.portion if len(line.portion) == 1 else "",
            KIND_ON_SHELF.get(line.group, line.group),
            state.targets.get(line.key, line.planned_g),
        )
        for line in plan.lines
        if groups is None or line.group in groups
    )


def _stand_in(facts: MaterialFacts) -> StandIn:
    left = "" if facts.left_g is None else f"{facts.left_g:.0f} g"
    return StandIn(facts.key, facts.name, facts.kind, left)


def _paths(plan: Plan) -> tuple[ToolPath, ...]:
    """Return the drawings that a tool of the workshop can make, and none at all."""
    tools: dict[Path | str, list[str]] = {}
    for choice in plan.drawings:
        tools.setdefault(choice.path, []).append(choice.tool)
    tools["none"] = [choice.tool for choice in plan.drawings]
    return tuple(
        ToolPath(path, words, " ".join(dict.fromkeys(tools[path]))) for path, words in PATHS.items() if path in tools
    )
