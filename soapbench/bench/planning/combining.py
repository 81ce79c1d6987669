"""Lye meets fats: cooling down, pot check, lye into fats, the trace, and what goes into the whole batter."""

from __future__ import annotations

from soapbench.bench.folding.book import COMBINE, POT_CHECK
from soapbench.bench.plan import Line, Prompt
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import BATTER, short
from soapbench.bench.planning.given import Batch

TRACES = {
    "emulsion": "no streak of fat is left, and it runs like milk",
    "thin": "a drip leaves a faint line that sinks at once",
    "medium": "a drip stays on the surface for a few seconds",
    "thick": "it holds its shape like pudding",
}


def combining(batch: Batch, lines: tuple[Line, ...]) -> list[Prompt]:
    """Return the prompts from the cooling pots to the trace that the drawing needs."""
    into_fats = {liquid.material for liquid in batch.formula.liquids if liquid.goes_into == "fats"}
    milk = [line for line in lines if line.group == "liquid" and line.material in into_fats]
    return [_cool(batch), _pot_check(batch), *[_stirred_in(line) for line in milk], _combine(), _trace(batch)]


def _cool(batch: Batch) -> Prompt:
    process = batch.formula.process
    return Prompt(
        key="cool",
        phase="combine",
        kind="cool",
        title="Wait until both pots are in the window",
        detail=f"Lye and fats at {process.mix_low_c:g} to {process.mix_high_c:g} °C. The fats are clear.",
        low_c=process.mix_low_c,
        high_c=process.mix_high_c,
        cautions=(cautions.HOT_LYE,),
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


def _pot_check(batch: Batch) -> Prompt:
    pot = batch.bench.vessel("pot", "the pot")
    return Prompt(
        key=POT_CHECK,
        phase="combine",
        kind="pot check",
        title="Weigh the pot of fats before the lye",
        detail=f"Its weight without {pot} itself must be the sum of the fats.",
        pot="fats",
        changes=("amount off", "lost or spilt", "interrupted", "other"),
    )


def _stirred_in(line: Line) -> Prompt:
    return Prompt(
        key=f"add:{line.key}",
        phase="combine",
        kind="act",
        title=short(f"Stir {line.name} into the fats"),
        detail="All that was weighed, in a thin stream.",
        line=line.key,
        pot="fats",
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


def _combine() -> Prompt:
    return Prompt(
        key=COMBINE,
        phase="combine",
        kind="hold",
        title="Pour the lye into the fats",
        detail="Clear, no grains. Low and slow, down the shaft of the blender. From here on there is no long pause.",
        pot="batter",
        cautions=(cautions.LYE_POUR, cautions.FIRST_AID),
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


def _trace(batch: Batch) -> Prompt:
    trace = batch.formula.process.trace
    return Prompt(
        key="trace",
        phase="combine",
        kind="trace",
        title=f"Blend to {'an emulsion' if trace == 'emulsion' else f'{trace} trace'}",
        detail=f"Short bursts, then stir: {TRACES[trace]}.",
        pot="batter",
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )
