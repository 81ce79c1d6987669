"""Before the start: what was at hand, and which cautions were shown and passed."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.plan import Caution, Prompt, Tick
from soapbench.bench.words import grams
from soapbench.logbook.blocks import Cell, Column, Section, Table, Words
from soapbench.logbook.given import Given
from soapbench.logbook.words import short_moment, signed_by, signed_text
from soapbench.science.scale_check import scale_check

WORDS = {"DANGER": later("DANGER"), "WARNING": later("WARNING"), "CAUTION": later("CAUTION"), "Note": later("Note")}


def ready(given: Given) -> list[Section]:
    """Return what was ticked off, and the cautions that were acknowledged."""
    return [section for section in (_at_hand(given), _cautions(given)) if section]


def _at_hand(given: Given) -> Section | None:
    prompts = [prompt for prompt in given.plan.prompts if prompt.kind == "tick"]
    rows = tuple(_ticked(given, prompt) for prompt in prompts)
    columns = (Column(_("Looked at"), 1.2), Column(_("At hand"), 2.6), Column(_("Done"), 1))
    rows = (*rows, *_scale(given), *_put_off(given))
    return Section("ready", _("Before the start"), (Table(columns, rows),), is_folded=True) if rows else None


def _scale(given: Given) -> list[tuple[Cell, ...]]:
    """Return each trial of the scale with a known mass, and whether it passed."""
    step = given.plan.resolution_g
    found: list[tuple[Cell, ...]] = []
    for fact in given.of_kind("scale-checked"):
        tried = scale_check(fact.payload["known_g"], fact.payload["read_g"], step)
        said = _("%(read)s shown for %(known)s") % {
            "read": grams(fact.payload["read_g"]),
            "known": grams(fact.payload["known_g"]),
        }
        verdict = "" if tried.ok else _("off by more than %s") % grams(tried.limit_g)
        found.append((Cell(_("Scale tried")), Cell(said, verdict, "" if tried.ok else "attention"), signed_by(fact)))
    return found


def _put_off(given: Given) -> list[tuple[Cell, ...]]:
    return [
        (Cell(_("Put off")), Cell(fact.payload["why"], fact.payload["until"]), signed_by(fact))
        for fact in given.of_kind("postponed")
    ]


def _ticked(given: Given, prompt: Prompt) -> tuple[Cell, ...]:
    here = [tick.text for tick in prompt.ticks if given.state.ticked.get(tick.key)]
    dealt = [f"{tick.text}: {given.state.dealt[tick.key]}" for tick in prompt.ticks if _is_dealt(given, tick)]
    missing = [tick.text for tick in prompt.ticks if _is_missing(given, tick)]
    done = given.state.done.get(prompt.key)
    notes = [*dealt, _("not at hand: %s") % ", ".join(missing)] if missing else dealt
    count = _("%(here)d of %(all)d") % {"here": len(here), "all": len(prompt.ticks)}
    said = f"{count}: {', '.join(here)}" if here else count
    return (
        Cell(prompt.title),
        Cell(said, "; ".join(notes), "attention" if notes else ""),
        Cell(short_moment(done) if done else _("not done")),
    )


def _is_dealt(given: Given, tick: Tick) -> bool:
    return tick.key in given.state.dealt and not given.state.ticked.get(tick.key)


def _is_missing(given: Given, tick: Tick) -> bool:
    return given.state.ticked.get(tick.key) is False and tick.key not in given.state.dealt


def _cautions(given: Given) -> Section | None:
    started = given.of_kind("started")
    if not started:
        return None
    read = Words(
        _("%(who)s read the caution before the run and confirmed it, %(when)s. Each one below stood on the screen.")
        % {"who": started[0].person, "when": short_moment(started[0].happened_at)}
    )
    columns = (Column(_("Caution"), 3), Column(_("First shown with"), 2))
    rows = tuple(_caution(given, *shown) for shown in _shown(given))
    blocks = (read, Table(columns, rows)) if rows else (read,)
    return Section("cautions", _("Cautions acknowledged"), blocks, is_folded=True)


def _shown(given: Given) -> list[tuple[Caution, Prompt]]:
    """Return each caution once, with the first done prompt that carried it."""
    found: dict[str, tuple[Caution, Prompt]] = {}
    for prompt in given.plan.prompts:
        if prompt.key in given.state.done:
            for caution in prompt.cautions:
                found.setdefault(caution.code, (caution, prompt))
    return list(found.values())


def _caution(given: Given, caution: Caution, prompt: Prompt) -> tuple[Cell, ...]:
    fact = given.done_by(prompt)
    done = given.state.done[prompt.key]
    return (
        Cell(f"{WORDS[caution.word]}: {caution.text}"),
        Cell(prompt.title, signed_text(fact) if fact else short_moment(done)),
    )
