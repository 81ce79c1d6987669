"""From the loaf to the rack: cut, yield, losses, drying, tests, and the decision."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.cut_words import cut_advice, way_words
from soapbench.bench.safety import LYE_IS, STEPS, steps_now
from soapbench.bench.state import Fact
from soapbench.bench.words import grams, percent
from soapbench.logbook.blocks import Block, Cell, Column, Pairs, Section, Table, Tone, Words
from soapbench.logbook.given import Given
from soapbench.logbook.sections.cure import cure
from soapbench.logbook.words import short_moment, signed, signed_by
from soapbench.rack.release import waits_for_test
from soapbench.rack.resting import resting


def bars(given: Given) -> list[Section]:
    """Return the sections after the mould; the decision always, so that an open batch says that it is open."""
    made = [
        Section("loaf", _("The loaf at rest"), _loaf(given)),
        Section("cut", _("Cut and yield"), _cut(given)),
        Section("losses", _("Losses"), _losses(given)),
        Section("cure", _("Drying"), cure(given)),
        Section("tests", _("Tests"), _tests(given)),
        Section("decision", _("Decision"), decision(given)),
    ]
    return [section for section in made if section.blocks]


def _loaf(given: Given) -> tuple[Block, ...]:
    found = resting(given.state)
    if found is None or not (found.told or given.state.cut):
        return ()
    columns = (Column(_("Seen"), 2), Column(_("When"), 1.2), Column(_("By"), 1.2))
    rows = tuple(
        (Cell(told.said, told.note, "attention" if told.is_odd else ""), Cell(told.when), Cell(told.person))
        for told in found.told
    )
    window = Pairs(((_("Usually firm"), Cell(found.window, found.why)),))
    return (window, Table(columns, rows, stays=True)) if rows else (window,)


def _cut(given: Given) -> tuple[Block, ...]:
    cut, planned = given.state.cut, given.plan.size
    if cut is None:
        return ()
    fact = given.by_id.get(cut["event"])
    batter = given.state.batter_g
    rows = [
        (_("Bars"), Cell(str(cut["bars"]), _("planned: %d") % planned.bars)),
        (_("Weight of the bars"), Cell(grams(cut["mass_g"]), _per_bar(cut["mass_g"], cut["bars"]))),
        (_("Trimmings"), Cell(grams(cut["offcuts_g"]))),
        (_("Cut as"), _way(given, cut["way"])),
    ]
    if batter:
        rows += _yield(given, batter, cut["mass_g"], cut["offcuts_g"])
    if fact:
        rows.append((_("Cut by"), signed_by(fact)))
    return (Pairs(tuple(rows)),)


def _way(given: Given, way: str) -> Cell:
    planned, advice = given.plan.formula.cut.way, cut_advice(given.plan, given.state)
    notes = ["" if way == planned else _("planned: %s") % way_words(planned)]
    notes.append(
        "" if advice.way in (way, planned) else _("what was drawn would have shown on: %s") % way_words(advice.way)
    )
    return Cell(way_words(way), "; ".join(note for note in notes if note), "" if way == planned else "attention")


def _per_bar(mass_g: float, count: int) -> str:
    return _("%s a bar") % grams(round(mass_g / count, 1)) if count else ""


def _yield(given: Given, batter_g: float, bars_g: float, trimmed_g: float) -> list[tuple[str, Cell]]:
    rest = batter_g - bars_g - trimmed_g
    batter = Cell(grams(round(batter_g, 1)), _("planned: %s") % grams(round(given.plan.size.batter_g, 1)))
    left = Cell(grams(round(rest, 1)), _("stayed in cups and pot, or dried off"))
    if rest < 0:
        left = Cell(signed(round(rest, 1)), _("more came out than went in: look at the entries"), "attention")
    return [
        (_("Batter"), batter),
        (_("Yield: bars out of batter"), Cell(percent(bars_g / batter_g))),
        (_("Not in bars or trimmings"), left),
    ]


def _losses(given: Given) -> tuple[Block, ...]:
    losses = [change for change in given.state.changes if change.what == "lost or spilt"]
    columns = (Column(_("What"), 1.4), Column(_("How much"), is_number=True), Column(_("Why"), 1.6), Column(_("By"), 1))
    rows = []
    for change in losses:
        line, portion = given.line(change.details.get("line", "")), change.details.get("portion", "")
        what = line.name if line else _("portion %s") % portion if portion else change.prompt_title
        mass = change.details.get("mass_g")
        amount = Cell(_("not weighed")) if mass is None else Cell(grams(mass))
        rows.append((Cell(what), amount, Cell(change.why), Cell(change.person, short_moment(change.at))))
    return (Table(columns, tuple(rows)),) if rows else ()


def _tests(given: Given) -> tuple[Block, ...]:
    columns = (
        Column(_("Test"), 2),
        Column(_("Result"), is_number=True),
        Column(_("Passed"), 1.2),
        Column(_("By"), 1.2),
    )
    rows = tuple(_test(fact) for fact in given.state.tests)
    if rows:
        return (Table(columns, rows),)
    return (Words(_("No finished bar was tested yet, and this batch needs it."), "stop"),) if _is_due(given) else ()


def _is_due(given: Given) -> bool:
    return waits_for_test(given.state) and given.state.status == "curing"


def _test(fact: Fact) -> tuple[Cell, ...]:
    passed = Cell(_("passed"), tone="good") if fact.payload["passed"] else Cell(_("not passed"), tone="stop")
    note = str(fact.payload.get("note", ""))
    return Cell(str(fact.payload["method"]), note), Cell(f"{fact.payload['value']:g}"), passed, signed_by(fact)


def decision(given: Given) -> tuple[Block, ...]:
    """Return who released, rejected or stopped the batch, and why."""
    fact = given.state.ended
    if fact is None:
        return (Words(_("Not decided yet. These bars are not released."), "attention"),)
    tone, words = ENDINGS[fact.kind]
    rows = [
        (_("By"), Cell(fact.person)),
        (_("When"), Cell(short_moment(fact.happened_at))),
        (_("Bars released"), Cell(str(fact.payload.get("bars", "")), _of_cut(given))),
        (_("Why"), Cell(str(fact.payload.get("reason", "")))),
        *_made_safe(given, fact),
        (_("Note"), Cell(str(fact.payload.get("note", "")))),
    ]
    return (Words(str(words), tone), Pairs(tuple((name, cell) for name, cell in rows if cell.text)))


def _made_safe(given: Given, fact: Fact) -> list[tuple[str, Cell]]:
    """Return what was made safe when the batch was stopped, and what of it nobody ticked."""
    if fact.kind != "stopped":
        return []
    ticked = fact.payload.get("steps", ())
    asked = steps_now(given.plan, given.state)
    done = [str(step.text) for step in STEPS if step.code in ticked]
    left = [str(step.text) for step in asked if step.code not in ticked]
    lye = fact.payload.get("lye", "")
    return [
        (_("The lye"), Cell(str(LYE_IS.get(lye, lye)))),
        (_("Made safe"), Cell(" ".join([*done, str(fact.payload.get("made_safe", ""))]).strip())),
        (_("Not ticked"), Cell(" ".join(left), tone="attention")),
    ]


ENDINGS: dict[str, tuple[Tone, Promise]] = {
    "released": ("good", later("Released: a named person lets these bars be sold.")),
    "rejected": ("stop", later("Rejected: these bars are kept from being sold.")),
    "stopped": ("stop", later("Stopped: the batch was given up before its release.")),
}


def _of_cut(given: Given) -> str:
    return _("of %d cut") % given.state.cut["bars"] if given.state.cut else ""
