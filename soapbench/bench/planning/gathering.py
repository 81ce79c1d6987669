"""Before anything starts: materials, tools, the scale, and the time and room for it."""

from __future__ import annotations

from math import ceil

from soapbench.bench.folding.book import SCALE_CHECK
from soapbench.bench.plan import Caution, Line, Prompt, Tick
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import said
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import lye_jug
from soapbench.bench.words import grams, round_grams, span
from soapbench.science.words import mark, plural, say, word

MOST_MATERIALS, MOST_TOOLS = 5, 6  # so that a list fits a phone: a material's row is the taller one
MATERIALS = (
    ("materials", mark("Set out the fats"), ("fat",)),
    ("materials-lye", mark("Set out what makes the lye"), ("water", "alkali", "liquid")),
    ("materials-more", mark("Set out colours and scents"), ("colourant", "addition", "scent", "carrier")),
)
ROOM = (
    Tick("rinse", mark("Water to rinse"), "room", mark("It runs, ten seconds away.")),
    Tick("gear", mark("Goggles, gloves, apron"), "room", mark("They lie ready.")),
    Tick("bench", mark("The bench is clear"), "room", mark("No aluminium, zinc, tin, food.")),
)


def gathering(batch: Batch, lines: tuple[Line, ...], minutes: float) -> list[Prompt]:
    """Return the prompts of the gather phase: lists of a hand's breadth, the scale, the time and the room."""
    return [*_materials(batch, lines), *_tools(batch), _scale(batch), _room(batch, minutes)]


def _materials(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    by_material: dict[str, list[Line]] = {}
    for line in lines:
        by_material.setdefault(line.material, []).append(line)
    found = []
    for key, message, groups in MATERIALS:
        rows = [each for each in by_material.values() if each[0].group in groups]
        ticks = [_material(batch, each) for each in rows]
        shown = (cautions.SHEET,) if "alkali" in groups else ()
        found += _lists(key, say(message), ticks, MOST_MATERIALS, shown)
    return found


def _lists(key: str, title: str, ticks: list[Tick], most: int, shown: tuple[Caution, ...] = ()) -> list[Prompt]:
    """Return the items as lists short enough for a phone, as even as can be; none for no items."""
    count = ceil(len(ticks) / most)
    size = ceil(len(ticks) / max(1, count))
    return [
        Prompt(
            key=key if number == 0 else f"{key}-{number + 1}",
            phase="gather",
            kind="tick",
            title=title,
            cautions=shown,
            ticks=tuple(ticks[number * size : (number + 1) * size]),
            changes=("substituted", "left out", "interrupted", "other"),
        )
        for number in range(count)
    ]


def _material(batch: Batch, lines: list[Line]) -> Tick:
    first, needed = lines[0], round(sum(line.planned_g for line in lines), 9)
    fact = batch.fact(first.material)
    left = fact.left_g if fact else None
    is_short = left is not None and left < needed
    return Tick(
        key=f"material:{first.material}",
        text=first.name,
        what="material",
        detail=_stock(first, needed, left),
        lines=tuple(line.key for line in lines),
        is_short=is_short,
        alone=is_short,
    )


def _stock(line: Line, needed: float, left: float | None) -> str:
    lot = say(", lot {lot_code}", lot_code=line.lot_code) if line.lot_code else ""
    if left is None:
        return f"{grams(needed)}{lot}"
    if left < needed:
        return say(
            "{needed} needed, only {left} left: too little{lot}", needed=grams(needed), left=round_grams(left), lot=lot
        )
    return say("{needed}{lot}: {left} left", needed=grams(needed), lot=lot, left=round_grams(left))


def _tools(batch: Batch) -> list[Prompt]:
    work = [Tick(f"tool:{key}", text, "tool", detail) for key, text, detail in _to_mix_with(batch)]
    shape = [Tick(f"tool:{key}", text, "tool", detail) for key, text, detail in _to_shape_with(batch)]
    return [
        *_lists("tools", say("Set out the tools"), work, MOST_TOOLS),
        *_lists("tools-shape", say("Set out mould and cutter"), shape, MOST_TOOLS),
    ]


def _to_mix_with(batch: Batch) -> list[tuple[str, str, str]]:
    bench = batch.bench
    return [
        (
            "scale",
            bench.scale.name,
            say("Its display says g, in steps of {resolution}.", resolution=grams(bench.scale.resolution_g)),
        ),
        ("thermometer", bench.tool("thermometer", say("Thermometer")), say("Steel or glass, no aluminium.")),
        ("blender", bench.tool("blender", say("Stick blender")), say("It runs. Guard whole.")),
        ("spatula", bench.tool("spatula", say("Spatula")), ""),
        ("jug", lye_jug(batch)[0], say("Whole, dry, marked LYE.")),
        ("pot", bench.vessel("pot", say("Mixing pot")), say("No aluminium.")),
    ]


def _to_shape_with(batch: Batch) -> list[tuple[str, str, str]]:
    bench, formula = batch.bench, batch.formula
    cups = len(batch.made.portions) - 1
    found = [("mould", bench.mould_name, say("Lined and level."))]
    if cups > 0:
        found.append(
            (
                "cups",
                plural("{count} portion cup", "{count} portion cups", cups),
                say("Marked with their letters."),
            )
        )
    if formula.drawing.path != "none":
        found.append(
            (
                "drawing",
                _named(batch, formula.drawing.tool, say("Drawing tool")),
                say("For {path}.", path=word("drawing", formula.drawing.path)),
            )
        )
    if any(stage.way == "side by side" for stage in formula.pour):
        found.append(("divider", bench.tool("divider", say("Divider for the mould")), say("For pouring side by side.")))
    if formula.cut.way != "cavities":
        found.append(
            (
                "cutter",
                _named(batch, formula.cut.tool, bench.tool("cutter", say("Cutter"))),
                word("cut", formula.cut.way),
            )
        )
    if formula.process.oven:
        found.append(("oven", bench.tool("oven", say("Oven")), f"{formula.process.oven_c:g} °C."))
    return found


def _named(batch: Batch, key: str, fallback: str) -> str:
    tool = batch.bench.tool_by_key(key)
    return tool.name if tool else fallback


def _scale(batch: Batch) -> Prompt:
    scale = batch.bench.scale
    known = scale.check_name or "the known mass"
    detail = (
        say("Put {known} on it.", known=known) if scale.check_mass_g else say("Take anything with its weight on it.")
    )
    return Prompt(
        key=SCALE_CHECK,
        phase="gather",
        kind="scale check",
        title=say("Try the scale"),
        detail=detail,
        changes=("interrupted", "other"),
    )


def _room(batch: Batch, minutes: float) -> Prompt:
    time = Tick(
        "time",
        say("Free for {minutes}", minutes=span(minutes)),
        "time",
        say("From now until the drawing is done."),
        alone=True,
    )
    numbers = Tick("numbers", say("Numbers to call in sight"), "room", batch.bench.emergency)
    return Prompt(
        key="room",
        phase="gather",
        kind="tick",
        title=say("Time and room"),
        ticks=(time, *map(said, ROOM), numbers),
        changes=("interrupted", "other"),
    )
