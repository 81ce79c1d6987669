"""What people see when something cannot be answered. None of it asks the database or the session."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    return HttpResponse(render_to_string("400.html"), status=400)


def refused(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    return HttpResponse(render_to_string("403.html"), status=403)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    return HttpResponse(render_to_string("404.html"), status=404)


def broken(request: HttpRequest) -> HttpResponse:
    return HttpResponse(render_to_string("500.html"), status=500)
