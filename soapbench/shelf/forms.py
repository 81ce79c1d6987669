"""What may be typed about a material."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.shelf.models import Confidence, Material
from soapbench.workshop.fields import NumberField, PercentField, PlainForm, in_plain_words

OWN_CONFIDENCE = (Confidence.SUPPLIER, Confidence.PUBLISHED, Confidence.MEMORY, Confidence.PRACTICE)
FIRST = ("name", "inci", "inci_us")
LAST = ("handling", "source", "confidence")
# What is asked, by kind, between FIRST and LAST.
ASKED: dict[str, tuple[str, ...]] = {
    "fat": (
        "inci_saponified", "fat_kind", "state", "sv_low", "sv_high", "iodine_low", "iodine_high", "melts_at_c",
        "density_g_per_ml",
    ),
    "alkali": ("purity",),
    "liquid": ("water_fraction", "density_g_per_ml"),
    "colourant": ("ci_number", "swatch", "density_g_per_ml"),
    "scent": ("limit_percent", "limit_source", "working_minutes", "flash_point_c", "density_g_per_ml"),
    "addition": ("takes_koh_mg_per_g", "density_g_per_ml"),
}  # fmt: skip
POWDERS = ("colourant", "addition")
MG = "mg KOH/g"


def value_field(label: Any, **more: Any) -> NumberField:
    return NumberField(label, unit=MG, least=1, most=400, **more)


class MaterialForm(PlainForm[Material]):
    """One of the workshop's own materials; only the fields of its kind are kept."""

    sv_low = value_field(gettext_lazy("Saponification value, from"))
    sv_high = value_field(
        gettext_lazy("Saponification value, to"),
        help_text=gettext_lazy("The lowest and the highest that the source gives."),
    )
    iodine_low = NumberField(gettext_lazy("Iodine value, from"), most=300, required=False)
    iodine_high = NumberField(gettext_lazy("Iodine value, to"), most=300, required=False)
    melts_at_c = NumberField(gettext_lazy("Fully molten at"), unit="°C", least=-60, most=120, required=False)
    density_g_per_ml = NumberField(
        gettext_lazy("Density"),
        unit="g/ml",
        least=0.05,
        most=2.5,
        required=False,
        help_text=gettext_lazy("Near 40 °C."),
    )
    purity = PercentField(gettext_lazy("Purity"), least=1)
    water_fraction = PercentField(gettext_lazy("Share of water"))
    limit_percent = NumberField(
        gettext_lazy("Most in the bar"),
        unit="%",
        above=True,
        most=100,
        required=False,
        help_text=gettext_lazy("Without a limit no batch with this scent can start. The certificate of a lot wins."),
    )
    working_minutes = NumberField(
        gettext_lazy("Stays pourable for"), unit=gettext_lazy("minutes"), above=True, most=600, required=False
    )
    flash_point_c = NumberField(gettext_lazy("Flash point"), unit="°C", least=-20, most=300, required=False)
    takes_koh_mg_per_g = NumberField(
        gettext_lazy("Alkali it takes"),
        unit=MG,
        most=1500,
        help_text=gettext_lazy("Acids take alkali: citric acid 876.1. Write 0 for the others."),
    )

    class Meta:
        model = Material
        fields = (*FIRST, *dict.fromkeys(name for names in ASKED.values() for name in names), *LAST)
        widgets = {"swatch": forms.TextInput(attrs={"type": "color"}), "handling": forms.Textarea(attrs={"rows": 3})}

    def __init__(self, *args: Any, kind: str, **more: Any) -> None:
        super().__init__(*args, **more)
        keep = (*FIRST, *ASKED[kind], *LAST)
        self.fields = {name: self.fields[name] for name in keep}
        self.instance.kind = kind
        choices = [choice for choice in Confidence.choices if choice[0] in OWN_CONFIDENCE]
        self.fields["confidence"] = forms.ChoiceField(label=_("How sure"), choices=choices)
        self.fields["inci"].help_text = _("As it will stand on the label.")
        if kind in POWDERS:
            self.fields["density_g_per_ml"].help_text = _("As it lies in the spoon: weigh a level 5 ml, divide by 5.")
        for name in ("fat_kind", "state"):
            if name in self.fields:
                self.fields[name].required = True
        in_plain_words(self)

    def clean_swatch(self) -> str:
        swatch: str = self.cleaned_data["swatch"]
        digits = swatch.removeprefix("#")
        if swatch and (len(digits) != 6 or not set(digits.lower()) <= set("0123456789abcdef")):
            raise ValidationError(_("Write the colour as # and six digits, such as #4a6b45."))
        return swatch

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self._in_order(cleaned, "sv_low", "sv_high")
        self._in_order(cleaned, "iodine_low", "iodine_high")
        if cleaned.get("limit_percent") and not cleaned.get("limit_source"):
            self.add_error("limit_source", _("Say who sets this limit: the certificate, or the standard."))
        return cleaned

    def _in_order(self, cleaned: dict[str, Any], low: str, high: str) -> None:
        first, last = cleaned.get(low), cleaned.get(high)
        if first is not None and last is not None and first > last:
            self.add_error(high, _("The upper value is below the lower one. Change the two round."))

    def save(self, commit: bool = True) -> Material:
        if self.cleaned_data.get("limit_percent"):
            self.instance.limit_confidence = self.cleaned_data["confidence"]
        return super().save(commit)
