"""What lets the app start without a network: the service worker, the manifest, the page for whatever is not kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles.finders import get_finders
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.cache import cache_control
from django.views.decorators.http import require_GET

from soapbench.static import gathered
from soapbench.workshop.context import release

KEPT_SUFFIXES = (".css", ".js", ".svg", ".png")
WORKER = "js/offline/worker.js"
REMOVER = "js/offline/remover.js"
ICONS = (("any", 192), ("any", 512), ("maskable", 512), ("monochrome", 512))


@cache
def shell() -> tuple[str, ...]:
    """Return the addresses of every file that a page of the app may ask for, hashes in their names."""
    wanted = set(_static_files()) - gathered()
    return tuple(static(path) for path in sorted(wanted) if path.endswith(KEPT_SUFFIXES))


def _static_files() -> Iterator[str]:
    for finder in get_finders():
        for path, _storage in finder.list([]):
            yield Path(path).as_posix()


@cache
def edition() -> str:
    """Return what names this very state of the app: its version, and a digest of its files and templates.

    Pages and files of two editions never mix in a kept page.
    """
    digest = sha256("\n".join(shell()).encode())
    for path in sorted(Path(settings.BASE_DIR, "templates").rglob("*.html")):
        digest.update(path.read_bytes())
    return f"{release() or '0'}-{digest.hexdigest()[:12]}"


class EditionMiddleware:
    """Say in the head of every page which edition made it, so that a worker keeps none of another's."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if response.headers.get("Content-Type", "").startswith("text/html"):
            response.headers["X-Soapbench-Edition"] = edition()
        return response


@login_not_required
@require_GET
@cache_control(no_cache=True)
def worker(request: HttpRequest) -> HttpResponse:
    """Return the service worker of this edition; where offline work is off, one that takes every earlier one away."""
    script = WORKER if settings.OFFLINE else REMOVER
    told = {"edition": edition(), "shell": shell(), "fallback": reverse("offline"), "kept": "/bench/kept/"}
    lines = (f"self.SOAPBENCH = {msgspec.json.encode(told).decode()};", f'importScripts("{static(script)}");')
    return HttpResponse("\n".join(lines), content_type="text/javascript")


@login_not_required
@require_GET
@cache_control(no_cache=True)
def manifest(request: HttpRequest) -> JsonResponse:
    """Return the web app manifest."""
    document = {
        "id": "/",
        "name": "soapbench",
        "short_name": "soapbench",
        "description": _("A batch of soap from its formula to a record that can be trusted."),
        "lang": settings.LANGUAGE_CODE,
        "start_url": "/?start",
        "scope": "/",
        "display": "standalone",
        "orientation": "any",
        "theme_color": "#f7f5ef",
        "background_color": "#f7f5ef",
        "categories": ["productivity", "business"],
        "icons": [_icon(purpose, size) for purpose, size in ICONS],
        "shortcuts": [
            _shortcut(_("The running batch"), "/?start"),
            _shortcut(_("Rack"), reverse("rack:home")),
            _shortcut(_("Logbook"), reverse("logbook:home")),
        ],
    }
    return JsonResponse(document, content_type="application/manifest+json")


def _icon(purpose: str, size: int) -> dict[str, str]:
    source = static(f"img/icon-{purpose}-{size}.png")
    return {"src": source, "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}


def _shortcut(name: str, url: str) -> dict[str, Any]:
    return {"name": name, "url": url, "icons": [_icon("any", 192)]}


@login_not_required
@require_GET
def fallback(request: HttpRequest) -> HttpResponse:
    """Show what a phone without a network shows for a page that it does not keep."""
    return render(request, "workshop/offline.html")
