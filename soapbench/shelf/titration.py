"""The maker's own titration of a fat, in place of the supplier's saponification value."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.science.analysis import value_from_titration
from soapbench.science.errors import OutOfRange
from soapbench.shelf.models import Material
from soapbench.workshop.fields import NumberField

FIELDS = ("sample_g", "blank_ml", "used_ml", "mol_per_l")
FARTHEST = 0.15  # of the known range, beyond which a value is taken for a slip; own choice


def fields() -> tuple[NumberField, NumberField, NumberField, NumberField]:
    """Return the fields of a titration, in the order of FIELDS; all of them or none are filled."""
    return (
        NumberField(gettext_lazy("Fat in the flask"), unit="g", above=True, most=100, required=False),
        NumberField(gettext_lazy("Acid that the blank took"), unit="ml", above=True, most=200, required=False),
        NumberField(gettext_lazy("Acid that the fat's flask took"), unit="ml", most=200, required=False),
        NumberField(gettext_lazy("Strength of the acid"), unit="mol/l", above=True, most=5, required=False),
    )


def value(typed: Mapping[str, float | None]) -> float:
    """Return the saponification value, mg KOH/g, of four figures that have no complaint."""
    sample_g, blank_ml, used_ml, mol_per_l = (typed[name] or 0.0 for name in FIELDS)
    return round(value_from_titration(sample_g, blank_ml - used_ml, mol_per_l), 1)


def words(typed: Mapping[str, float | None]) -> str:
    """Return the titration as it stays with the lot."""
    sentence = _("%(sample_g)g g of fat; blank %(blank_ml)g ml, fat %(used_ml)g ml of acid of %(mol_per_l)g mol/l")
    return sentence % typed


def complaints(typed: Mapping[str, float | None], material: Material) -> Iterator[tuple[str, str]]:
    """Yield the field and the sentence for what is wrong with the figures together."""
    missing = [name for name in FIELDS if typed[name] is None]
    if missing:
        yield from ((name, _("A titration needs all four figures. Write this one too.")) for name in missing)
        return
    if (typed["blank_ml"] or 0.0) <= (typed["used_ml"] or 0.0):
        yield "used_ml", _("The flask with the fat takes less acid than the blank. Check both.")
        return
    try:
        found = value(typed)
    except OutOfRange as error:
        yield "sample_g", str(error)
        return
    if is_far(found, material):
        sentence = _("This gives %(value)g mg KOH/g, far from %(low)g to %(high)g, known for this fat. Check it.")
        yield "sample_g", sentence % known(found, material)


def is_far(found: float, material: Material) -> bool:
    """Return whether a value is so far from the known range of the fat that it must be a slip."""
    low, high = material.sv_low, material.sv_high
    return bool(low and high) and not (1 - FARTHEST) * (low or 0) <= found <= (1 + FARTHEST) * (high or 0)


def known(found: float, material: Material) -> dict[str, float | None]:
    """Return a value and the known range, for a sentence."""
    return {"value": found, "low": material.sv_low, "high": material.sv_high}
