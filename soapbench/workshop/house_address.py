"""The address under which others on the network reach this machine."""

from __future__ import annotations

from urllib.parse import urljoin

from django.conf import settings
from django.http import HttpRequest
from django.http.request import split_domain_port

from soapbench.workshop.entry import is_loopback_address


def absolute(request: HttpRequest, path: str) -> str:
    """Return the address of a page for another device: `localhost` would mean that device itself there."""
    if settings.HOUSE_ADDRESS and is_loopback(request):
        return urljoin(settings.HOUSE_ADDRESS, path)
    return request.build_absolute_uri(path)


def is_loopback(request: HttpRequest) -> bool:
    """Return whether the page was asked for under a name that means the asking machine itself."""
    name, _port = split_domain_port(request.get_host())
    return name == "localhost" or is_loopback_address(name.strip("[]"))
