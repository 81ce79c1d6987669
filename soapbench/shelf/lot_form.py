"""What may be typed about a lot: the purchase, and what its paper says."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.science.errors import OutOfRange
from soapbench.shelf import titration
from soapbench.shelf.acids import CITRIC
from soapbench.shelf.alkalis import working_purity
from soapbench.shelf.forms import value_field
from soapbench.shelf.models import Lot, Material
from soapbench.workshop.fields import DateField, NumberField, PercentField, PlainForm, in_plain_words

ALWAYS = ("code", "supplier", "received_g", "bought_on", "best_before", "status")
# What the paper tells, by kind of material.
PAPER: dict[str, tuple[str, ...]] = {
    "fat": ("saponification_value", *titration.FIELDS),
    "alkali": ("purity", "carbonate", "carbonate_is_guess"),
    "scent": ("limit_percent", "certificate"),
}


class LotForm(PlainForm[Lot]):
    """One purchase; the fields of its paper follow the kind of the material."""

    jar_form = forms.ChoiceField(
        label=gettext_lazy("Which form does the jar say?"),
        help_text=gettext_lazy("The two forms take different masses of alkali. Ask the supplier if the jar is silent."),
    )
    received_g = NumberField(gettext_lazy("Bought"), unit="g", above=True, most=1_000_000)
    bought_on = DateField(gettext_lazy("Bought on"))
    best_before = DateField(gettext_lazy("Best before"))
    saponification_value = value_field(
        gettext_lazy("Supplier's saponification value"),
        required=False,
        help_text=gettext_lazy("From the certificate of this very lot. It narrows the doubt about the superfat."),
    )
    purity = PercentField(
        gettext_lazy("Purity on the label"),
        least=50,
        required=False,
        help_text=gettext_lazy("A certificate may call it total alkali."),
    )
    carbonate = PercentField(
        gettext_lazy("Carbonate in it"),
        most=30,
        required=False,
        help_text=gettext_lazy("From the certificate; or your guess of a jar that stood open. It makes no soap."),
    )
    limit_percent = NumberField(
        gettext_lazy("Most in the bar, by the certificate"),
        unit="%",
        above=True,
        most=100,
        required=False,
        help_text=gettext_lazy("For rinsed-off soap: IFRA category 9."),
    )
    sample_g, blank_ml, used_ml, mol_per_l = titration.fields()

    class Meta:
        model = Lot
        fields = (
            *ALWAYS, "saponification_value", "purity", "carbonate", "carbonate_is_guess", "limit_percent",
            "certificate",
        )  # fmt: skip
        labels = {"carbonate_is_guess": gettext_lazy("The carbonate is my own estimate")}

    def __init__(self, *args: Any, used_g: float = 0.0, **more: Any) -> None:
        super().__init__(*args, **more)
        self.used_g = used_g
        asked = [*ALWAYS, *PAPER.get(self.instance.material.kind, ())]
        if self.instance.material.key in CITRIC:
            asked.insert(0, "jar_form")
            self._offer_forms()
        self.fields = {name: self.fields[name] for name in asked}
        in_plain_words(self)

    def _offer_forms(self) -> None:
        found = Material.objects.seen_by(self.instance.workshop).filter(key__in=CITRIC).in_bulk_by_key()
        choices = [(key, found[key].name) for key in CITRIC if key in found]
        self.fields["jar_form"] = forms.ChoiceField(
            label=self.fields["jar_form"].label,
            help_text=self.fields["jar_form"].help_text,
            choices=[("", _("read it on the jar …")), *choices],
            initial=self.instance.material.key if self.instance.pk else "",
        )
        self._forms = found

    @property
    def plain_fields(self) -> Iterator[forms.BoundField]:
        """Yield the fields that stand in the open."""
        return (field for field in self if field.name not in titration.FIELDS)

    @property
    def titration_fields(self) -> list[forms.BoundField]:
        """Return the fields of a titration, which stand apart; none for what is not titrated."""
        return [field for field in self if field.name in titration.FIELDS]

    def clean_jar_form(self) -> str:
        key: str = self.cleaned_data["jar_form"]
        if key != self.instance.material.key and self.used_g:
            raise ValidationError(_("Batches have used this lot as the other form. Set it aside, and write a new lot."))
        self.instance.material = self._forms[key]
        return key

    def clean_code(self) -> str:
        code: str = self.cleaned_data["code"]
        twins = Lot.objects.filter(workshop=self.instance.workshop, material=self.instance.material, code=code)
        if twins.exclude(pk=self.instance.pk).exists():
            raise ValidationError(_("This material has a lot %s already. Write another, such as %s-2.") % (code, code))
        return code

    def clean_received_g(self) -> float:
        received: float = self.cleaned_data["received_g"]
        if received < self.used_g:
            raise ValidationError(_("Batches have used %g g of this lot already. Write that or more.") % self.used_g)
        return received

    def clean_saponification_value(self) -> float | None:
        value: float | None = self.cleaned_data["saponification_value"]
        if value is not None and titration.is_far(value, self.instance.material):
            sentence = _("%(value)g is far from %(low)g to %(high)g, known for this fat. Write mg KOH per g.")
            raise ValidationError(sentence % titration.known(value, self.instance.material))
        return value

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        bought, best_before = cleaned.get("bought_on"), cleaned.get("best_before")
        if bought and best_before and best_before < bought:
            self.add_error("best_before", _("This is before the day it was bought. Check both."))
        self._clean_carbonate(cleaned)
        if "sample_g" in self.fields:
            self._clean_titration(cleaned)
        return cleaned

    def _clean_carbonate(self, cleaned: dict[str, Any]) -> None:
        carbonate, purity = cleaned.get("carbonate"), cleaned.get("purity")
        if not carbonate or "purity" in self.errors:
            return
        if purity is None:
            self.add_error("purity", _("Write the purity as well: the carbonate is taken off it."))
            return
        try:
            working_purity(purity, carbonate, self.instance.material.key)
        except OutOfRange as error:
            self.add_error("carbonate", str(error))

    def _clean_titration(self, cleaned: dict[str, Any]) -> None:
        typed = {name: cleaned.get(name) for name in titration.FIELDS}
        changed = "saponification_value" in self.changed_data
        if not any(self[name].data for name in titration.FIELDS):
            self.instance.titration = "" if changed else self.instance.titration
            return
        if changed and cleaned.get("saponification_value") is not None:
            self.add_error("saponification_value", _("Write this value or your titration, not both."))
        for name, sentence in titration.complaints(typed, self.instance.material):
            if name not in self.errors:
                self.add_error(name, sentence)
        if not self.errors:
            cleaned["saponification_value"] = titration.value(typed)
            self.instance.titration = titration.words(typed)
