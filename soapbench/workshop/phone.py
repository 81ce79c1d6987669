"""The page with which a phone gets to know this machine, and the root certificate that it takes from there."""

from __future__ import annotations

import ssl
from pathlib import Path

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_safe

CERTIFICATE = "application/x-x509-ca-cert"  # what phones take for a certificate to be trusted


@login_not_required
@require_safe
@cache_control(no_cache=True)
def phone(request: HttpRequest) -> HttpResponse:
    """Show how this phone comes to the secure address; where there is none, how the machine gets one."""
    told = {
        "secure_address": settings.HOUSE_ADDRESS,
        "fingerprint": settings.ROOT_FINGERPRINT,
        "has_certificate": bool(settings.ROOT_CERTIFICATE),
        "is_secure": request.is_secure(),
    }
    return render(request, "workshop/phone.html", told)


@login_not_required
@require_safe
@cache_control(no_cache=True)
def certificate(request: HttpRequest) -> HttpResponse:
    """Return the root certificate of this machine."""
    if not settings.ROOT_CERTIFICATE:
        raise Http404
    content = ssl.PEM_cert_to_DER_cert(Path(settings.ROOT_CERTIFICATE).read_text())
    return HttpResponse(content, content_type=CERTIFICATE)
