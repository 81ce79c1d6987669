"""Form fields that forgive a decimal comma and refuse the rest in a plain sentence."""

from __future__ import annotations

import math
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.formula import LETTERS

HUGE = 1_000_000.0


class NumberField(forms.Field):
    """A number in one fixed unit, typed with a decimal comma or point."""

    def __init__(
        self, label: Any, *, unit: Any = "", least: float = 0.0, most: float = HUGE, above: bool = False, **more: Any
    ) -> None:
        self.unit, self.least, self.most, self.above = unit, least, most, above
        widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off", "size": 8})
        super().__init__(label=label, widget=widget, **more)
        self.error_messages["required"] = gettext_lazy("Write a number here.")

    def to_python(self, value: Any) -> float | None:
        """Return the number.

        Raises:
            ValidationError: it is none, or carries a unit.
        """
        text = str(value or "").strip() if not isinstance(value, (int, float)) else repr(value)
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
            return _("“%(text)s” is not a plain number. Write the number alone; it is in %(unit)s.") % {
                "text": text[:20],
                "unit": self.unit,
            }
        return _("“%(text)s” is not a plain number. Write digits only, such as 12.5.") % {"text": text[:20]}

    def validate(self, value: float | None) -> None:
        super().validate(value)
        if value is None:
            return
        if value < self.least or (self.above and value <= self.least):
            wanted = _("more than %g") if self.above else _("%g or more")
            raise ValidationError(_("Write %s here.") % (wanted % self.least), code="too small")
        if value > self.most:
            raise ValidationError(
                _("%(value)g is too much. Write %(most)g or less.") % {"value": value, "most": self.most}
            )


def spelt(number: float) -> str:
    """Return a number as it is typed: no trailing zeros, no exponent for what people type."""
    return f"{number:.10g}"


class OneOf(forms.ChoiceField):
    """One of a list; anything else is refused in words."""

    def __init__(self, label: Any, choices: Any = (), **more: Any) -> None:
        self.unit = ""
        super().__init__(label=label, choices=choices, **more)
        self.error_messages["required"] = gettext_lazy("Choose one from the list.")
        self.error_messages["invalid_choice"] = gettext_lazy("This is not in your workshop. Choose one from the list.")


class Words(forms.CharField):
    """A short text."""

    def __init__(self, label: Any, most: int = 80, **more: Any) -> None:
        self.unit = ""
        super().__init__(label=label, max_length=most, **more)
        self.error_messages["required"] = gettext_lazy("Write something here.")
        self.error_messages["max_length"] = gettext_lazy("Make this shorter: %(limit_value)d letters at most.")


class Tick(forms.BooleanField):
    def __init__(self, label: Any, **more: Any) -> None:
        self.unit = ""
        super().__init__(label=label, required=False, **more)


class LettersField(Words):
    """Portion letters in the order in which they are poured, such as A B A."""

    def to_python(self, value: Any) -> Any:
        letters = tuple(str(value or "").upper().replace(",", " ").replace(" ", ""))
        if any(letter not in LETTERS for letter in letters):
            raise ValidationError(_("Write the letters of portions in their order, such as A B."), code="invalid")
        return letters
