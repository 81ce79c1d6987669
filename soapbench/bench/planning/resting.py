"""After the pour: cover or oven, clean up, rest, unmould, cut, cure, test, release."""

from __future__ import annotations

from soapbench.bench.folding.book import CURE, CUT, FIRM, RELEASE, TEST
from soapbench.bench.plan import ChangeKind, Prompt, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.firming import rest_plan
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import loaf_outlook
from soapbench.bench.planning.pauses import before_leaving
from soapbench.bench.planning.size import cut_sentence
from soapbench.science.words import say

HOUR = 60.0
DAY = 24 * HOUR
LOAF: tuple[ChangeKind, ...] = ("temperature off", "lost or spilt", "interrupted", "other")


def resting(batch: Batch) -> list[Prompt]:
    """Return the prompts from the full mould to the released bars."""
    process = batch.formula.process
    start = _oven(batch) if process.oven else [_cover(batch), before_leaving(), _look()]
    return [*start, _rest(batch), _firm(), *_unmould(batch), _cut(batch), _cure(batch), _test(), _release()]


def _rest_timer(batch: Batch) -> Timer:
    # The minutes of a plan without windows; with them, the gel that was seen moves the end.
    return Timer("rest", say("Loaf: firm enough?"), rest_plan(batch).windows[""].earliest_h * HOUR, until="rest")


def _cover(batch: Batch) -> Prompt:
    is_warm = batch.formula.process.insulated
    how = say("Lid on, towels round it.") if is_warm else say("Lid on, nothing round it, away from warmth.")
    return Prompt(
        key="cover",
        phase="rest",
        kind="act",
        title=say("Cover the mould and set it aside"),
        detail=" ".join(filter(None, (how, say("Mark it RAW SOAP with the batch code."), loaf_outlook(batch)))),
        timer=_rest_timer(batch),
        changes=LOAF,
    )


def _oven(batch: Batch) -> list[Prompt]:
    process = batch.formula.process
    put_in = Prompt(
        key="oven",
        phase="rest",
        kind="act",
        title=say("Put the mould into the warm oven"),
        detail=say(
            "{oven:g} °C for {oven_minutes:g} min, then the oven goes off. Sign on the door.",
            oven=process.oven_c,
            oven_minutes=process.oven_minutes,
        ),
        cautions=(cautions.OVEN,),
        timer=Timer("oven", say("Oven: switch it off"), process.oven_minutes, until="oven-off"),
        changes=LOAF,
    )
    off = Prompt(
        key="oven-off",
        phase="rest",
        kind="wait",
        title=say("Switch the oven off, leave the mould in"),
        minutes=process.oven_minutes,
        timer=_rest_timer(batch),
        changes=LOAF,
    )
    return [put_in, before_leaving(), _look(), off]


def _look() -> Prompt:
    return Prompt(
        key="look",
        phase="rest",
        kind="look",
        title=say("Look at the loaf: does it swell?"),
        detail=say("If it does, or cracks: uncover it, into a cool draught, goggles on."),
        changes=LOAF,
    )


def _rest(batch: Batch) -> Prompt:
    return Prompt(
        key="rest",
        phase="rest",
        kind="wait",
        title=say("Leave the loaf in its mould"),
        detail=say("It is ready when it is cool and firm in the middle."),
        minutes=rest_plan(batch).windows[""].earliest_h * HOUR,
        changes=LOAF,
    )


def _firm() -> Prompt:
    return Prompt(
        key=FIRM,
        phase="rest",
        kind="firmness",
        title=say("Press the loaf in the middle with a gloved thumb"),
        changes=LOAF,
    )


def _unmould(batch: Batch) -> list[Prompt]:
    process = batch.formula.process
    more = max(0.0, process.cut_hours - process.unmould_hours) * HOUR if process.unmould_hours else 0.0
    unmould = Prompt(
        key="unmould",
        phase="cut",
        kind="act",
        title=say("Take the soap out of its mould"),
        detail=say("It drags or smears: leave it some hours more."),
        cautions=(cautions.YOUNG_SOAP,),
        timer=Timer("cut", say("Loaf: cut"), more, until="cut-wait") if more else None,
        changes=LOAF,
    )
    wait = Prompt("cut-wait", "cut", "wait", say("Leave the loaf to firm up"), minutes=more, changes=LOAF)
    return [unmould, wait] if more else [unmould]


def _cut(batch: Batch) -> Prompt:
    is_cast = batch.formula.cut.way == "cavities"
    return Prompt(
        key=CUT,
        phase="cut",
        kind="cut",
        title=say("Count and weigh the bars") if is_cast else say("Cut the loaf: {way}", way=batch.formula.cut.way),
        detail=cut_sentence(batch),
        cautions=(cautions.YOUNG_SOAP,) if is_cast else (cautions.YOUNG_SOAP, cautions.BLADE),
        timer=Timer("cure", say("Bars: cured"), batch.formula.process.cure_days * DAY, until=CURE),
        changes=("lost or spilt", "interrupted", "other"),
    )


def _cure(batch: Batch) -> Prompt:
    days = batch.formula.process.cure_days
    return Prompt(
        key=CURE,
        phase="cure",
        kind="cure",
        title=say("Weigh the marked bars while they cure"),
        detail=say("{days} days or more, airy and apart. Ready when they lose next to nothing in a week.", days=days),
        minutes=days * DAY,
        changes=("lost or spilt", "other"),
    )


def _test() -> Prompt:
    return Prompt(
        key=TEST,
        phase="release",
        kind="test",
        title=say("Test a finished bar"),
        detail=say("Free alkali, by the method that your rules ask for. pH above 11 is not released."),
        cautions=(cautions.NO_TONGUE,),
        changes=("other",),
    )


def _release() -> Prompt:
    return Prompt(
        key=RELEASE,
        phase="release",
        kind="release",
        title=say("Decide: release or reject the bars"),
        detail=say("Your name stands under it."),
        changes=("other",),
    )
