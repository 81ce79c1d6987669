"""Lye meets fats: cooling down, pot check, lye into fats, the trace, and what goes into the whole batter."""

from __future__ import annotations

from soapbench.bench.folding.book import COMBINE, COOL, POT_CHECK, REST_TEST, TRACE
from soapbench.bench.plan import Line, Prompt, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import BATTER, short
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.pauses import before_combining
from soapbench.bench.planning.trace_words import why_trace
from soapbench.science.false_trace import REST

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
    before = [_cool(batch), _pot_check(batch), before_combining()]
    return [*before, *[_stirred_in(line) for line in milk], _combine(), _trace(batch), _rest()]


def _cool(batch: Batch) -> Prompt:
    process = batch.formula.process
    return Prompt(
        key=COOL,
        phase="combine",
        kind="cool",
        title="Cool both pots",
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
        key=TRACE,
        phase="combine",
        kind="trace",
        title=f"Blend to {'an emulsion' if trace == 'emulsion' else f'{trace} trace'}",
        detail=f"Short bursts, then stir: {TRACES[trace]}. {why_trace(batch.formula)}",
        pot="batter",
        timer=Timer("rest", "Rest: look again", REST.value, until=REST_TEST),
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )


def _rest() -> Prompt:
    return Prompt(
        key=REST_TEST,
        phase="combine",
        kind="rest test",
        title="Let it rest two minutes, then look",
        detail="Blender out. Is there oil on top? Does it thicken while it cools?",
        pot="batter",
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )
