"""The page of every number and formula in use, with its source."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from django.db.models import Count
from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from soapbench.science import sources
from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material
from soapbench.shelf.reference import FAT_EXPANSION
from soapbench.workshop.http import MakerRequest


@require_GET
def numbers(request: MakerRequest) -> HttpResponse:
    """Show the constants, tables and formulas as the code declares them, and the sources of the reference tables."""
    chapters = sources.chapters()
    materials = Material.objects.filter(workshop=None)
    shares = FattyAcidShare.objects.filter(material__workshop=None)
    allergens = AllergenShare.objects.filter(material__workshop=None)
    limits = materials.filter(limit_percent__isnull=False)
    page = {
        "chapters": chapters,
        "trust": trust(chapters),
        "expansion": FAT_EXPANSION,
        "materials": materials.values("kind", "source", "confidence")
        .annotate(count=Count("pk"))
        .order_by("kind", "source", "confidence"),
        "limits": limits.values("limit_source", "limit_confidence")
        .annotate(count=Count("pk"))
        .order_by("limit_source"),
        "shares": shares.values("source").annotate(count=Count("pk")).order_by("source"),
        "allergens": allergens.values("source", "confidence").annotate(count=Count("pk")).order_by("source"),
    }
    return render(request, "workshop/numbers.html", page)


def trust(chapters: Iterable[sources.Chapter]) -> list[tuple[str, int]]:
    """Return how many figures, tables and formulas rest on what, the surest kind of source first."""
    found = Counter(source.confidence for chapter in chapters for source in chapter.sources)
    return [(confidence, found[confidence]) for confidence in sources.SUREST_FIRST if found[confidence]]
