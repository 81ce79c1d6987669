"""What may be typed about a scale, a vessel, a mould and a tool."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from soapbench.workshop.fields import NumberField, PlainForm
from soapbench.workshop.models import Mould, Scale, Tool, Vessel


class ScaleForm(PlainForm[Scale]):
    """A scale; the finest one that is here sets the step of every weight."""

    resolution_g = NumberField(_("Smallest step"), unit="g", least=0.001, most=100)
    capacity_g = NumberField(_("Most it carries"), unit="g", least=1, most=500_000)
    check_mass_g = NumberField(
        _("Known mass to try it with"),
        unit="g",
        most=500_000,
        required=False,
        help_text=_("Asked for before each batch. Best about as heavy as your alkali. Empty when you keep none."),
    )

    class Meta:
        model = Scale
        fields = ("name", "resolution_g", "capacity_g", "check_mass_g", "check_name", "is_here")
        help_texts = {"check_name": _("Such as “steel weight”. It stands at the prompt.")}

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        step, most = cleaned.get("resolution_g"), cleaned.get("capacity_g")
        if step and most and step * 100 > most:
            self.add_error("resolution_g", _("The step is too coarse for what the scale carries. Check both numbers."))
        known = cleaned.get("check_mass_g") or 0.0
        if most and known > most:
            self.add_error("check_mass_g", _("The scale does not carry this much. Keep something lighter."))
        if "check_mass_g" not in self.errors:
            cleaned["check_mass_g"] = known
        return cleaned


class VesselForm(PlainForm[Vessel]):
    """A jug, pot or cup."""

    volume_ml = NumberField(_("Volume"), unit="ml", least=1, most=200_000)
    tare_g = NumberField(
        _("Weight empty"),
        unit="g",
        least=1,
        most=50_000,
        help_text=_("Weigh it clean and dry. With it, a weight typed with the pot still counted is noticed."),
    )

    class Meta:
        model = Vessel
        fields = ("name", "use", "material", "volume_ml", "tare_g", "is_here")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("use") == Vessel.Use.LYE and cleaned.get("material") == Vessel.Material.GLASS:
            self.add_error("material", _("Lye etches glass, and it may burst. Take polypropylene, HDPE or steel."))
        return cleaned


MOULD_MEASURES: dict[str, tuple[str, ...]] = {
    Mould.Shape.BOX: ("length_mm", "width_mm", "height_mm"),
    Mould.Shape.SLAB: ("length_mm", "width_mm", "height_mm"),
    Mould.Shape.CYLINDER: ("diameter_mm", "height_mm"),
    Mould.Shape.CAVITIES: ("cavities", "cavity_ml"),
}


def _mm(label: Any) -> NumberField:
    return NumberField(label, unit="mm", most=2000, required=False)


class MouldForm(PlainForm[Mould]):
    """A mould by its inside measures; only those of its shape are asked for."""

    length_mm = _mm(_("Length inside"))
    width_mm = _mm(_("Width inside"))
    height_mm = _mm(_("Height inside"))
    diameter_mm = _mm(_("Diameter inside"))
    cavities = NumberField(_("Number of cavities"), most=500, required=False)
    cavity_ml = NumberField(_("One cavity holds"), unit="ml", most=5000, required=False)

    class Meta:
        model = Mould
        fields = (
            "name", "shape", "length_mm", "width_mm", "height_mm", "diameter_mm", "cavities", "cavity_ml", "is_here",
        )  # fmt: skip
        help_texts = {"shape": _("Loaf and slab need length, width, height. Cylinder: diameter, height.")}

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for name in MOULD_MEASURES.get(cleaned.get("shape", ""), ()):
            if not cleaned.get(name) and name not in self.errors:
                self.add_error(name, _("This shape needs this measure."))
        count = cleaned.get("cavities")
        if count and count != int(count):
            self.add_error("cavities", _("Write a whole number."))
        for measures in MOULD_MEASURES.values():
            for name in measures:
                cleaned[name] = cleaned.get(name) or 0
        return cleaned


class ToolForm(PlainForm[Tool]):
    """A tool; those that draw have a thickness."""

    diameter_mm = NumberField(
        _("Thickness of the part that draws"), unit="mm", most=200, required=False, help_text=_("0 for other tools.")
    )

    class Meta:
        model = Tool
        fields = ("name", "kind", "diameter_mm", "is_here")

    def clean_diameter_mm(self) -> float:
        return self.cleaned_data["diameter_mm"] or 0.0


# The word in the address, the word on the page, the form.
EQUIPMENT: dict[str, tuple[Any, type[forms.ModelForm[Any]]]] = {
    "scales": (_("Scales"), ScaleForm),
    "vessels": (_("Jugs, pots and cups"), VesselForm),
    "moulds": (_("Moulds"), MouldForm),
    "tools": (_("Tools"), ToolForm),
}
