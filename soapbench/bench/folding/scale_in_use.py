"""The plan as the bench goes by it: on the scale that is really used, with the drawing that is really to be made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from soapbench.bars.formula import Drawing
from soapbench.bench.plan import Line, Plan, PlanScale, Prompt
from soapbench.bench.state import Fact
from soapbench.science.rounding import round_to
from soapbench.science.words import say, word


def on_the_scale_in_use(plan: Plan, standing: Sequence[Fact]) -> Plan:
    """Return the plan with the scale that the last standing change took; its masses rounded to a coarser step.

    Args:
        standing: the events that were not taken back.
    """
    chosen = [fact.payload["tool"] for fact in standing if _takes_another(fact)]
    scale = next((each for each in plan.other_scales if chosen and each.key == chosen[-1]), None)
    return _on(plan, scale) if scale else plan


def _takes_another(fact: Fact) -> bool:
    return fact.kind == "changed" and fact.payload["what"] == "another scale"


def _on(plan: Plan, scale: PlanScale) -> Plan:
    step = scale.resolution_g
    is_coarser = step > plan.resolution_g
    return replace(
        plan,
        scale=scale.name,
        resolution_g=step,
        capacity_g=scale.capacity_g,
        check_mass_g=scale.check_mass_g,
        check_name=scale.check_name,
        lines=tuple(_rounded(line, step) for line in plan.lines) if is_coarser else plan.lines,
    )


def _rounded(line: Line, step: float) -> Line:
    # Never to nothing: a dose smaller than half a step still has to be weighed, as well as that scale can.
    return replace(line, planned_g=max(step, round_to(line.planned_g, step)))


def with_drawing_ahead(plan: Plan, chosen: dict[str, Any] | None) -> Plan:
    """Return the plan with the drawing that was chosen in place of the planned one before there was batter."""
    if chosen is None:
        return plan
    planned = plan.formula.drawing
    is_same = chosen["path"] == planned.path
    drawing = replace(planned, path=chosen["path"], tool=chosen["tool"], passes=chosen["passes"], note="")
    prompts = tuple(_drawn_so(plan, prompt, drawing) if prompt.kind == "draw" else prompt for prompt in plan.prompts)
    return replace(
        plan,
        formula=replace(plan.formula, drawing=drawing if is_same else replace(drawing, spacing_mm=0.0)),
        prompts=prompts,
    )


def _drawn_so(plan: Plan, prompt: Prompt, drawing: Drawing) -> Prompt:
    name = next((choice.tool_name for choice in plan.drawings if choice.tool == drawing.tool), "")
    path = word("drawing", drawing.path)
    title = say("Draw: {path}, with {tool}", path=path, tool=name) if name else say("Draw: {path}", path=path)
    return replace(prompt, title=title, detail="")
