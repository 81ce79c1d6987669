"""Who comes in: the owner at the machine itself, and phones by a signed link."""

from __future__ import annotations

from collections.abc import Callable
from ipaddress import ip_address
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.functional import SimpleLazyObject

from soapbench.workshop.models import Person

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

SALT = "soapbench.entry"
LINK_HOURS = 12
PROXY_HEADERS = ("HTTP_X_FORWARDED_FOR", "HTTP_FORWARDED", "HTTP_X_REAL_IP")
SIGNED_OUT = "signed_out"  # in the session: somebody here chose to sign out, so do not sign him in again


class OwnMachineMiddleware:
    """Take requests from the machine itself as its owner's, and give each request its workshop."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        # /healthz must be able to say that the database does not answer, so nobody is looked up for it.
        is_trusted = settings.TRUST_THIS_MACHINE and request.path != "/healthz"
        if is_trusted and is_from_this_machine(request):
            signed_in = request.user
            request.user = SimpleLazyObject(lambda: _signed_in_or_owner(request, signed_in))  # type: ignore[assignment]
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., HttpResponse], args: Any, kwargs: Any
    ) -> HttpResponse | None:
        if not getattr(view, "login_required", True):
            return None
        if not request.user.is_authenticated:
            return redirect("workshop:start") if is_first_start(request) else None
        if request.user.workshop is None:
            return render(request, "workshop/no_workshop.html", status=403)
        request.workshop = request.user.workshop  # type: ignore[attr-defined]  # see http.MakerRequest
        return None


def _signed_in_or_owner(request: HttpRequest, signed_in: Person | AnonymousUser) -> Person | AnonymousUser:
    if signed_in.is_authenticated or request.session.get(SIGNED_OUT):
        return signed_in
    owners = Person.objects.filter(is_active=True, is_owner=True).select_related("workshop")
    return owners.order_by("pk").first() or signed_in


def is_first_start(request: HttpRequest) -> bool:
    """Return whether the owner sits at the machine and nobody is known here yet."""
    return settings.TRUST_THIS_MACHINE and is_from_this_machine(request) and not Person.objects.exists()


def is_from_this_machine(request: HttpRequest) -> bool:
    """Return whether the request came over the loopback, and not through a proxy that sits there."""
    if any(name in request.META for name in PROXY_HEADERS):
        return False
    return is_loopback_address(request.META.get("REMOTE_ADDR", ""))


def is_loopback_address(address: str) -> bool:
    """Return whether an IP address means the machine itself; a name is none."""
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False


def entry_path(person: Person) -> str:
    """Return the address that signs this person in, good for LINK_HOURS or until the password changes."""
    return reverse("workshop:enter", args=[signing.dumps([person.pk, _mark(person)], salt=SALT)])


def person_of(token: str) -> Person | None:
    """Return the person whom a token lets in; None when it is too old, or not ours."""
    try:
        key, mark = signing.loads(token, salt=SALT, max_age=LINK_HOURS * 3600)
    except (signing.BadSignature, ValueError, TypeError):
        return None
    person = Person.objects.filter(pk=key, is_active=True).first()
    return person if person and mark == _mark(person) else None


def _mark(person: Person) -> str:
    """Return what changes with the password, so that a new password ends old links."""
    return person.get_session_auth_hash()[:12]
