"""What was not as planned, what was remarked, and what was taken back."""

from __future__ import annotations

from django.utils.translation import gettext as _

from soapbench.bench.fact_words import fact_words
from soapbench.bench.state import Change, Fact, Weight
from soapbench.bench.words import grams, over_or_short
from soapbench.logbook.blocks import Block, Cell, Column, Figure, Section, Table, Words
from soapbench.logbook.given import Given, Kept
from soapbench.logbook.words import change_title, short_moment, signed_by, signed_text
from soapbench.science.words import say


def differences(given: Given) -> list[Section]:
    """Return the changes, the notes and the withdrawn entries; the changes always, so that none is a statement."""
    made = [
        Section("changes", _("What went differently"), _changes(given)),
        Section("notes", _("Notes"), _notes(given)),
        Section("figures", _("Photos and voice notes"), _figures(given)),
        Section("withdrawn", _("Taken back"), _withdrawn(given)),
    ]
    return [section for section in made if section.blocks]


def _changes(given: Given) -> tuple[Block, ...]:
    columns = (
        Column(_("What"), 1.35),
        Column(_("Why"), 1.2),
        Column(_("What follows"), 1.6),
        Column(_("Decision"), 1.2),
        Column(_("Decided by"), 1),
    )
    rows = (
        *(_change(given, each) for each in given.state.changes),
        *(_outside(given, each) for each in given.state.untold_weights),
    )
    return (Table(columns, rows),) if rows else (Words(_("Nothing that was written down differs from the plan.")),)


def _outside(given: Given, weight: Weight) -> tuple[Cell, ...]:
    gap = weight.mass_g - weight.target_g
    said = _("%(name)s: %(mass)s, %(gap)s") % {
        "name": weight.name,
        "mass": grams(weight.mass_g),
        "gap": over_or_short(gap),
    }
    settlement = given.state.settlement
    is_fat = weight.line.startswith("fat:") and settlement is not None and settlement.is_needed
    return (
        Cell(_("Weight outside its tolerance"), said),
        Cell(_("no reason written")),
        Cell(settlement.sentence if settlement and is_fat else ""),
        _kept(given, weight, is_fat),
        Cell(weight.person, short_moment(weight.at)),
    )


def _kept(given: Given, weight: Weight, is_fat: bool) -> Cell:
    """Return what was decided about it: the alkali that was chosen, or that it was kept as weighed."""
    settled = given.of_kind("settled")
    if is_fat and settled:
        is_new = settled[-1].payload["choice"] == "recomputed"
        return Cell(_("recomputed alkali") if is_new else _("planned alkali kept"), signed_text(settled[-1]))
    asked = given.by_id[weight.event].payload.get("doubts_answered")
    return Cell(_("kept as weighed"), _("confirmed when the bench asked") if asked else "")


def _change(given: Given, change: Change) -> tuple[Cell, ...]:
    fact = given.by_id.get(change.event)
    said = [_details(given, change), change.prompt_title and _("at: %s") % change.prompt_title]
    return (
        Cell(change_title(change.what), "; ".join(part for part in said if part)),
        Cell(change.why),
        Cell(change.effect),
        Cell(change.decision),
        _decided(change, fact),
    )


def _decided(change: Change, fact: Fact | None) -> Cell:
    """Return who decided, and who wrote it down where that was somebody else."""
    if change.decided_by != change.person:
        written = signed_text(fact) if fact else f"{change.person}, {short_moment(change.at)}"
        return Cell(change.decided_by, _("written by %s") % written)
    return signed_by(fact) if fact else Cell(change.person, short_moment(change.at))


def _details(given: Given, change: Change) -> str:
    found = change.details
    line = given.line(found.get("line", ""))
    stand_in = given.plan.stand_ins.get(found.get("material", "")) or given.plan.materials.get(
        found.get("material", "")
    )
    parts = [
        line.name if line else given.item(found.get("item", "")),
        f"→ {stand_in.name}" if stand_in else "",
        grams(found["mass_g"]) if "mass_g" in found else "",
        f"{found['temp_c']:g} °C" if "temp_c" in found else "",
        _("portion %s") % found["portion"] if "portion" in found else "",
        say("{found:g} min", found=found["minutes"]) if "minutes" in found else "",
    ]
    return " ".join(part for part in parts if part)


def _notes(given: Given) -> tuple[Block, ...]:
    columns = (Column(_("Note"), 3), Column(_("At"), 1.4), Column(_("By"), 1))
    rows = tuple(_note(given, fact) for fact in given.standing if _remark(fact))
    return (Table(columns, rows),) if rows else ()


def _remark(fact: Fact) -> str:
    if fact.kind == "noted":
        return str(fact.payload["text"])
    return str(fact.payload.get("note", "")) if fact.kind in ("done", "ticked") else ""


def _note(given: Given, fact: Fact) -> tuple[Cell, ...]:
    title = next((prompt.title for prompt in given.plan.prompts if prompt.key == fact.prompt), "")
    return Cell(_remark(fact)), Cell(title), signed_by(fact)


def _figures(given: Given) -> tuple[Block, ...]:
    """Return each photo and each voice note that was not taken back, in the order of the batch."""
    return tuple(_figure(given, fact) for fact in given.state.attachments)


def _figure(given: Given, fact: Fact) -> Figure:
    file = given.files.get(fact.id, Kept("", ""))
    what = fact.payload["what"]
    title = next((prompt.title for prompt in given.plan.prompts if prompt.key == fact.prompt), "")
    name = _("Photo") if what == "photo" else _("Voice note")
    caption = fact.payload["words"] or (_("%(what)s: %(at)s") % {"what": name, "at": title} if title else name)
    digest = _("SHA-256 %s…") % fact.payload["sha256"][:16]
    return Figure(what, file.address, file.path, caption, f"{signed_text(fact)} · {digest}")


def _withdrawn(given: Given) -> tuple[Block, ...]:
    columns = (Column(_("Entry"), 2), Column(_("Written by"), 1.2), Column(_("Taken back by"), 1.2))
    rows = tuple(_taken_back(given, fact) for fact in given.facts if fact.id in given.state.withdrawn)
    return (Table(columns, rows),) if rows else ()


def _taken_back(given: Given, fact: Fact) -> tuple[Cell, ...]:
    back = next((each for each in given.facts if each.payload.get("event") == fact.id), None)
    words = _("%(position)d. %(words)s") % {"position": fact.position, "words": fact_words(given.plan, fact)}
    why = str(fact.payload.get("why", ""))
    return (
        Cell(words, _("does not count") + (f"; {why}" if why else "")),
        signed_by(fact),
        signed_by(back) if back else Cell(""),
    )
