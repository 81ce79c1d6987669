"""The cut that follows from what was really drawn, in words: for the bench, the rack and the record."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.sizing import cut_of
from soapbench.bench.folding.book import CUT
from soapbench.bench.folding.cut_to_suit import cut_to_suit
from soapbench.bench.pictures.cutting import FROM, cut_pictures, said
from soapbench.bench.pictures.drawn import Picture
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.state import RunState
from soapbench.science.cut import CutPlan, CutYield, Way, cut_into, cut_yield
from soapbench.science.cut_advice import CutAdvice
from soapbench.science.cut_planes import planes, turned
from soapbench.science.errors import OutOfRange

WAYS: dict[str, str | Promise] = {
    "slices": gettext_lazy("Slices across the loaf"),
    "blocks on their sides": gettext_lazy("Blocks, cut level on their sides"),
    "long planks": gettext_lazy("Long planks"),
    "rounds": gettext_lazy("Rounds"),
    "cavities": gettext_lazy("As cast"),
}


@dataclass(frozen=True)
class CutChoice:
    """One way of cutting this loaf: its planes as pictures and in words, and what it gives."""

    way: Way
    title: str | Promise
    bars: int
    yields: str
    places: tuple[str, ...]
    pictures: tuple[Picture, ...]
    is_planned: bool


@dataclass(frozen=True)
class CutScreen:
    title: str
    drawn: str  # what was drawn, "" for nothing
    why: str
    is_changed: bool  # another cut than planned suits
    choices: tuple[CutChoice, ...]  # the one that suits first

    @property
    def best(self) -> CutChoice:
        return self.choices[0]


def way_words(way: str) -> str:
    """Return a way of cutting as the bench says it."""
    return str(WAYS.get(way, way))


def cut_advice(plan: Plan, state: RunState) -> CutAdvice:
    """Return the cut that suits what was really drawn, or what is planned while nothing is."""
    return cut_to_suit(plan, state.drawing)


def prompt_title(plan: Plan, state: RunState, prompt: Prompt) -> str:
    """Return a prompt's title; that of the cut names the way that suits what was drawn."""
    if prompt.key != CUT or plan.formula.cut.way == "cavities":
        return prompt.title
    return _("Cut the loaf: %s") % cut_advice(plan, state).way


def cut_screen(loaf: Loaf) -> CutScreen:
    """Return the cut that suits, the planned one and what else is as good, each with its pictures."""
    plan, advice = loaf.plan, cut_advice(loaf.plan, loaf.state)
    planned = plan.formula.cut.way
    ways = dict.fromkeys((advice.way, *advice.also, planned))
    found = [one for one in (_choice(loaf, way) for way in ways) if one is not None]
    drawing = loaf.state.drawing
    return CutScreen(
        title=prompt_title(plan, loaf.state, plan.prompt(CUT)),
        drawn=str(drawing["path"]) if drawing else "",
        why=advice.why,
        is_changed=advice.way != planned,
        choices=tuple(found) or (CutChoice(planned, way_words(planned), plan.size.bars, "", (), (), True),),
    )


def _choice(loaf: Loaf, way: Way) -> CutChoice | None:
    try:
        plan, result = _plan_and_yield(loaf, way)
        cuts = planes(loaf.mould, loaf.fill_mm, plan)
    except OutOfRange:  # this mould cannot be cut so
        return None
    places = tuple(_("%(mm)s from %(where)s") % {"mm": said(one), "where": FROM[one.axis]} for one in cuts)
    is_planned = way == loaf.plan.formula.cut.way
    return CutChoice(way, way_words(way), result.count, result.sentence, places, cut_pictures(loaf, cuts), is_planned)


def _plan_and_yield(loaf: Loaf, way: Way) -> tuple[CutPlan, CutYield]:
    """Return the cut with what it gives: the planned one as planned, another with bars of about the same volume."""
    planned = cut_of(loaf.plan.formula)
    mould, fill, size = loaf.mould, loaf.fill_mm, loaf.plan.size
    density = _density(loaf)
    if mould.shape == "cavities":
        return planned, cut_yield(mould, fill, planned, density)
    asked = cut_into(mould, fill, planned, size.bars, density) if size.by == "bars" else None
    result = asked or cut_yield(mould, fill, planned, density)
    if way == planned.way:
        return (_as_thick(planned, result) if asked else planned), result
    other = turned(mould, fill, way, result.bar_mass_g / density, planned.trim_mm)
    return other, cut_yield(mould, fill, other, density)


def _as_thick(planned: CutPlan, result: CutYield) -> CutPlan:
    main = {"blocks on their sides": 2, "long planks": 1, "rounds": 1}.get(planned.way, 0)
    return CutPlan(planned.way, result.bar_size_mm[main], planned.trim_mm)


def _density(loaf: Loaf) -> float:
    """Return the density of what is in the mould, g/ml: what was lost in pots is not there."""
    size = loaf.plan.size
    lost = min(loaf.plan.loss_g, size.batter_g / 2)
    return (1 - lost / size.batter_g) / loaf.ml_per_g if loaf.ml_per_g and loaf.mould.shape != "cavities" else 1.03
