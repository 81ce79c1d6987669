"""Rules on ticks, weights, the choice of the alkali and changes."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

from soapbench.bars.formula import Path
from soapbench.bench.folding.book import LYE
from soapbench.bench.kinds import Changed, Drawn, Settled, Split, Ticked, Weighed
from soapbench.bench.plan import Line
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.words import Asked
from soapbench.bench.words import listed
from soapbench.science.words import say

PATHS = get_args(Path)


def check_tick(asked: Asked) -> None:
    if not isinstance(asked.payload, Ticked):
        return
    ticks = asked.prompt.ticks if asked.prompt else [t for p in asked.book.plan.prompts for t in p.ticks]
    if asked.payload.item not in {tick.key for tick in ticks}:
        raise Refused(say("That item is not on this list."), "item")


def check_weighed(asked: Asked) -> None:
    if not isinstance(asked.payload, Weighed):
        return
    line = asked.line(asked.payload.line)
    if asked.prompt is not None and asked.prompt.line != line.key:
        raise Refused(say("“{title}” weighs something else.", title=asked.prompt.title), "line")
    if asked.payload.mass_g == 0:
        raise Refused(say("0 g is nothing. Type what the scale shows, or say that it is left out."), "mass_g")
    check_lot(asked, asked.payload.lot, material_of(asked, line))


def material_of(asked: Asked, line: Line) -> str:
    """Return the material of a line, or that of the last stand-in for it."""
    last = [change for change in asked.state.changes if change.what == "substituted"]
    for change in reversed(last):
        if change.details.get("line") == line.key:
            return str(change.details["material"])
    return line.material


def check_lot(asked: Asked, lot: int | None, material: str) -> None:
    """Refuse a lot of another material."""
    if lot is not None and (lot not in asked.book.lots or asked.book.lots[lot].material != material):
        raise Refused(say("That lot is not one of this material. Choose it from the list."), "lot")


def check_settled(asked: Asked) -> None:
    if not isinstance(asked.payload, Settled):
        return
    settlement = asked.state.settlement
    if settlement is None:
        raise Refused(say("First weigh every fat: {missing}.", missing=listed(asked.missing("fat"))), "choice")
    if asked.state.lye_made:
        raise Refused(say("The alkali is in the water already. There is nothing left to choose."), "choice")


def check_change(asked: Asked) -> None:
    payload = asked.payload
    if isinstance(payload, Split | Changed):
        _check_portion(asked, payload.portion)
    if isinstance(payload, Split):
        _check_combined(asked)
    if isinstance(payload, Drawn):
        _check_path(payload.path)
    if isinstance(payload, Changed):
        line = asked.line(payload.line) if payload.line else None
        if payload.what in _NEEDS:
            _NEEDS[payload.what](asked, payload, line)


def _check_portion(asked: Asked, letter: str) -> None:
    if letter and letter not in {portion.letter for portion in asked.book.plan.portions}:
        raise Refused(say("This batch has no such portion. Choose one by its letter."), "portion")


def _check_combined(asked: Asked) -> None:
    if not asked.state.is_combined:
        raise Refused(say("There is no batter yet. First pour the lye into the fats."), "portion")


def _check_path(path: str) -> None:
    if path not in PATHS:
        raise Refused(say("Choose the drawing from the list."), "path")


def _needs_line(line: Line | None) -> Line:
    if line is None:
        raise Refused(say("Say which material this is about."), "line")
    return line


def _substituted(asked: Asked, change: Changed, line: Line | None) -> None:
    line = _needs_line(line)
    stand_in = asked.book.plan.stand_ins.get(change.material)
    planned = asked.book.plan.materials.get(line.material)
    if stand_in is None or planned is None or stand_in.kind != planned.kind:
        raise Refused(say("Choose a material of the same kind that is on your shelf."), "material")
    check_lot(asked, change.lot, change.material)
    if change.mass_g == 0:
        raise Refused(say("0 g is nothing. Type what the scale shows."), "mass_g")


def _amount_off(asked: Asked, change: Changed, line: Line | None) -> None:
    line = _needs_line(line)
    if not change.mass_g:
        raise Refused(say("Type what is really in, in grams."), "mass_g")


def _lost(asked: Asked, change: Changed, line: Line | None) -> None:
    weight = asked.state.weights.get(change.line)
    if weight is not None and change.mass_g is not None and change.mass_g > weight.mass_g:
        raise Refused(
            say("No more than {mass:g} g was weighed. Leave the field empty if unknown.", mass=weight.mass_g), "mass_g"
        )


def _left_out(asked: Asked, change: Changed, line: Line | None) -> None:
    if line is None and not change.portion:
        raise Refused(say("Say which material or portion is left out."), "line")
    if line is None:
        return
    if line.group in ("alkali", "water"):
        raise Refused(say("Without {name!l} it is no soap. Stop the batch instead.", name=line.name), "line")
    fats = [each for each in asked.book.plan.in_group("fat") if each.key != line.key]
    if line.group == "fat" and all(asked.is_left_out(each) for each in fats):
        raise Refused(say("Every fat would be left out. Stop the batch instead."), "line")


def _temperature_off(asked: Asked, change: Changed, line: Line | None) -> None:
    if change.temp_c is None:
        raise Refused(say("Type the temperature in °C."), "temp_c")


def _drawn_differently(asked: Asked, change: Changed, line: Line | None) -> None:
    _check_path(change.path)


def _another_scale(asked: Asked, change: Changed, line: Line | None) -> None:
    if change.tool not in {scale.key for scale in asked.book.plan.other_scales}:
        raise Refused(say("Choose a scale that is in the workshop."), "tool")
    if asked.state.lye_made:
        raise Refused(say("The lye is made. Another scale does not change what is in it."), "tool")


_NEEDS: dict[str, Callable[[Asked, Changed, Line | None], None]] = {
    "substituted": _substituted,
    "amount off": _amount_off,
    "lost or spilt": _lost,
    "left out": _left_out,
    "temperature off": _temperature_off,
    "drawn differently": _drawn_differently,
    "another scale": _another_scale,
}


def check_lye_may_be_made(asked: Asked) -> None:
    """Refuse alkali into water before everything of the lye is weighed.

    Raises:
        Refused: with what comes first.
    """
    if asked.prompt_key != LYE:
        return
    missing = asked.missing("alkali", "water")
    if missing:
        raise Refused(say("First weigh {missing}.", missing=listed(missing)))
