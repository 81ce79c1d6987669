"""Signing in, with a limit to how often a password is tried."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.forms import AuthenticationForm
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from soapbench.workshop import throttle

WRONG = _("This name and this password do not belong together. Check both; capitals count.")
TOO_OFTEN = _("Too many tries. Wait ten minutes, then try again.")


class SignInForm(AuthenticationForm):
    error_messages = {"invalid_login": WRONG, "inactive": WRONG}

    def clean(self) -> dict[str, Any]:
        address = self.request.META.get("REMOTE_ADDR", "") if self.request else ""
        if not throttle.may_try_password(self.cleaned_data.get("username") or "", address):
            raise ValidationError(TOO_OFTEN, code="too often")
        return super().clean()
