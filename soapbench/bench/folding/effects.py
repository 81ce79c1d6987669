"""What follows from a change, in words, computed from the batch before and after it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from soapbench.bench.folding.cut_to_suit import cut_to_suit
from soapbench.bench.folding.pot import batter_g, needed_alkali
from soapbench.bench.folding.pour_order import order_now
from soapbench.bench.folding.superfat import central
from soapbench.bench.folding.tally import Tally
from soapbench.bench.folding.targets import share_of, target_of
from soapbench.bench.kinds import Changed
from soapbench.bench.plan import Line
from soapbench.bench.state import Fact
from soapbench.bench.words import grams, minutes, percent
from soapbench.science.doses import Limit, check_dose, finished_g
from soapbench.science.errors import OutOfRange
from soapbench.science.words import say
from soapbench.shelf.facts import MaterialFacts

LONG_PAUSE_MINUTES = 5.0  # after it a fluid batter is stirred and judged again; own choice


@dataclass(frozen=True)
class Outlook:
    """The figures that a change may move."""

    alkali_g: float | None  # that the pot needs
    superfat: float | None  # once the alkali is weighed
    batter_g: float


def outlook(tally: Tally) -> Outlook:
    try:
        needed: float | None = needed_alkali(tally).total_g
    except OutOfRange:
        needed = None
    return Outlook(needed, central(tally), batter_g(tally))


def effect(tally: Tally, fact: Fact, change: Changed, before: Outlook) -> str:
    """Return the sentence for a change that the tally has already taken in."""
    said = _WORDS[change.what](tally, fact, change)
    return " ".join(part for part in (said, chemistry(tally, before)) if part) or say(
        "Nothing that was weighed changes."
    )


def chemistry(tally: Tally, before: Outlook) -> str:
    """Return what the alkali or the superfat has become since."""
    after = outlook(tally)
    if tally.is_alkali_unknown:
        return say("How much alkali is left is not known, so the superfat is not known either.")
    if before.superfat is not None and after.superfat is not None:
        return _superfat_words(before.superfat, after.superfat)
    if before.alkali_g is not None and after.alkali_g is not None and before.alkali_g != after.alkali_g:
        return say(
            "The pot now needs {alkali} of alkali, not {alkali_2}.",
            alkali=grams(after.alkali_g),
            alkali_2=grams(before.alkali_g),
        )
    if after.alkali_g is None:
        return say("No fat is left in the pot, so there is nothing for the alkali to react with.")
    return ""


def _superfat_words(before: float, after: float) -> str:
    if percent(before) == percent(after):
        return say("The superfat stays at {after}.", after=percent(after))
    heavy = " " + say("The batch is lye-heavy.") if after < 0 else ""
    return say(
        "Superfat {after} instead of {before}.{heavy}", after=percent(after), before=percent(before), heavy=heavy
    )


def _line(tally: Tally, change: Changed) -> Line | None:
    return tally.book.lines.get(change.line)


def _substituted(tally: Tally, fact: Fact, change: Changed) -> str:
    line = _line(tally, change)
    if line is None:
        return ""
    stand_in = tally.book.facts(change.material, change.lot)
    name = stand_in.name if stand_in else change.material
    said = say("{name} goes in for {line_name}.", name=name, line_name=line.name)
    if line.group == "scent" and stand_in is not None:
        return f"{said} {_scent_words(tally, line, stand_in)}"
    return said


def _scent_words(tally: Tally, line: Line, scent: MaterialFacts) -> str:
    """Return what another scent means for the skin and for the time that is left to pour."""
    time = say("How long scented batter stays pourable is not known: pour it soon.")
    if scent.working_minutes is not None:
        planned = tally.plan.materials[line.material].working_minutes
        instead = say(", not {planned:g}", planned=planned) if planned and planned != scent.working_minutes else ""
        time = say(
            "Scented batter stays pourable about {working_minutes:g} min{instead}.",
            working_minutes=scent.working_minutes,
            instead=instead,
        )
    if scent.limit_percent is None:
        return say(
            "No limit on skin is known for it: these bars cannot be sold on this record alone. {time}", time=time
        )
    limit = Limit(scent.limit_percent, "finished product", scent.limit_source, scent.limit_confidence)
    dose = check_dose(scent.name, target_of(tally, line), _product_g(tally, line), limit)
    return f"{dose.sentence} {time}"


def _product_g(tally: Tally, line: Line) -> float:
    """Return the grams of finished bars that a line goes into."""
    return finished_g(share_of(tally, line.portion) * batter_g(tally))


def _amount_off(tally: Tally, fact: Fact, change: Changed) -> str:
    line = _line(tally, change)
    if line is None or change.mass_g is None:
        return ""
    return say(
        "{name}: {mass} counted, {planned} planned.",
        name=tally.name_of(line),
        mass=grams(change.mass_g),
        planned=grams(line.planned_g),
    )


def _temperature_off(tally: Tally, fact: Fact, change: Changed) -> str:
    prompt = tally.book.prompts.get(fact.prompt)
    process = tally.plan.formula.process
    low = process.mix_low_c if prompt is None or prompt.low_c is None else prompt.low_c
    high = process.mix_high_c if prompt is None or prompt.high_c is None else prompt.high_c
    if change.temp_c is None:
        return say("The window is {low:g} to {high:g} °C.", low=low, high=high)
    if change.temp_c > high:
        over = change.temp_c - high
        return say(
            "{over:g} °C above the window: the batter thickens sooner and the loaf heats more. Do not cover it.",
            over=over,
        )
    if change.temp_c < low:
        under = low - change.temp_c
        return say(
            "{under:g} °C below the window: hard fats may set and look like trace. Warm until clear.", under=under
        )
    return say("{temp:g} °C is inside the window of {low:g} to {high:g} °C.", temp=change.temp_c, low=low, high=high)


def _drawn_differently(tally: Tally, fact: Fact, change: Changed) -> str:
    planned = tally.plan.formula.drawing.path
    advice = cut_to_suit(tally.plan, {"path": change.path, "tool": change.tool})
    if not tally.is_combined:
        tools = {choice.tool: choice.tool_name for choice in tally.plan.drawings}
        tool = " " + say("with {tools!l}", tools=tools[change.tool]) if change.tool in tools else ""
        instead = say(", not {planned}", planned=planned) if change.path != planned else say(", the same as planned")
        return say(
            "The drawing will be {path}{tool}{instead}. To cut: {way}. {why}",
            path=change.path,
            tool=tool,
            instead=instead,
            way=advice.way,
            why=advice.why,
        )
    return say(
        "Drawn: {path}; planned: {planned}. To cut: {way}. {why}",
        path=change.path,
        planned=planned,
        way=advice.way,
        why=advice.why,
    )


def _thickened(tally: Tally, fact: Fact, change: Changed) -> str:
    if not change.portion:
        return say(
            "The batter goes into the mould next. Stir by hand only, leave the blender, and add no more scent to it."
        )
    said = order_now(tally, change.portion, fact.happened_at)
    return " ".join(
        part for part in (said, say("Stir {portion} by hand only, no more scent.", portion=change.portion)) if part
    )


def _lost(tally: Tally, fact: Fact, change: Changed) -> str:
    line = _line(tally, change)
    if line is None:
        lost = (
            say("{mass} of batter are lost", mass=grams(change.mass_g))
            if change.mass_g is not None
            else say("Some batter is lost")
        )
        return say("{lost}: fewer or thinner bars. What is left keeps its superfat.", lost=lost)
    if change.mass_g is not None:
        return say("{mass} of {name} do not count any more.", mass=grams(change.mass_g), name=line.name)
    if tally.is_combined:
        return say("It is not known how much {name} is missing.", name=line.name)
    return say("It is not known how much {name} is left. Weigh it anew.", name=line.name)


def _left_out(tally: Tally, fact: Fact, change: Changed) -> str:
    line = _line(tally, change)
    if line is None:
        return (
            say("Portion {portion} is left out; its batter goes to the others.", portion=change.portion)
            if change.portion
            else ""
        )
    if line.group == "scent":
        return say("No {name}: declare and name the bars without it.", name=line.name)
    if line.group == "colourant":
        return say("No {name}: that portion keeps the colour of the batter.", name=line.name)
    return say("{name} is left out ({planned} planned).", name=line.name, planned=grams(line.planned_g))


def _interrupted(tally: Tally, fact: Fact, change: Changed) -> str:
    away = (
        say("Away for {minutes}.", minutes=minutes(change.minutes)) if change.minutes else say("Work was interrupted.")
    )
    if tally.is_combined and (change.minutes or 0) > LONG_PAUSE_MINUTES:
        return say("{away} Stir the batter and judge its trace again before going on.", away=away)
    if tally.lye_at is not None and not tally.is_combined:
        return say("{away} The lye went on cooling: read both pots again.", away=away)
    return say("{away} When in doubt whether something went in, weigh the pot.", away=away)


def _not_at_hand(tally: Tally, fact: Fact, change: Changed) -> str:
    tick = tally.book.ticks.get(change.item)
    return f"{tick.text}: {change.decision[:1].lower()}{change.decision[1:]}." if tick else ""


def _another_scale(tally: Tally, fact: Fact, change: Changed) -> str:
    """Return what the step of another scale does to the superfat, as one step of it on the alkali."""
    scale = next((each for each in tally.plan.other_scales if each.key == change.tool), None)
    alkali = tally.book.planned_alkali_g
    if scale is None or alkali <= 0:
        return ""
    points = 100 * (1 - tally.plan.planned_superfat) * scale.resolution_g / alkali
    step = grams(scale.resolution_g)
    return say(
        "{name} weighs in steps of {step}: one step of alkali moves the superfat by {points:.2g} points.",
        name=scale.name,
        step=step,
        points=points,
    )


def _other(tally: Tally, fact: Fact, change: Changed) -> str:
    return ""


_WORDS: dict[str, Callable[[Tally, Fact, Changed], str]] = {
    "substituted": _substituted,
    "amount off": _amount_off,
    "temperature off": _temperature_off,
    "drawn differently": _drawn_differently,
    "thickened early": _thickened,
    "lost or spilt": _lost,
    "left out": _left_out,
    "not at hand": _not_at_hand,
    "another scale": _another_scale,
    "interrupted": _interrupted,
    "other": _other,
}
