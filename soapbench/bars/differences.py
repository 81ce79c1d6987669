"""What changed from one formula to the next, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any

from django.utils.translation import gettext as _

from soapbench.bars.fields import spelt
from soapbench.bars.formula import Additive, Formula, Portion, PourStage, Process
from soapbench.bars.words import SAID
from soapbench.science.words import mark

Names = Mapping[str, str]

_PROCESS = {
    "fats_c": mark("warm the fats to {} °C"),
    "mix_low_c": mark("mix from {} °C"),
    "mix_high_c": mark("mix up to {} °C"),
    "trace": mark("blend to {}"),
    "oven": mark("warm oven: {}"),
    "oven_c": mark("oven at {} °C"),
    "oven_minutes": mark("oven for {} min"),
    "insulated": mark("wrapped mould: {}"),
    "unmould_hours": mark("unmould after {} h"),
    "cut_hours": mark("cut after {} h"),
    "cure_days": mark("cure for {} days"),
}


_BY_PROCESS = {"unmould_hours": mark("Unmould when it is firm."), "cut_hours": mark("Cut when it leaves the mould.")}


def differences(old: Formula, new: Formula, names: Names) -> tuple[str, ...]:
    """Return what is different in the new formula, one short sentence each, in the order of the work."""
    return (
        *_lines(_fats(old, names), _fats(new, names)),
        *_numbers(old, new),
        *_lines(_liquids(old, names), _liquids(new, names)),
        *_lines(_additions(old, names), _additions(new, names)),
        *_lines(_portions(old), _portions(new)),
        *_whole(_("Pour"), _pour(old), _pour(new)),
        *_whole(_("Drawing"), drawing_words(old, names), drawing_words(new, names)),
        *_whole(_("Cut"), cut_words(old, names), cut_words(new, names)),
        *_process(old.process, new.process),
    )


def _lines(old: Mapping[str, str], new: Mapping[str, str]) -> list[str]:
    """Return added, dropped and changed entries of two mappings from a name to what is said of it."""
    dropped = [_("%s taken out.") % name for name in old if name not in new]
    added = [_("%(name)s added: %(what)s.") % {"name": name, "what": new[name]} for name in new if name not in old]
    changed = [
        _("%(name)s: %(what)s, was %(before)s.") % {"name": name, "what": what, "before": old[name]}
        for name, what in new.items()
        if name in old and old[name] != what
    ]
    return [*changed, *added, *dropped]


def _whole(title: str, old: str, new: str) -> list[str]:
    return [] if old == new else [_("%(title)s: %(new)s, was %(old)s.") % {"title": title, "new": new, "old": old}]


def _numbers(old: Formula, new: Formula) -> list[str]:
    told: tuple[tuple[str, Callable[[Formula], str]], ...] = (
        (_("Superfat"), lambda one: f"{spelt(100 * one.superfat)} %"),
        (_("Water"), water_words),
        (_("Alkali"), alkali_words),
        (_("Amounts of fats"), lambda one: _("in grams") if one.fats_by == "mass" else _("in per cent")),
    )
    return [line for title, say in told for line in _whole(title, say(old), say(new))]


def water_words(formula: Formula) -> str:
    """Return how the water is stated."""
    by, value = formula.water.by, formula.water.value
    if by == "lye concentration":
        return _("lye of %s %%") % spelt(100 * value)
    if by == "water to alkali ratio":
        return _("%s g for 1 g of alkali") % spelt(value)
    return _("%s %% of the fats") % spelt(value)


def alkali_words(formula: Formula) -> str:
    """Return which alkali, and how pure it is taken to be."""
    alkali = formula.alkali
    sodium = _("sodium hydroxide of %s %%") % spelt(100 * alkali.naoh_purity)
    potassium = _("potassium hydroxide of %s %%") % spelt(100 * alkali.koh_purity)
    if alkali.naoh_share in (0, 1):
        return sodium if alkali.naoh_share else potassium
    share = spelt(100 * alkali.naoh_share)
    return _("%(share)s %% %(counted)s %(sodium)s, the rest %(potassium)s") % {
        "share": share,
        "counted": SAID[alkali.shares_by],
        "sodium": sodium,
        "potassium": potassium,
    }


def _fats(formula: Formula, names: Names) -> dict[str, str]:
    unit = "%" if formula.fats_by == "percent" else "g"
    return {_name(line.material, names): f"{spelt(line.amount)} {unit}" for line in formula.fats}


def _liquids(formula: Formula, names: Names) -> dict[str, str]:
    return {
        _name(line.material, names): _("%(share)s %% of the water, %(where)s")
        % {"share": spelt(100 * line.share), "where": SAID[line.goes_into]}
        for line in formula.liquids
    }


def _additions(formula: Formula, names: Names) -> dict[str, str]:
    lines: dict[str, str] = {}
    for line in formula.additives:
        where = {"name": _name(line.material, names), "where": SAID[line.goes_to]}
        lines[_("%(name)s in %(where)s") % where] = dose_words(line, names)
    return lines


def dose_words(line: Additive, names: Names) -> str:
    """Return the dose of an addition, and what it is dispersed in."""
    dose = f"{spelt(line.dose)} {SAID[line.basis]}"
    if not line.disperse_in:
        return dose
    carrier = {"dose": dose, "ratio": spelt(line.disperse_ratio), "carrier": _name(line.disperse_in, names)}
    return _("%(dose)s, each gram in %(ratio)s g of the recipe's %(carrier)s") % carrier


def _portions(formula: Formula) -> dict[str, str]:
    return {_("Portion %s") % portion.letter: _portion_words(portion) for portion in formula.portions}


def _portion_words(portion: Portion) -> str:
    parts = _("1 part") if portion.parts == 1 else _("%s parts") % spelt(portion.parts)
    return f"{portion.name}, {parts}, {portion.colour}, {SAID[portion.texture]}"


def _pour(formula: Formula) -> str:
    return "; ".join(stage_words(stage) for stage in formula.pour) or _("all at once")


def stage_words(stage: PourStage) -> str:
    """Return one stage of the pour in words."""
    share = "" if stage.share == 1 else _(", %s %% of each") % spelt(100 * stage.share)
    return f"{', '.join(stage.portions)} {SAID[stage.way]}{share}"


def drawing_words(formula: Formula, names: Names) -> str:
    """Return path, tool and passes of the drawing in words."""
    drawing = formula.drawing
    if drawing.path == "none":
        return str(SAID["none"])
    words = [str(SAID[drawing.path])]
    words += [_("with %s") % _name(drawing.tool, names)] if drawing.tool else []
    words += [_("%s passes") % drawing.passes] if drawing.passes else []
    words += [_("%s mm apart") % spelt(drawing.spacing_mm)] if drawing.spacing_mm else []
    return ", ".join(words)


def cut_words(formula: Formula, names: Names) -> str:
    """Return the cut, its tool and the usual mould in words."""
    cut = formula.cut
    sizes = _("%(thickness)s mm thick, %(trim)s mm trimmed") % {
        "thickness": spelt(cut.thickness_mm),
        "trim": spelt(cut.trim_mm),
    }
    words = [f"{SAID[cut.way]} {sizes}"]
    words += [_name(key, names) for key in (cut.tool, formula.mould) if key]
    return ", ".join(words)


def _process(old: Process, new: Process) -> list[str]:
    changed = [one.name for one in fields(Process) if getattr(old, one.name) != getattr(new, one.name)]
    return [_process_words(name, getattr(new, name)) for name in changed]


def _process_words(name: str, value: Any) -> str:
    if name in _BY_PROCESS and not value:
        return _(_BY_PROCESS[name])
    said = {True: _("yes"), False: _("no")}[value] if isinstance(value, bool) else SAID.get(str(value), value)
    text = _(_PROCESS[name]).format(spelt(said) if isinstance(said, float) else said)
    return f"{text[:1].upper()}{text[1:]}."


def _name(key: str, names: Names) -> str:
    return names.get(key, key)
