"""Work for the time in which the lye cools: colours, scents, additions, milk."""

from __future__ import annotations

from soapbench.bench.plan import Line, Prompt
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import short, weigh
from soapbench.bench.planning.given import Batch
from soapbench.bench.words import listed
from soapbench.science.words import say

STIRRING_MINUTES = 3.0  # until a powder is smooth; own choice, until measured


def meanwhile(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    """Return the prompts that use the cooling time, the slow ones first."""
    into_fats = {liquid.material for liquid in batch.formula.liquids if liquid.goes_into == "fats"}
    milk = [line for line in lines if line.group == "liquid" and line.material in into_fats]
    found = [weigh(batch, line, "meanwhile", meanwhile=True) for line in milk]
    for line in lines:
        if line.group in ("colourant", "addition", "scent"):
            found += _prepared(batch, line, _carriers(lines, line))
    return found


def _carriers(lines: tuple[Line, ...], line: Line) -> list[Line]:
    start = f"carrier:{line.portion}:{line.material}:"
    return [carrier for carrier in lines if carrier.group == "carrier" and carrier.key.startswith(start)]


def _prepared(batch: Batch, line: Line, carriers: list[Line]) -> list[Prompt]:
    weighings = [weigh(batch, each, "meanwhile", meanwhile=True) for each in (line, *carriers)]
    return [*weighings, _dispersed(line, carriers)] if carriers else weighings


def _dispersed(line: Line, carriers: list[Line]) -> Prompt:
    goes = (
        say("It goes into portion {portion}.", portion=line.portion)
        if line.portion != "all"
        else say("It goes into the whole batter.")
    )
    return Prompt(
        key=f"disperse:{line.key}",
        phase="meanwhile",
        kind="act",
        title=short(say("Stir {name} smooth in {carriers_name}", name=line.name, carriers_name=carriers[0].name)),
        detail=say(
            "In {name}, until no lump is left. {goes}",
            name=listed([carrier.name.lower() for carrier in carriers]),
            goes=goes,
        ),
        line=line.key,
        portion=line.portion if line.portion != "all" else "",
        cautions=(cautions.POWDER,) if line.group == "colourant" else (),
        meanwhile=True,
        takes_minutes=STIRRING_MINUTES,
    )
