"""The page of every number and formula in use, with its source."""

from __future__ import annotations

from django.db.models import Count
from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from soapbench.science import sources
from soapbench.shelf.models import FattyAcidShare, Material
from soapbench.shelf.reference import FAT_EXPANSION
from soapbench.workshop.http import MakerRequest


@require_GET
def numbers(request: MakerRequest) -> HttpResponse:
    """Show the constants and formulas as the code declares them, and the sources of the reference tables."""
    constants, relations = sources.everything()
    tables = Material.objects.filter(workshop=None).values("kind", "source", "confidence").annotate(count=Count("pk"))
    shares = FattyAcidShare.objects.filter(material__workshop=None).values("source").annotate(count=Count("pk"))
    page = {
        "constants": (*constants, FAT_EXPANSION),
        "relations": relations,
        "tables": tables.order_by("kind", "source", "confidence"),
        "shares": shares.order_by("source"),
    }
    return render(request, "workshop/numbers.html", page)
