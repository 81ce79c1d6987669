"""Signing in, with a limit to how often a password is tried; the workshop and its people."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from soapbench.workshop import throttle
from soapbench.workshop.fields import NumberField, PlainForm
from soapbench.workshop.models import Person, Workshop

WRONG = _("This name and this password do not belong together. Check both; capitals count.")
TOO_OFTEN = _("Too many tries. Wait ten minutes, then try again.")


class SignInForm(AuthenticationForm):
    error_messages = {"invalid_login": WRONG, "inactive": WRONG}

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["username"].label = _("Your name for signing in")

    def clean(self) -> dict[str, Any]:
        address = self.request.META.get("REMOTE_ADDR", "") if self.request else ""
        if not throttle.may_try_password(self.cleaned_data.get("username") or "", address):
            raise ValidationError(TOO_OFTEN, code="too often")
        return super().clean()


class WorkshopForm(PlainForm[Workshop]):
    """What must be known before the first batch: the numbers to call, and the usual room."""

    room_temperature_c = NumberField(_("Usual room temperature"), unit="°C", least=5, most=40)

    class Meta:
        model = Workshop
        fields = ("name", "emergency_number", "poison_centre_number", "hospital", "room_temperature_c")
        help_texts = {
            "emergency_number": _("Shown with every batch. Try it out in your head: what would you say?"),
            "poison_centre_number": _("For lye in an eye, on skin or swallowed. Look yours up now."),
        }

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        for name in ("emergency_number", "poison_centre_number"):
            self.fields[name].required = True


class StartForm(WorkshopForm):
    """The first start: the workshop and its owner."""

    your_name = forms.CharField(label=_("Your name"), max_length=80, help_text=_("It signs the batches that you make."))
    room_temperature_c = NumberField(_("Usual room temperature"), unit="°C", least=5, most=40, initial=20)


class PersonForm(PlainForm[Person]):
    """Somebody who works here. Comes in by a signed link, or by name and password if one is given."""

    password = forms.CharField(
        label=_("Password"),
        required=False,
        min_length=8,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("Eight letters or more. Left empty, the old one stays, or only the signed link lets in."),
    )

    class Meta:
        model = Person
        fields = ("first_name", "last_name", "username", "caustic_training_on", "is_active")
        labels = {
            "username": _("Name for signing in"),
            "first_name": _("First name"),
            "last_name": _("Last name"),
            "is_active": _("Works here now"),
        }
        help_texts = {"username": _("Short, without blanks."), "is_active": ""}
        widgets = {"caustic_training_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")}

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["first_name"].required = True
        self.fields["username"].error_messages["unique"] = _("Somebody signs in by this name. Choose another.")
        self.fields["caustic_training_on"].error_messages["invalid"] = _("This is not a day. Write it as 2026-11-25.")

    def clean_is_active(self) -> bool:
        if self.instance.is_owner and not self.cleaned_data["is_active"]:
            raise ValidationError(_("The owner stays, or nobody could come in."))
        return bool(self.cleaned_data["is_active"])

    def save(self, commit: bool = True) -> Person:
        if self.cleaned_data["password"]:
            self.instance.set_password(self.cleaned_data["password"])
        elif not self.instance.pk:
            self.instance.set_unusable_password()
        return super().save(commit)
