"""What went in: planned and weighed side by side, each with its lot, and who weighed it."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.plan import Line, LineGroup
from soapbench.bench.state import Fact, Weight
from soapbench.bench.words import grams, listed
from soapbench.logbook.blocks import Block, Cell, Column, Section, Table
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, signed, signed_by

TABLES: tuple[tuple[Promise, tuple[LineGroup, ...]], ...] = (
    (later("Fats"), ("fat",)),
    (later("Water, liquids and alkali"), ("water", "liquid", "alkali")),
    (later("Colour, scent and additions"), ("colourant", "scent", "addition", "carrier")),
)


def weighed(given: Given) -> list[Section]:
    """Return the section of all lines of the plan, group by group."""
    blocks: list[Block] = []
    for caption, groups in TABLES:
        lines = given.plan.in_group(*groups)
        if lines:
            rows = tuple(_row(given, line) for line in lines)
            blocks.append(Table(_columns(), (*rows, *_sum(given, lines, groups)), str(caption)))
    return [Section("weighed", _("Planned and weighed"), tuple(blocks))]


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("Material"), 2.1),
        Column(_("Lot"), 1),
        Column(_("Planned"), 1.2, is_number=True),
        Column(_("Weighed"), 1.2, is_number=True),
        Column(_("Difference"), 1.25, is_number=True),
        Column(_("Tolerance"), 1.05, is_number=True),
        Column(_("By"), 1.3),
    )


def _row(given: Given, line: Line) -> tuple[Cell, ...]:
    weight = given.state.weights.get(line.key)
    if weight is None:
        return _absent(given, line)
    return (
        _material(given, line, weight),
        Cell(given.lot_code(weight.lot) or _("no lot")),
        _planned(weight),
        _actual(given, weight),
        _difference(weight),
        _tolerance(given.state.tolerances.get(line.key, line.tolerance_g)),
        _by(given, weight),
    )


def _absent(given: Given, line: Line) -> tuple[Cell, ...]:
    out = given.left_out(line.key)
    word = Cell(_("left out"), out.why, "attention") if out else Cell(_("not weighed"))
    return (
        Cell(line.name, _portion(line)),
        Cell(line.lot_code),
        Cell(grams(line.planned_g)),
        word,
        Cell(""),
        _tolerance(line.tolerance_g),
        Cell(out.person, short_moment(out.at)) if out else Cell(""),
    )


def _portion(line: Line) -> str:
    if line.portion == "all":
        return _("whole batter")
    return _("portion %s") % line.portion if line.portion else ""


def _material(given: Given, line: Line, weight: Weight) -> Cell:
    fact = given.by_id.get(weight.event)
    jar = fact.payload.get("jar") if fact else ""
    if weight.material == line.material:
        return Cell(weight.name, _("read on the jar: %s") % jar if jar else _portion(line))
    notes = [_("instead of %s") % line.name, _portion(line)]
    return Cell(weight.name, ", ".join(note for note in notes if note), "attention")


def _planned(weight: Weight) -> Cell:
    moved = abs(weight.target_g - weight.planned_g) > 1e-6
    return Cell(grams(weight.planned_g), _("then asked: %s") % grams(weight.target_g) if moved else "")


def _actual(given: Given, weight: Weight) -> Cell:
    notes = [*_parts(weight), *_earlier(given, weight), *_confirmed(given, weight)]
    return Cell(grams(weight.mass_g), "; ".join(notes))


def _parts(weight: Weight) -> list[str]:
    return [_("in parts: %s") % listed([grams(part) for part in weight.parts])] if weight.parts else []


def _earlier(given: Given, weight: Weight) -> list[str]:
    """Return what the line weighed before, so that a changed value shows that it was changed."""
    if weight.parts:
        return []
    facts = [fact for fact in _weighings(given, weight) if fact.id != weight.event or _is_lessened(given, weight)]
    values = [grams(fact.payload["mass_g"]) for fact in facts]
    return [_("changed; before: %s") % listed(values)] if values else []


def _is_lessened(given: Given, weight: Weight) -> bool:
    """Return whether part of what was weighed was lost again, so that its own event says another number."""
    return any(
        change.what == "lost or spilt" and change.details.get("line") == weight.line and "mass_g" in change.details
        for change in given.state.changes
    )


def _weighings(given: Given, weight: Weight) -> list[Fact]:
    return [fact for fact in given.of_kind("weighed") if fact.payload["line"] == weight.line]


def _confirmed(given: Given, weight: Weight) -> list[str]:
    fact = given.by_id.get(weight.event)
    asked = bool(fact and fact.payload.get("doubts_answered"))
    return [_("the bench asked, and it was confirmed")] if asked else []


def _difference(weight: Weight) -> Cell:
    gap = signed(weight.mass_g - weight.target_g)
    return Cell(gap) if weight.is_within else Cell(gap, _("outside tolerance"), "attention")


def _tolerance(tolerance_g: float) -> Cell:
    return Cell(f"± {grams(round(tolerance_g, 2))}")


def _by(given: Given, weight: Weight) -> Cell:
    fact = given.by_id.get(weight.event)
    return signed_by(fact) if fact else Cell(weight.person, short_moment(weight.at))


def _sum(given: Given, lines: tuple[Line, ...], groups: tuple[LineGroup, ...]) -> list[tuple[Cell, ...]]:
    """Return the sum of the fats, once all are accounted for."""
    weights = [given.state.weights[line.key].mass_g for line in lines if line.key in given.state.weights]
    if groups != ("fat",) or len(weights) < 2:
        return []
    planned = sum(line.planned_g for line in lines)
    cells = (grams(planned), grams(sum(weights)), signed(sum(weights) - planned))
    return [(Cell(_("Together")), Cell(""), *map(Cell, cells), Cell(""), Cell(""))]
