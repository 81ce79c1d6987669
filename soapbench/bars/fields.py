"""Form fields of a formula, each with its own sentence for what it refuses."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.formula import LETTERS


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
