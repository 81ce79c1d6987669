"""The plan, opened at the right page: lines, prompts and lots by their keys."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from soapbench.bench.plan import Line, LineGroup, Plan, PlanLot, Prompt, Tick
from soapbench.shelf.facts import MaterialFacts

# Prompts that the fold and the rules know by name; `planning` gives them these keys.
PROTECTION = "protection"
SCALE_CHECK = "scale-check"
CLEAN = "clean"
SETTLE = "settle"
MELT = "melt"
LYE = "alkali-into-water"
COOL = "cool"
POT_CHECK = "pot-check"
COMBINE = "combine"
TRACE = "trace"
REST_TEST = "rest-test"
FIRM = "firm"
CUT = "cut"
CURE = "cure"
TEST = "test"
RELEASE = "release"

ADDITIONS: tuple[LineGroup, ...] = ("colourant", "scent", "addition")
LYE_SIDE = ("alkali", "water", "liquid")


@dataclass(frozen=True)
class Book:
    """Look-ups into one plan."""

    plan: Plan

    @cached_property
    def lines(self) -> dict[str, Line]:
        return {line.key: line for line in self.plan.lines}

    @cached_property
    def prompts(self) -> dict[str, Prompt]:
        return {prompt.key: prompt for prompt in self.plan.prompts}

    @cached_property
    def lots(self) -> dict[int, PlanLot]:
        return {lot.lot: lot for lot in self.plan.lots}

    @cached_property
    def weigh_prompts(self) -> dict[str, str]:
        """Return the key of the prompt that weighs a line, by the line's key."""
        return {prompt.line: prompt.key for prompt in self.plan.prompts if prompt.kind == "weigh"}

    @cached_property
    def ticks(self) -> dict[str, Tick]:
        """Return every item to tick by its key."""
        return {tick.key: tick for prompt in self.plan.prompts for tick in prompt.ticks}

    @cached_property
    def gate(self) -> tuple[Tick, ...]:
        """Return what must be at hand, or dealt with, before anything caustic."""
        lists = (p for p in self.plan.prompts if p.kind == "tick" and (p.phase == "gather" or p.key == PROTECTION))
        return tuple(tick for prompt in lists for tick in prompt.ticks)

    @cached_property
    def fat_lines(self) -> tuple[Line, ...]:
        """Return the lines of fats, those that carry a colour or a scent included."""
        return tuple(line for line in self.plan.lines if is_fat(line))

    def letters_of(self, prompt: Prompt) -> tuple[str, ...]:
        """Return the portions that a prompt is about; a pour may be about several."""
        place, _colon, number = prompt.key.partition(":")
        stages = self.plan.formula.pour
        if prompt.kind == "pour" and place == "pour" and number.isdigit() and 0 < int(number) <= len(stages):
            return stages[int(number) - 1].portions
        if prompt.kind == "pour":
            return tuple(portion.letter for portion in self.plan.portions)
        return (prompt.portion,) if prompt.portion else ()

    @cached_property
    def planned_shares(self) -> dict[str, float]:
        return {**{portion.letter: portion.share for portion in self.plan.portions}, "all": 1.0}

    @cached_property
    def planned_fats_g(self) -> float:
        return sum(line.planned_g for line in self.fat_lines)

    @cached_property
    def planned_alkali_g(self) -> float:
        return sum(line.planned_g for line in self.plan.in_group("alkali"))

    @cached_property
    def planned_base_g(self) -> float:
        """Return fats, lye and liquids together: what "percent of batter" counts on."""
        sides = (*self.plan.in_group("fat", "carrier"), *self.plan.in_group("alkali", "water", "liquid"))
        return sum(line.planned_g for line in sides)

    @cached_property
    def jug_keys(self) -> frozenset[str]:
        """Return the keys of what goes into the lye jug: water, the liquids that are not for the fats, alkali."""
        into_fats = {line.material for line in self.plan.formula.liquids if line.goes_into == "fats"}
        wet = [line for line in self.plan.in_group("water", "liquid") if line.material not in into_fats]
        return frozenset(line.key for line in (*wet, *self.plan.in_group("alkali")))

    def facts(self, material: str, lot: int | None) -> MaterialFacts | None:
        """Return what is known of a material with the figures of that lot, or None for one that needs no facts."""
        fact = self.plan.materials.get(material) or self.plan.stand_ins.get(material)
        paper = self.lots.get(lot) if lot is not None else None
        if fact is None or paper is None or paper.material != material or lot == fact.lot:
            return fact
        return replace(
            fact,
            sv_own=paper.sv_own,
            purity=paper.purity,
            purity_is_stated=paper.purity_is_stated,
            lot=lot,
            lot_code=paper.code,
        )


def is_fat(line: Line) -> bool:
    """Return whether the line is fat that the alkali is worked out for."""
    return line.group == "fat" or (line.group == "carrier" and line.basis == "fat")
