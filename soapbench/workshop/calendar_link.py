"""The private calendar address of a person: made, renewed, revoked, looked up, and the page for that."""

from __future__ import annotations

from secrets import compare_digest
from urllib.parse import urlsplit

from django.conf import settings
from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from soapbench.workshop.house_address import absolute
from soapbench.workshop.http import MakerRequest
from soapbench.workshop.models import CalendarLink, Person, new_calendar_token


def person_of(token: str) -> Person | None:
    """Return whose calendar this token is; None for one that was revoked, renewed or never made, or who has left."""
    link = CalendarLink.objects.select_related("person__workshop").filter(token=token).first()
    # Some databases compare text without regard to capitals, so what was found is compared once more.
    if link is None or not compare_digest(link.token, token):
        return None
    person = link.person
    return person if person.is_active and person.workshop_id else None


@transaction.atomic
def renew(person: Person) -> CalendarLink:
    """Give a person a new address; the one before ends with this."""
    fresh = {"token": new_calendar_token(), "made_at": timezone.now()}
    link, _made = CalendarLink.objects.update_or_create(person=person, defaults=fresh)
    return link


def revoke(person: Person) -> None:
    """End the address of a person."""
    CalendarLink.objects.filter(person=person).delete()


def subscribe_address(address: str) -> str:
    """Return the address with the scheme that opens the calendar of a phone or a computer.

    webcal means HTTP on its usual port or what a proxy makes of it; HTTPS on a port of its own needs webcals.
    """
    parts = urlsplit(address)
    scheme = "webcals" if parts.scheme == "https" and parts.port else "webcal"
    return parts._replace(scheme=scheme).geturl()


@require_http_methods(["GET", "POST"])
def calendar(request: MakerRequest) -> HttpResponse:
    """Show the person's own calendar address; a POST makes, renews or revokes it."""
    if request.method == "POST":
        return _changed(request)
    link = CalendarLink.objects.filter(person=request.user).first()
    return render(request, "workshop/calendar.html", {"link": link, **(_told(request, link) if link else {})})


def _changed(request: MakerRequest) -> HttpResponse:
    if request.POST.get("act") == "revoke":
        revoke(request.user)
        messages.success(request, _("The address is gone. Calendars that used it get nothing more."))
    else:
        renew(request.user)
        messages.success(request, _("Here is a new address. Any earlier one is gone."))
    return redirect("workshop:calendar")


def _told(request: HttpRequest, link: CalendarLink) -> dict[str, object]:
    import segno  # only this page draws a code

    address = absolute(request, reverse("rack:feed", args=[link.token]))
    subscribe = subscribe_address(address)
    drawing = segno.make(subscribe, error="m", micro=False)
    return {
        "address": address,
        "subscribe": subscribe,
        "needs_root": bool(settings.ROOT_CERTIFICATE),
        "code": drawing.svg_inline(omitsize=True, border=4),
    }
