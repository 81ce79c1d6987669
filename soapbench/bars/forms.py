"""What may be typed into a formula, one form for each part of it.

Each form turns into its part by `part()`, and back by `typed()`: per cent and grams as the maker writes them.
"""

from __future__ import annotations

from abc import abstractmethod
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from soapbench.bars import words
from soapbench.bars.fields import OneOf, Tick, Words, spelt
from soapbench.bars.formula import AlkaliChoice, Cut, Drawing, Formula, Process, Water
from soapbench.bars.models import Bar
from soapbench.bars.offers import NONE, Offers
from soapbench.bars.words import CUT_WAY, PATH, TRACE, WATER_BY
from soapbench.workshop.fields import NumberField


class BarForm(forms.ModelForm):  # type: ignore[type-arg]  # no subscript at run time
    class Meta:
        model = Bar
        fields = ("name", "description", "is_retired")
        widgets: ClassVar = {"description": forms.Textarea(attrs={"rows": 2})}
        error_messages: ClassVar = {
            "name": {
                "required": _("Give the bar a name."),
                "max_length": _("Make the name shorter: 80 letters at most."),
            }
        }


class OfferForm(forms.Form):
    """A form whose lists hold what this workshop has."""

    def __init__(self, *args: Any, offers: Offers, **more: Any) -> None:
        super().__init__(*args, **more)
        self.offer(offers)

    def offer(self, offers: Offers) -> None:
        """Fill the lists; a form without any leaves this alone."""

    @abstractmethod
    def part(self) -> Any:
        """Return the part of the formula that was typed; only where the form is right."""

    def choose(self, name: str, choices: list[tuple[str, Any]], first: tuple[str, Any] = NONE) -> None:
        field = self.fields[name]
        assert isinstance(field, OneOf)
        field.choices = [first, *choices]


class AlkaliForm(OfferForm):
    superfat = NumberField(_("Superfat"), unit="%", most=50, help_text=_("Share of the fat that finds no alkali."))
    naoh_percent = NumberField(
        _("Sodium hydroxide in the alkali"),
        unit="%",
        most=100,
        help_text=_("Of both, taken as pure: 100 for a hard bar, 0 for soft soap with potassium hydroxide."),
    )
    shares_by = OneOf(
        _("That share is counted"),
        words.SHARES_BY,
        initial="mole",
        help_text=_(
            "By mass, potassium hydroxide weighs 1.4 times as much for the same work. It matters for a mixture only."
        ),
    )
    naoh_purity = NumberField(_("Purity of the sodium hydroxide"), unit="%", least=50, most=100)
    koh_purity = NumberField(_("Purity of the potassium hydroxide"), unit="%", least=50, most=100)

    def part(self) -> AlkaliChoice:
        typed = self.cleaned_data
        share, sodium, potassium = (typed[name] / 100 for name in ("naoh_percent", "naoh_purity", "koh_purity"))
        return AlkaliChoice(share, sodium, potassium, typed["shares_by"])

    @staticmethod
    def typed(formula: Formula) -> dict[str, Any]:
        alkali = formula.alkali
        return {
            "superfat": spelt(100 * formula.superfat),
            "naoh_percent": spelt(100 * alkali.naoh_share),
            "shares_by": alkali.shares_by,
            "naoh_purity": spelt(100 * alkali.naoh_purity),
            "koh_purity": spelt(100 * alkali.koh_purity),
        }


class WaterForm(OfferForm):
    by = OneOf(_("Water is stated as"), WATER_BY)
    value = NumberField(
        _("How much"), above=True, most=100, help_text=_("33 for a lye of 33 %; 2 for twice the alkali.")
    )

    def part(self) -> Water:
        by, value = self.cleaned_data["by"], self.cleaned_data["value"]
        return Water(by, value / 100 if by == "lye concentration" else value)

    @staticmethod
    def typed(formula: Formula) -> dict[str, Any]:
        water = formula.water
        return {"by": water.by, "value": spelt(100 * water.value if water.by == "lye concentration" else water.value)}


