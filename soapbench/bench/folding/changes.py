"""What a change does to the batch: which weights, materials and prompts it moves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from soapbench.bench.folding.book import SCALE_CHECK
from soapbench.bench.folding.effects import effect, outlook
from soapbench.bench.folding.tally import Tally
from soapbench.bench.folding.targets import target_of
from soapbench.bench.folding.tolerances import tolerance_of
from soapbench.bench.kinds import Changed
from soapbench.bench.plan import Line
from soapbench.bench.state import Change, Fact, Weight


def take_change(tally: Tally, fact: Fact, change: Changed) -> None:
    """Apply a change to the tally and keep it with its computed effect."""
    before = outlook(tally)
    line = tally.book.lines.get(change.line)
    if change.what in _ACTS:
        _ACTS[change.what](tally, fact, change, line)
    if change.item:
        tally.dealt_with[change.item] = change.decision
    prompt = tally.book.prompts.get(fact.prompt)
    tally.changes.append(
        Change(
            event=fact.id,
            what=change.what,
            prompt=fact.prompt,
            prompt_title=prompt.title if prompt else "",
            why=change.why,
            decision=change.decision,
            effect=effect(tally, fact, change, before),
            at=fact.happened_at,
            person=fact.person,
            details=_details(change),
            decided_by=change.by or fact.person,
        )
    )


def _details(change: Changed) -> dict[str, Any]:
    names = ("line", "material", "lot", "mass_g", "temp_c", "portion", "path", "tool", "minutes", "item")
    return {name: value for name in names if (value := getattr(change, name)) not in ("", None)}


def _substituted(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    if line is None:
        return
    tally.used_instead[line.key] = (change.material, change.lot)
    tally.left_out.pop(line.key, None)
    if change.mass_g is not None:
        put_weight(tally, fact, line, change.mass_g, change.lot)
    elif line.key in tally.weights:
        weight = tally.weights[line.key]
        tally.weights[line.key] = replace(weight, material=change.material, lot=change.lot, name=_name(tally, line))


def _name(tally: Tally, line: Line) -> str:
    fact = tally.book.facts(*tally.used_instead.get(line.key, (line.material, None)))
    return fact.name if fact else line.name


def _amount_off(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    if line is not None and change.mass_g is not None:
        weight = tally.weights.get(line.key)
        put_weight(tally, fact, line, change.mass_g, weight.lot if weight else line.lot)


def _lost(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    weight = tally.weights.get(change.line)
    if line is None:
        _lost_batter(tally, change)
    if line is None or weight is None:
        return
    if change.mass_g is not None:
        left = round(max(0.0, weight.mass_g - change.mass_g), 6)
        tally.weights[line.key] = replace(weight, mass_g=left)
    elif tally.is_combined or (tally.lye_at is not None and line.group in ("alkali", "water")):
        # It is mixed with the rest: weighing it anew is no longer possible.
        tally.is_alkali_unknown = tally.is_alkali_unknown or line.group in ("alkali", "water")
    else:
        reopen(tally, line)


def _lost_batter(tally: Tally, change: Changed) -> None:
    """Take lost batter off its cup, or off the pot; without a weight nothing can be reckoned."""
    if change.mass_g is None or not tally.is_combined:
        return
    if change.portion in tally.portions_g:
        left = max(0.0, tally.portions_g[change.portion] - change.mass_g)
        tally.portions_g[change.portion] = round(left, 6)
    else:
        tally.lost_batter_g = round(tally.lost_batter_g + change.mass_g, 6)


def reopen(tally: Tally, line: Line) -> None:
    """Ask for a line once more: its weight is not known."""
    forget(tally, line)
    tally.done.pop(tally.book.weigh_prompts.get(line.key, ""), None)


def forget(tally: Tally, line: Line) -> None:
    """Drop what was weighed of a line, its parts and what was still owed of it."""
    for kept in (tally.weights, tally.parts, tally.owed):
        kept.pop(line.key, None)


def _left_out(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    if line is None:
        if change.portion:
            tally.left_out[f"portion:{change.portion}"] = change.why
        return
    tally.left_out[line.key] = change.why
    forget(tally, line)
    tally.mark_done(tally.book.weigh_prompts.get(line.key, ""), fact.happened_at)


def _drawn_differently(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    wanted = tally.plan.formula.drawing
    passes = wanted.passes if change.path == wanted.path else 0  # of another path nobody has counted them
    drawn = {"path": change.path, "tool": change.tool, "passes": passes, "event": fact.id}
    if tally.is_combined:
        tally.drawing = drawn
    else:  # there is nothing to draw in yet: it is what will be drawn
        tally.drawing_ahead = drawn


def _another_scale(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    tally.mark_done(SCALE_CHECK, fact.happened_at)


def _thickened(tally: Tally, fact: Fact, change: Changed, line: Line | None) -> None:
    if change.portion and change.portion not in tally.thickened:
        tally.thickened.append(change.portion)


_ACTS: dict[str, Callable[[Tally, Fact, Changed, Line | None], None]] = {
    "substituted": _substituted,
    "amount off": _amount_off,
    "lost or spilt": _lost,
    "left out": _left_out,
    "drawn differently": _drawn_differently,
    "another scale": _another_scale,
    "thickened early": _thickened,
}


def put_weight(
    tally: Tally, fact: Fact, line: Line, mass_g: float, lot: int | None, parts: tuple[float, ...] = ()
) -> None:
    """Set what was really weighed for a line; it replaces what was there before."""
    before = tally.weights.get(line.key)
    if before is not None and before.mass_g == mass_g:
        parts = parts or before.parts
    target = target_of(tally, line) if line.key in tally.owed else _target_anew(tally, line)
    forget(tally, line)
    material, planned_lot = tally.used_instead.get(line.key, (line.material, line.lot))
    used = planned_lot if lot is None else lot
    tally.weights[line.key] = Weight(
        line=line.key,
        mass_g=mass_g,
        planned_g=line.planned_g,
        target_g=target,
        lot=used,
        at=fact.happened_at,
        person=fact.person,
        event=fact.id,
        material=material,
        name=_name(tally, line),
        is_within=abs(mass_g - target) <= tolerance_of(tally, line, target) + 1e-9,
        parts=parts if len(parts) > 1 else (),
    )
    tally.left_out.pop(line.key, None)
    tally.mark_done(tally.book.weigh_prompts.get(line.key, ""), fact.happened_at)


def _target_anew(tally: Tally, line: Line) -> float:
    tally.weights.pop(line.key, None)  # the target must not lean on the weight that is replaced
    return target_of(tally, line)


def weigh_part(tally: Tally, fact: Fact, line: Line, mass_g: float) -> None:
    """Keep a part of a line that is weighed in several; the line stays open."""
    if line.key in tally.weights and line.key not in tally.owed:
        forget(tally, line)  # weighed anew, in parts this time
        tally.done.pop(tally.book.weigh_prompts.get(line.key, ""), None)
    tally.parts.setdefault(line.key, []).append(mass_g)
    tally.left_out.pop(line.key, None)


def weigh(tally: Tally, fact: Fact, line: Line, mass_g: float, lot: int | None) -> None:
    """End a line: its mass is what was weighed of it so far and this together."""
    before = tally.weights.get(line.key)
    earlier = (before.parts or (before.mass_g,)) if before is not None and line.key in tally.owed else ()
    parts = (*earlier, *tally.parts.get(line.key, ()), mass_g)
    put_weight(tally, fact, line, round(sum(parts), 6), lot, parts)
