"""What the decorators and middleware of this app guarantee about a request."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import HttpRequest

if TYPE_CHECKING:
    from django_htmx.middleware import HtmxDetails

    from soapbench.workshop.models import Person, Workshop


class MakerRequest(HttpRequest):
    """A request by a signed-in person; `user.workshop` is set (see entry.OwnMachineMiddleware)."""

    user: Person
    htmx: HtmxDetails
    workshop: Workshop