class DrawingForm(OfferForm):
    path = OneOf(_("Path"), PATH)
    tool = OneOf(_("Tool"), required=False)
    passes = forms.IntegerField(label=_("Passes"), min_value=0, max_value=500, required=False)
    spacing_mm = NumberField(_("Distance between passes"), unit="mm", most=500, required=False)
    note = Words(_("Note"), 200, required=False)

    def offer(self, offers: Offers) -> None:
        self.choose("tool", offers.drawers)

    def part(self) -> Drawing:
        typed = self.cleaned_data
        return Drawing(typed["path"], typed["tool"], typed["passes"] or 0, typed["spacing_mm"] or 0.0, typed["note"])

    @staticmethod
    def typed(formula: Formula) -> dict[str, Any]:
        drawing = formula.drawing
        return {
            "path": drawing.path,
            "tool": drawing.tool,
            "passes": drawing.passes or "",
            "spacing_mm": spelt(drawing.spacing_mm) if drawing.spacing_mm else "",
            "note": drawing.note,
        }


class CutForm(OfferForm):
    mould = OneOf(_("Usual mould"), required=False)
    way = OneOf(_("Cut into"), CUT_WAY)
    thickness_mm = NumberField(_("Thickness of a bar"), unit="mm", most=1000, above=True)
    trim_mm = NumberField(_("Trimmed off each end"), unit="mm", most=1000)
    tool = OneOf(_("Cutter"), required=False)

    def offer(self, offers: Offers) -> None:
        self.choose("mould", offers.moulds)
        self.choose("tool", offers.cutters)

    def part(self) -> Cut:
        typed = self.cleaned_data
        return Cut(typed["way"], typed["thickness_mm"], typed["trim_mm"], typed["tool"])

    @staticmethod
    def typed(formula: Formula) -> dict[str, Any]:
        cut = formula.cut
        sizes = {"thickness_mm": spelt(cut.thickness_mm), "trim_mm": spelt(cut.trim_mm)}
        return {"mould": formula.mould, "way": cut.way, "tool": cut.tool, **sizes}


HOURS = ("unmould_hours", "cut_hours")  # empty: the process decides


class ProcessForm(OfferForm):
    fats_c = NumberField(_("Fats warmed to"), unit="°C", most=100)
    mix_low_c = NumberField(_("Mix from"), unit="°C", most=100)
    mix_high_c = NumberField(_("Mix up to"), unit="°C", most=100)
    trace = OneOf(_("Blend to"), TRACE)
    insulated = Tick(_("Wrap the mould"))
    oven = Tick(_("Put it into a warm oven"))
    oven_c = NumberField(_("Oven at"), unit="°C", most=120)
    oven_minutes = NumberField(_("Oven for"), unit="min", most=6000)
    unmould_hours = NumberField(
        _("Unmould after"),
        unit="h",
        most=1000,
        required=False,
        help_text=_("Empty: by gel, oven, lye and fats, as the batch turns out. Your own figure wins over that."),
    )
    cut_hours = NumberField(
        _("Cut after"), unit="h", most=1000, required=False, help_text=_("Empty: when it leaves the mould.")
    )
    cure_days = NumberField(_("Cure for"), unit=_("days"), most=2000)

    def clean(self) -> dict[str, Any]:
        typed: dict[str, Any] = super().clean() or {}
        low, high = typed.get("mix_low_c"), typed.get("mix_high_c")
        if low is not None and high is not None and low >= high:
            self.add_error("mix_high_c", _("This must be warmer than “mix from”."))
        return typed

    def part(self) -> Process:
        typed = self.cleaned_data
        hours = {name: typed[name] or 0.0 for name in HOURS}
        return Process(**{**typed, **hours, "cure_days": round(typed["cure_days"])})

    @staticmethod
    def typed(formula: Formula) -> dict[str, Any]:
        names = [name for name in ProcessForm.base_fields if name not in ("trace", "insulated", "oven")]
        process = formula.process
        numbers = {name: spelt(getattr(process, name)) for name in names}
        numbers |= {name: "" for name in HOURS if not getattr(process, name)}
        return {"trace": process.trace, "insulated": process.insulated, "oven": process.oven, **numbers}


class FatsByForm(OfferForm):
    fats_by = OneOf(_("Amounts are"), words.FATS_BY)

    def part(self) -> str:
        return str(self.cleaned_data["fats_by"])


class WhyForm(OfferForm):
    why = Words(_("What changed, and why"), 200, required=False)

    def part(self) -> str:
        return str(self.cleaned_data["why"])
