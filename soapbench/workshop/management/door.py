"""The plain HTTP door beside the secure address: a new phone gets to know this machine here; all else is sent on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any
from urllib.parse import quote

from django.conf import settings
from django.http.request import split_domain_port, validate_host

from soapbench.workshop.entry import PROXY_HEADERS, is_loopback_address

Environ = dict[str, Any]
Application = Callable[[Environ, Callable[..., Any]], Iterable[bytes]]

OPEN_PLACES = ("/phone/", "/static/", "/healthz")  # nothing private, nothing to type in


class Door:
    """A WSGI application in front of the app's own."""

    def __init__(self, application: Application, secure_port: int) -> None:
        self.application = application
        self.secure_port = secure_port

    def __call__(self, environ: Environ, start_response: Callable[..., Any]) -> Iterable[bytes]:
        if is_at_the_machine(environ):
            return self.application(environ, with_plain_cookies(start_response))
        if environ["REQUEST_METHOD"] in ("GET", "HEAD") and environ["PATH_INFO"].startswith(OPEN_PLACES):
            return self.application(environ, start_response)
        # For now only: a browser would keep a lasting redirect beyond the day when this port is the app's again.
        start_response("307 Temporary Redirect", [("Location", self.secure_address(environ)), ("Content-Length", "0")])
        return []

    def secure_address(self, environ: Environ) -> str:
        """Return the same page at the secure address; under the name asked for, where that is one of ours."""
        name, _port = split_domain_port(environ.get("HTTP_HOST", ""))
        if not name or not validate_host(name, settings.ALLOWED_HOSTS):
            name = str(split_domain_port(settings.HOUSE_ADDRESS.partition("//")[2].rstrip("/"))[0])
        path = quote(environ["PATH_INFO"].encode("latin-1")) or "/"
        query = f"?{quote(environ['QUERY_STRING'], safe='=&%+')}" if environ.get("QUERY_STRING") else ""
        return f"https://{name}:{self.secure_port}{path}{query}"


def is_at_the_machine(environ: Environ) -> bool:
    """Return whether the browser sits at this machine: nothing leaves it then, so the whole app may pass."""
    if any(name in environ for name in PROXY_HEADERS):
        return False
    name, _port = split_domain_port(environ.get("HTTP_HOST", ""))
    is_here = is_loopback_address(environ.get("REMOTE_ADDR", ""))
    return is_here and (name == "localhost" or is_loopback_address(name.strip("[]")))


def with_plain_cookies(start_response: Callable[..., Any]) -> Callable[..., Any]:
    """Return a start_response whose cookies need no HTTPS: some browsers would drop them at http://localhost."""

    def started(status: str, headers: list[tuple[str, str]], *more: Any) -> Any:
        return start_response(status, [(name, _plain(name, value)) for name, value in headers], *more)

    return started


def _plain(name: str, value: str) -> str:
    if name.lower() != "set-cookie":
        return value
    return ";".join(part for part in value.split(";") if part.strip().lower() != "secure")
