"""The alkali: what was settled, the superfat planned and real with its ends, and the check of the pot."""

from __future__ import annotations

from datetime import datetime

from django.utils.translation import gettext as _

from soapbench.bench.plan import Plan
from soapbench.bench.run import fold
from soapbench.bench.state import Fact, RunState, Settlement
from soapbench.bench.words import grams, percent
from soapbench.logbook.blocks import Block, Cell, Column, Pairs, Section, Table, Tone, Words
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, signed, signed_by
from soapbench.science.superfat import SuperfatInterval


def chemistry(given: Given) -> list[Section]:
    """Return the section of water, alkali and superfat, once the alkali is weighed or settled."""
    blocks = [*_superfat(given), *_settled(given), *_lye(given)]
    checks = _pot_checks(given)
    found = [Section("superfat", _("Alkali and superfat"), tuple(blocks))] if blocks else []
    return [*found, Section("pot", _("The pot weighed against its entries"), checks)] if checks else found


def as_planned(plan: Plan, at: datetime) -> SuperfatInterval | None:
    """Return the superfat of exactly the planned weights, by the same sums as the real one."""
    facts = [_as_planned_fact(number, line.key, line.planned_g, at) for number, line in enumerate(plan.lines, 1)]
    return fold(plan, facts).superfat


def _as_planned_fact(number: int, line: str, mass_g: float, at: datetime) -> Fact:
    return Fact(str(number), number, "weighed", "", {"line": line, "mass_g": mass_g}, at, at, "", "")


def _superfat(given: Given) -> list[Block]:
    state = given.state
    if state.superfat is None:
        return [Words(state.superfat_sentence, "stop")] if state.superfat_sentence else []
    planned = as_planned(given.plan, given.made_at)
    columns = (
        Column(_("Superfat"), 1.4),
        Column(_("Unlucky end"), is_number=True),
        Column(_("Central"), is_number=True),
        Column(_("Lucky end"), is_number=True),
    )
    rows = [_interval(_("As planned"), planned)] if planned else []
    table = Table(
        columns,
        (*rows, _interval(_("As weighed"), state.superfat)),
        _("95 % of cases lie between the ends"),
        stays=True,
    )
    return [table, Words(state.superfat_sentence, superfat_tone(state.superfat))]


def _interval(name: str, found: SuperfatInterval) -> tuple[Cell, ...]:
    return (Cell(name), *(Cell(percent(end)) for end in (found.low, found.central, found.high)))


def superfat_tone(found: SuperfatInterval) -> Tone:
    if found.is_lye_heavy:
        return "stop"
    return "attention" if found.lye_heavy_possible else "good"


def _settled(given: Given) -> list[Block]:
    settlement = given.state.settlement
    if settlement is None or not settlement.is_needed:
        return []
    numbers = (Column(title, is_number=True) for title in (_("Planned"), _("Recomputed")))
    columns = (Column(_("Material"), 1.4), *numbers)
    rows = tuple(_choice_row(given, settlement, key) for key in settlement.planned)
    return [Words(settlement.sentence), Table(columns, rows, stays=True), *_choice(given, settlement)]


def _choice_row(given: Given, settlement: Settlement, key: str) -> tuple[Cell, ...]:
    line = given.line(key)
    recomputed = settlement.recomputed.get(key, settlement.planned[key])
    return Cell(line.name if line else key), Cell(grams(settlement.planned[key])), Cell(grams(recomputed))


def _choice(given: Given, settlement: Settlement) -> list[Block]:
    facts = given.of_kind("settled")
    if not facts or not settlement.choice:
        return [Words(_("Nobody has chosen yet."), "attention")]
    is_new = settlement.choice == "recomputed"
    words = _("The recomputed alkali was chosen") if is_new else _("The planned alkali was kept")
    return [Words(f"{words}: {facts[-1].person}, {short_moment(facts[-1].happened_at)}.")]


def _lye(given: Given) -> list[Block]:
    weights = given.state.weights
    alkali = [weights[line.key].mass_g for line in given.plan.in_group("alkali") if line.key in weights]
    water = [weights[line.key].mass_g for line in given.plan.in_group("water", "liquid") if line.key in weights]
    if not alkali or not water:
        return []
    wet, dry = sum(water), sum(alkali)
    rows = (
        (_("Water and liquids to alkali"), Cell(_("%.2f to 1") % (wet / dry) if dry else "")),
        (_("Strength of the lye"), Cell(percent(dry / (wet + dry)) if wet + dry else "")),
    )
    return [Pairs(rows)]


def _pot_checks(given: Given) -> tuple[Block, ...]:
    facts = given.of_kind("pot-checked")
    columns = (
        Column(_("Sum of the entries"), is_number=True),
        Column(_("On the scale"), is_number=True),
        Column(_("Difference"), is_number=True),
        Column(_("Decision"), 1.6),
        Column(_("By"), 1.2),
    )
    return (Table(columns, tuple(_pot_check(given, fact) for fact in facts)),) if facts else ()


def _pot_check(given: Given, fact: Fact) -> tuple[Cell, ...]:
    entries = _before(given, fact).pot_g
    mass = fact.payload["mass_g"]
    return (
        Cell(grams(entries)),
        Cell(grams(mass)),
        Cell(signed(mass - entries)),
        Cell(fact.payload.get("decision") or _("went on")),
        signed_by(fact),
    )


def _before(given: Given, fact: Fact) -> RunState:
    """Return where the run stood when the pot was weighed; later corrections do not move what was compared."""
    return fold(given.plan, [each for each in given.standing if each.position < fact.position])
