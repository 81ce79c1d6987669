"""What every page knows: the workshop, the release, the five places."""

from __future__ import annotations

from functools import cache
from importlib import metadata
from typing import Any

from django.conf import settings
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

# Key, address name, word.
PLACES = (
    ("shelf", "shelf:home", _("Shelf")),
    ("bars", "bars:home", _("Bars")),
    ("bench", "bench:home", _("Bench")),
    ("rack", "rack:home", _("Rack")),
    ("logbook", "logbook:home", _("Logbook")),
)


def house(request: HttpRequest) -> dict[str, Any]:
    match = request.resolver_match
    return {
        "workshop": getattr(request, "workshop", None),
        "places": PLACES,
        "place": match.namespace if match else "",
        "release": release(),
        "csrf_cookie": settings.CSRF_COOKIE_NAME,  # the bench sends with what the cookie says at that moment
    }


@cache
def release() -> str:
    """Return the version of this app, or nothing where it runs from an unpacked folder."""
    try:
        return metadata.version("soapbench")
    except metadata.PackageNotFoundError:
        return ""
