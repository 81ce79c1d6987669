"""Which cut suits what was drawn."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soapbench.bench.plan import Plan
from soapbench.science.cut_advice import CutAdvice, advise_cut
from soapbench.science.strokes import rod_of


def cut_to_suit(plan: Plan, drawing: Mapping[str, Any] | None) -> CutAdvice:
    """Return the cut that suits a drawing of this plan, or the planned drawing while there is none."""
    wanted = plan.formula.drawing
    path, tool = (drawing["path"], drawing["tool"]) if drawing else (wanted.path, wanted.tool)
    kinds = {choice.tool: choice.tool_kind for choice in plan.drawings}
    pours = [stage.way for stage in plan.formula.pour] or ["layer"]
    return advise_cut(path, rod_of(kinds.get(tool, "")), pours, plan.mould_shape["shape"], plan.formula.cut.way)
