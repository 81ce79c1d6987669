"""Form fields that forgive a decimal comma and refuse the rest in a plain sentence."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, TypeVar

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Model
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

HUGE = 1_000_000.0
NEEDED = gettext_lazy("This is needed. Fill it in.")


class NumberField(forms.Field):
    """A number in one fixed unit, typed with a decimal comma or point."""

    def __init__(
        self, label: Any, *, unit: Any = "", least: float = 0.0, most: float = HUGE, above: bool = False, **more: Any
    ) -> None:
        self.unit, self.least, self.most, self.above = unit, least, most, above
        widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off", "size": 8})
        super().__init__(label=label, widget=widget, **more)
        self.error_messages["required"] = gettext_lazy("Write a number here.")

    def prepare_value(self, value: Any) -> Any:
        return f"{value:.10g}" if isinstance(value, (int, float)) else value

    def to_python(self, value: Any) -> float | None:
        """Return the number.

        Raises:
            ValidationError: it is none, or carries a unit.
        """
        text = str(value or "").strip()
        if not text:
            return None
        try:
            number = float(text.replace("−", "-").replace(",", "."))
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            raise ValidationError(self._not_plain(text), code="invalid")
        return number

    def _not_plain(self, text: str) -> str:
        if self.unit:
            sentence = _("“%(text)s” is not a plain number. Write the number alone; it is in %(unit)s.")
            return sentence % {"text": text[:20], "unit": self.unit}
        return _("“%(text)s” is not a plain number. Write digits only, such as 12.5.") % {"text": text[:20]}

    def validate(self, value: float | None) -> None:
        super().validate(value)
        if value is None:
            return
        if value < self.least or (self.above and value <= self.least):
            wanted = _("more than %(least)g") if self.above else _("%(least)g or more")
            raise ValidationError(_("Write %s here.") % (wanted % {"least": self.least}), code="too small")
        if value > self.most:
            sentence = _("%(value)g is too much. Write %(most)g or less.")
            raise ValidationError(sentence % {"value": value, "most": self.most}, code="too much")


class PercentField(NumberField):
    """A share that is typed in per cent and kept as a fraction."""

    def __init__(self, label: Any, **more: Any) -> None:
        super().__init__(label, unit="%", **{"most": 100.0, **more})

    def prepare_value(self, value: Any) -> Any:
        return f"{value * 100:.6g}" if isinstance(value, (int, float)) else value

    def clean(self, value: Any) -> float | None:
        percent = super().clean(value)
        return None if percent is None else percent / 100

    def has_changed(self, initial: Any, data: Any) -> bool:
        return super().has_changed(self.prepare_value(initial), data)


class DateField(forms.DateField):
    """A day, by the device's own calendar."""

    def __init__(self, label: Any, **more: Any) -> None:
        widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        super().__init__(label=label, widget=widget, required=False, **more)
        self.error_messages["invalid"] = gettext_lazy("This is not a day. Write it as 2026-11-25.")


def in_plain_words(form: forms.BaseForm) -> None:
    """Give every field of a form the sentences of this app for what is missing, too long or not in the list."""
    for field in form.fields.values():
        if not isinstance(field, NumberField):
            field.error_messages["required"] = NEEDED
        if isinstance(field, forms.ChoiceField):
            field.error_messages["invalid_choice"] = gettext_lazy("Choose one from the list.")


_Row = TypeVar("_Row", bound=Model)

if TYPE_CHECKING:
    _ModelForm = forms.ModelForm
else:

    class _ModelForm(forms.ModelForm):
        def __class_getitem__(cls, row: type) -> type:
            return cls  # Django's own form takes no type in brackets


class PlainForm(_ModelForm[_Row]):
    """A form of one row whose refusals are this app's own sentences."""

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        in_plain_words(self)


def free_key(name: str, taken: set[str], between: str = "-") -> str:
    """Return a word for a thing's name that is not taken yet."""
    stem = slugify(name)[:50].replace("-", between) or "own"
    numbered = (f"{stem}{between}{number}" for number in range(2, len(taken) + 3))
    return stem if stem not in taken else next(key for key in numbered if key not in taken)
