"""When each prompt was done, stage by stage, and whether the log is whole."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.plan import Prompt
from soapbench.bench.state import Fact
from soapbench.logbook.blocks import Block, Cell, Code, Column, Pairs, Section, Table, Words
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, when

PHASES = {
    "gather": later("Getting ready"),
    "fats": later("Fats"),
    "lye": later("Lye"),
    "meanwhile": later("Meanwhile"),
    "combine": later("Lye meets fats"),
    "portions": later("Portions"),
    "pour": later("Pour"),
    "drawing": later("Drawing"),
    "rest": later("Rest"),
    "cut": later("Cut"),
    "cure": later("Drying"),
    "release": later("Release"),
}


def times(given: Given) -> list[Section]:
    """Return the section of every prompt with its time, and the section of the chain of digests."""
    return [
        Section("times", _("Every step and its time"), _steps(given), is_folded=True),
        Section("chain", _("Is the record whole?"), _chain(given)),
    ]


def _steps(given: Given) -> tuple[Block, ...]:
    columns = (Column(_("Step"), 2.6), Column(_("Happened"), 1.5))
    alone = len(given.state.people) == 1
    tables: list[Block] = [Words(_("All by %s.") % given.state.people[0])] if alone else []
    for phase, prompts in groupby(given.plan.prompts, key=lambda prompt: prompt.phase):
        rows = tuple(_step(given, prompt) for prompt in prompts)
        tables.append(Table(columns, rows, str(PHASES[phase]), stays=True))
    return tuple(tables)


def _step(given: Given, prompt: Prompt) -> tuple[Cell, ...]:
    at = given.state.done.get(prompt.key)
    if at is None:
        why = given.state.skipped.get(prompt.key, "")
        return Cell(prompt.title), Cell(_("not needed") if why else _("not done"), why)
    fact = given.done_by(prompt)
    return Cell(prompt.title), _happened(given, fact) if fact else Cell(short_moment(at))


def _happened(given: Given, fact: Fact) -> Cell:
    """Return when; who as well, where several people worked on the batch."""
    cell = when(fact)
    if len(given.state.people) == 1:
        return cell
    return replace(cell, note=", ".join(part for part in (fact.person, cell.note) if part))


def _chain(given: Given) -> tuple[Block, ...]:
    if given.broken:
        said = Words(_("This record does not hold together. %s") % given.broken, "stop")
    else:
        said = Words(_("Every entry fits the one before it; nothing was changed after it was written."), "good")
    rows = (
        (_("Entries"), Cell(str(len(given.facts)))),
        (_("Head digest, SHA-256"), Cell(given.head_digest or _("no entry yet"))),
        (_("Record"), Cell(given.id)),
    )
    if not given.head_digest:
        return said, Pairs(rows)
    sealed = f"{given.code} {given.id} {len(given.facts)} {given.head_digest}"
    caption = _("Batch code, record, number of entries and head digest, to hold against the record on the screen.")
    return said, Pairs(rows), Code(sealed, caption)
