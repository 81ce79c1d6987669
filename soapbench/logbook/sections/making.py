"""From the cooling pots to the full mould: readings, trace, portions, pour, drawing."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bars.words import SAID
from soapbench.bench.cut_words import cut_advice, way_words
from soapbench.bench.fact_words import rest_words
from soapbench.bench.plan import PlanPortion, Prompt
from soapbench.bench.state import Fact, TemperatureReading
from soapbench.bench.words import grams, percent
from soapbench.logbook.blocks import Block, Cell, Column, Curve, Pairs, Section, Swatch, Table
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, signed, signed_by, when
from soapbench.rack.chart import Band, Chart, Mark, Series, draw
from soapbench.science.false_trace import rest_result
from soapbench.science.words import say

Role = Literal["first", "second", "third"]
POTS = {
    "lye": later("lye"),
    "fats": later("fats"),
    "batter": later("batter"),
    "loaf": later("loaf"),
    "oven": later("oven"),
    "room": later("room"),
}
DRAWN: tuple[tuple[str, Role, Mark], ...] = (
    ("lye", "first", "circle"),
    ("fats", "second", "square"),
    ("batter", "third", "triangle"),
)


def making(given: Given) -> list[Section]:
    """Return the sections from the first reading to the drawing; one that has nothing to say is left out."""
    made = [
        Section("readings", _("Temperatures"), _readings(given)),
        Section("trace", _("Trace"), _trace(given)),
        Section("portions", _("Portions"), _portions(given)),
        Section("pour", _("Pour"), _pour(given)),
        Section("drawing", _("Drawing"), _drawing(given)),
    ]
    return [section for section in made if section.blocks]


def _readings(given: Given) -> tuple[Block, ...]:
    readings = given.state.readings
    if not readings:
        return ()
    columns = (
        Column(_("What"), 1),
        Column(_("Temperature"), is_number=True),
        Column(_("After the alkali"), is_number=True),
        Column(_("When"), 1.2),
    )
    table = Table(columns, tuple(_reading(given, reading) for reading in readings), stays=True)
    chart = curve(given)
    return (Curve(chart), table) if chart else (table,)


def _reading(given: Given, reading: TemperatureReading) -> tuple[Cell, ...]:
    fact = given.by_id.get(reading.event)
    minutes = say("{minutes:.0f} min", minutes=reading.minutes).replace("-", "−")
    at = when(fact) if fact else Cell(short_moment(reading.at))
    return Cell(str(POTS.get(reading.pot, reading.pot))), Cell(f"{reading.temp_c:g} °C"), Cell(minutes), at


def curve(given: Given) -> Chart | None:
    """Return the readings of the pots since the alkali met the water, with the window; None for fewer than two."""
    series = []
    for pot, role, mark in DRAWN:
        points = tuple((each.minutes, each.temp_c) for each in given.state.readings if each.pot == pot)
        if points:
            series.append(Series(str(POTS[pot]), points, role, mark))
    if sum(len(one.points) for one in series) < 2:
        return None
    sentence = "; ".join(_said(one) for one in series)
    return draw(
        _("Temperatures of the pots"),
        f"{sentence}.",
        series,
        x_title=_("minutes since the alkali met the water"),
        y_title="°C",
        band=_window(given, series),
    )


def _said(series: Series) -> str:
    values = ", ".join(f"{temp:g} °C" for _minutes, temp in series.points)
    return f"{series.name[:1].upper()}{series.name[1:]}: {values}"


def _window(given: Given, series: list[Series]) -> Band | None:
    times = [minutes for one in series for minutes, _temp in one.points]
    if not times or min(times) == max(times):
        return None
    process, ends = given.plan.formula.process, (min(times), max(times))
    low, high = (tuple((minutes, temp) for minutes in ends) for temp in (process.mix_low_c, process.mix_high_c))
    return Band(_("window"), low, high)


def _trace(given: Given) -> tuple[Block, ...]:
    facts = given.of_kind("trace-seen")
    if not facts:
        return ()
    planned = SAID[given.plan.formula.process.trace]
    columns = (Column(_("Planned")), Column(_("Seen")), Column(_("By")))
    rows = [(Cell(str(planned)), Cell(str(SAID[fact.payload["trace"]])), signed_by(fact)) for fact in facts]
    return (Table(columns, tuple(rows)), *_rests(given))


def _rests(given: Given) -> tuple[Block, ...]:
    """Return what each rest after a trace found; an oil film or fat that sets is false trace."""
    rows = [(_rest(fact), signed_by(fact)) for fact in given.of_kind("rest-tested")]
    return (Table((Column(_("Rest test"), 2), Column(_("By"))), tuple(rows)),) if rows else ()


def _rest(fact: Fact) -> Cell:
    found = rest_result(fact.payload["oil_film"], fact.payload["thickens_as_it_cools"])
    return Cell(
        rest_words(fact.payload), "" if found.is_true else _("false trace"), "" if found.is_true else "attention"
    )


def _portions(given: Given) -> tuple[Block, ...]:
    if len(given.plan.portions) < 2 and not given.state.portions_g:
        return _one_portion(given)
    columns = (
        Column(_("Portion"), 2),
        Column(_("Share"), is_number=True),
        Column(_("Planned"), is_number=True),
        Column(_("In the cup"), 1.2, is_number=True),
        Column(_("Difference"), is_number=True),
        Column(_("By"), 1.2),
    )
    return (Table(columns, tuple(_portion(given, portion) for portion in given.plan.portions)),)


def _one_portion(given: Given) -> tuple[Block, ...]:
    rows = tuple((_("One portion"), _named(portion)) for portion in given.plan.portions)
    return (Pairs(rows),) if rows else ()


def _named(portion: PlanPortion) -> Cell:
    swatch = Swatch(portion.colour, portion.texture, portion.letter)
    return Cell(f"{portion.letter} · {portion.name}", str(SAID.get(portion.texture, portion.texture)), swatch=swatch)


def _portion(given: Given, portion: PlanPortion) -> tuple[Cell, ...]:
    mass = given.state.portions_g.get(portion.letter)
    split = [fact for fact in given.of_kind("split") if fact.payload["portion"] == portion.letter]
    rest = "" if split or mass is None else _("stayed in the pot")
    return (
        _named(portion),
        Cell(percent(portion.share)),
        Cell(grams(portion.planned_g)),
        Cell(_("not shared out") if mass is None else grams(mass), rest),
        Cell("" if mass is None else signed(mass - portion.planned_g)),
        signed_by(split[-1]) if split else Cell(""),
    )


def _pour(given: Given) -> tuple[Block, ...]:
    prompts = [prompt for prompt in given.plan.prompts if prompt.kind == "pour" and prompt.key in given.state.done]
    if not prompts:
        return ()
    columns = (Column(_("Stage"), 2.6), Column(_("Poured"), 1.2), Column(_("After the one before"), is_number=True))
    rows, before = [], None
    for prompt in prompts:
        rows.append(_stage(given, prompt, before))
        before = given.state.done[prompt.key]
    return (Table(columns, tuple(rows)),)


def _stage(given: Given, prompt: Prompt, before: datetime | None) -> tuple[Cell, ...]:
    fact, at = given.done_by(prompt), given.state.done[prompt.key]
    gap = say("{timedelta:.0f} min", timedelta=(at - before) / timedelta(minutes=1)) if before else ""
    return Cell(prompt.title, prompt.detail), signed_by(fact) if fact else Cell(short_moment(at)), Cell(gap)


def _drawing(given: Given) -> tuple[Block, ...]:
    wanted, drawn = given.plan.formula.drawing, given.state.drawing
    if wanted.path == "none" and drawn is None:
        return ()
    planned = _path(given, wanted.path, wanted.tool, wanted.passes)
    rows = [(_("Planned"), Cell(planned, _spacing(given)))]
    rows.append((_("As drawn"), _as_drawn(given, planned)))
    advice = cut_advice(given.plan, given.state)
    rows.append((_("Cut that shows it"), Cell(way_words(advice.way), advice.why)))
    return (Pairs(tuple(rows)),)


def _spacing(given: Given) -> str:
    wanted = given.plan.formula.drawing
    parts = [_("%s mm apart") % f"{wanted.spacing_mm:g}" if wanted.spacing_mm else "", wanted.note]
    return ", ".join(part for part in parts if part)


def _path(given: Given, path: str, tool: str, passes: int) -> str:
    tools = {choice.tool: choice.tool_name for choice in given.plan.drawings}
    parts = [str(SAID.get(path, path)), tools.get(tool, tool), _("passes: %d") % passes if passes else ""]
    return ", ".join(part for part in parts if part)


def _as_drawn(given: Given, planned: str) -> Cell:
    drawn = given.state.drawing
    if drawn is None:
        return Cell(_("not drawn"))
    said = _path(given, drawn["path"], drawn["tool"], drawn["passes"])
    fact = given.by_id.get(drawn["event"])
    who = f"{fact.person}, {short_moment(fact.happened_at)}" if fact else ""
    return Cell(said, who, "" if said == planned else "attention")
