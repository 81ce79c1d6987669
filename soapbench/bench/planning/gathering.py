"""Before anything starts: materials, tools, and the gate of protective equipment."""

from __future__ import annotations

from soapbench.bench.folding.book import PROTECTION
from soapbench.bench.plan import Line, Prompt, Tick
from soapbench.bench.planning import cautions
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import lye_jug
from soapbench.bench.words import grams

GEAR = (
    Tick("goggles", "Splash goggles are on", "protection", "Closed all round. Spectacles do not do."),
    Tick("gloves", "Gloves are on and have no holes", "protection", "Nitrile, neoprene or butyl, with long cuffs."),
    Tick("clothes", "Long sleeves, apron and closed shoes are on", "protection", "No wool, no silk, no rings."),
    Tick("water", "Running water is ten seconds away", "room", "The way to it is clear."),
    Tick("air", "The air is moving", "room", "A window is open or the hood is on."),
    Tick("people", "Children, animals and visitors are out", "room"),
    Tick("bench", "The bench is clear of aluminium, zinc, tin and food", "room"),
)


def gathering(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    """Return the three prompts of the gather phase."""
    materials = Prompt(
        key="materials",
        phase="gather",
        kind="tick",
        title="Set out the materials",
        detail="Tick what stands on the bench. Check each lot against its label.",
        ticks=_materials(batch, lines),
        changes=("substituted", "left out", "interrupted", "other"),
    )
    tools = Prompt("tools", "gather", "tick", "Set out the tools", ticks=_tools(batch), changes=("other",))
    gear = Prompt(
        key=PROTECTION,
        phase="gather",
        kind="tick",
        title="Put on the gear and clear the room",
        detail="The lye prompts stay shut until every one is ticked.",
        ticks=(*GEAR, _numbers(batch)),
        cautions=(cautions.GEAR, cautions.SHEET),
        changes=("interrupted", "other"),
    )
    return [materials, tools, gear]


def _materials(batch: Batch, lines: tuple[Line, ...]) -> tuple[Tick, ...]:
    masses: dict[str, float] = {}
    for line in lines:
        masses[line.material] = round(masses.get(line.material, 0.0) + line.planned_g, 9)
    first = {line.material: line for line in reversed(lines)}
    return tuple(
        Tick(f"material:{key}", first[key].name, "material", _stock(batch, first[key], mass))
        for key, mass in masses.items()
    )


def _stock(batch: Batch, line: Line, mass_g: float) -> str:
    fact = batch.fact(line.material)
    lot = f", lot {line.lot_code}" if line.lot_code else ""
    left = f"; only {grams(fact.left_g)} left" if fact and fact.left_g is not None and fact.left_g < mass_g else ""
    return f"{grams(mass_g)}{lot}{left}"


def _numbers(batch: Batch) -> Tick:
    return Tick("numbers", "The emergency numbers are in sight", "room", batch.bench.emergency)


def _tools(batch: Batch) -> tuple[Tick, ...]:
    return tuple(Tick(f"tool:{key}", text, "tool", detail) for key, text, detail in _tool_list(batch))


def _tool_list(batch: Batch) -> list[tuple[str, str, str]]:
    bench, formula = batch.bench, batch.formula
    cups = len(batch.made.portions) - 1
    found = [
        ("scale", bench.scale.name, f"Steps of {grams(bench.scale.resolution_g)}. It shows g."),
        ("thermometer", bench.tool("thermometer", "Thermometer"), "Steel or glass, no aluminium."),
        ("blender", bench.tool("blender", "Stick blender"), "Its guard stays under the batter."),
        ("spatula", bench.tool("spatula", "Spatula"), ""),
        ("jug", lye_jug(batch)[0], "Whole, dry, marked LYE."),
        ("pot", bench.vessel("pot", "Mixing pot"), "No aluminium."),
        ("mould", bench.mould_name, "Lined and level."),
    ]
    if cups > 0:
        found.append(("cups", f"{cups} portion cup{'s' if cups > 1 else ''}", "Marked with their letters."))
    if formula.drawing.path != "none":
        found.append(("drawing", _named(batch, formula.drawing.tool, "Drawing tool"), f"For {formula.drawing.path}."))
    if any(stage.way == "side by side" for stage in formula.pour):
        found.append(("divider", bench.tool("divider", "Divider for the mould"), "For pouring side by side."))
    if formula.cut.way != "cavities":
        found.append(("cutter", _named(batch, formula.cut.tool, bench.tool("cutter", "Cutter")), formula.cut.way))
    if formula.process.oven:
        found.append(("oven", bench.tool("oven", "Oven"), f"{formula.process.oven_c:g} °C."))
    return found


def _named(batch: Batch, key: str, fallback: str) -> str:
    tool = batch.bench.tool_by_key(key)
    return tool.name if tool else fallback
