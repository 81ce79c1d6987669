"""How much to make: by the mass of fats, by the number of bars, or as much as fills a mould."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from soapbench.bars.formula import Formula
from soapbench.bench.planning.given import SizeAsked
from soapbench.workshop.fields import NumberField
from soapbench.workshop.models import Workshop

WAYS = (("mould", _("Fill the mould")), ("bars", _("A number of bars")), ("fats", _("Grams of fats")))
NUMBERS = {"bars": ("bars", "bar_g"), "fats": ("fats_g",)}
MOST_FATS_G = 50_000
MOST_BARS = 1_000


class SizeForm(forms.Form):
    """Unbound, it stands for the usual: the formula's own mould, filled."""

    by = forms.ChoiceField(label=_("How much"), choices=WAYS, widget=forms.RadioSelect, initial="mould")
    bars = NumberField(_("Bars"), least=1, most=MOST_BARS, required=False)
    bar_g = NumberField(
        _("Weight of a fresh bar"),
        unit=_("g"),
        least=5,
        most=5000,
        required=False,
        help_text=_("Empty: the bar that the planned cut gives."),
    )
    fats_g = NumberField(_("Fats"), unit=_("g"), least=1, most=MOST_FATS_G, required=False)
    mould = forms.ChoiceField(label=_("Mould"))
    scale = forms.ChoiceField(label=_("Scale"))
    cautions_read = forms.BooleanField(label=_("I have read this, and I am ready for caustic lye."), required=False)

    def __init__(self, *args: Any, workshop: Workshop, formula: Formula, is_starting: bool, **more: Any) -> None:
        super().__init__(*args, **more)
        self.is_starting = is_starting
        moulds = list(workshop.moulds.filter(is_here=True))
        scales = list(workshop.scales.filter(is_here=True).order_by("resolution_g"))
        self._offer("mould", moulds, formula.mould, _("This mould is not in the workshop. Choose another."))
        self._offer("scale", scales, "", _("This scale is not in the workshop. Choose another."))

    def _offer(self, name: str, rows: list[Any], usual: str, sentence: Any) -> None:
        field = self.fields[name]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [(row.key, row.name) for row in rows]
        field.initial = usual if usual in {row.key for row in rows} else (rows[0].key if rows else "")
        field.error_messages["invalid_choice"] = sentence

    def clean(self) -> dict[str, Any]:
        said = super().clean() or {}
        self._forget_other_ways(said)
        needed = {"bars": "bars", "fats": "fats_g"}.get(said.get("by", ""))
        if needed and said.get(needed) is None and needed not in self.errors:
            self.add_error(needed, _("Write a number here."))
        bars = said.get("bars")
        if bars is not None and bars != int(bars):
            self.add_error("bars", _("Write a whole number of bars."))
        if self.is_starting and not said.get("cautions_read"):
            self.add_error("cautions_read", ValidationError(_("Read the cautions and tick them first.")))
        return said

    def _forget_other_ways(self, said: dict[str, Any]) -> None:
        """Leave out what belongs to another way of asking: its fields are out of sight."""
        for way, names in NUMBERS.items():
            if said.get("by") not in (way, None):
                for name in names:
                    self.errors.pop(name, None)
                    said[name] = None

    @property
    def size(self) -> SizeAsked:
        if not self.is_bound:
            return SizeAsked("mould")
        said = self.cleaned_data
        return SizeAsked(
            by=said["by"],
            fats_g=said["fats_g"] or 0.0,
            bars=int(said["bars"] or 0),
            bar_g=said["bar_g"] or 0.0,
        )

    @property
    def chosen_mould(self) -> str:
        return self._chosen("mould")

    @property
    def chosen_scale(self) -> str:
        return self._chosen("scale")

    @property
    def refused(self) -> tuple[str, ...]:
        """Keys of what earlier runs taught that this batch is not to reckon with; unknown ones do nothing."""
        return tuple(self.data.getlist("refused")) if isinstance(self.data, QueryDict) else ()

    def _chosen(self, name: str) -> str:
        chosen = self.cleaned_data[name] if self.is_bound else self.fields[name].initial
        return str(chosen or "")
