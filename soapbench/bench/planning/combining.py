"""Lye meets fats: cooling down, pot check, lye into fats, the trace, and what goes into the whole batter."""

from __future__ import annotations

from soapbench.bars.formula import Trace
from soapbench.bench.folding.book import COMBINE, COOL, POT_CHECK, REST_TEST, TRACE
from soapbench.bench.plan import Line, Prompt, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import BATTER, short
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.pauses import before_combining
from soapbench.bench.planning.trace_words import why_trace
from soapbench.science.false_trace import REST
from soapbench.science.words import mark, say

TRACES = {
    "emulsion": mark("no streak of fat is left, and it runs like milk"),
    "thin": mark("a drip leaves a faint line that sinks at once"),
    "medium": mark("a drip stays on the surface for a few seconds"),
    "thick": mark("it holds its shape like pudding"),
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
        title=say("Cool both pots"),
        detail=say(
            "Lye and fats at {mix_low:g} to {mix_high:g} °C. The fats are clear.",
            mix_low=process.mix_low_c,
            mix_high=process.mix_high_c,
        ),
        low_c=process.mix_low_c,
        high_c=process.mix_high_c,
        cautions=(cautions.HOT_LYE,),
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


def _pot_check(batch: Batch) -> Prompt:
    pot = batch.bench.vessel("pot", say("the pot"))
    return Prompt(
        key=POT_CHECK,
        phase="combine",
        kind="pot check",
        title=say("Weigh the pot of fats before the lye"),
        detail=say("Its weight without {pot} itself must be the sum of the fats.", pot=pot),
        pot="fats",
        changes=("amount off", "lost or spilt", "interrupted", "other"),
    )


def _stirred_in(line: Line) -> Prompt:
    return Prompt(
        key=f"add:{line.key}",
        phase="combine",
        kind="act",
        title=short(say("Stir {name} into the fats", name=line.name)),
        detail=say("All that was weighed, in a thin stream."),
        line=line.key,
        pot="fats",
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


def _combine() -> Prompt:
    return Prompt(
        key=COMBINE,
        phase="combine",
        kind="hold",
        title=say("Pour the lye into the fats"),
        detail=say(
            "Clear, no grains. Low and slow, down the shaft of the blender. From here on there is no long pause."
        ),
        pot="batter",
        cautions=(cautions.LYE_POUR, cautions.FIRST_AID),
        changes=("temperature off", "lost or spilt", "interrupted", "other"),
    )


BLEND_TO: dict[Trace, str] = {
    "emulsion": mark("Blend to an emulsion"),
    "thin": mark("Blend to thin trace"),
    "medium": mark("Blend to medium trace"),
    "thick": mark("Blend to thick trace"),
}


def _trace(batch: Batch) -> Prompt:
    trace = batch.formula.process.trace
    return Prompt(
        key=TRACE,
        phase="combine",
        kind="trace",
        title=say(BLEND_TO[trace]),
        detail=say(
            "Short bursts, then stir: {TRACES}. {why_trace}", TRACES=TRACES[trace], why_trace=why_trace(batch.formula)
        ),
        pot="batter",
        timer=Timer("rest", say("Rest: look again"), REST.value, until=REST_TEST),
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )


def _rest() -> Prompt:
    return Prompt(
        key=REST_TEST,
        phase="combine",
        kind="rest test",
        title=say("Let it rest two minutes, then look"),
        detail=say("Blender out. Is there oil on top? Does it thicken while it cools?"),
        pot="batter",
        cautions=(cautions.RAW_BATTER,),
        changes=BATTER,
    )
