"""Putting a material of one's own on the shelf."""

from __future__ import annotations

from django.db import transaction

from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material
from soapbench.workshop.fields import free_key
from soapbench.workshop.models import Workshop


@transaction.atomic
def put_on_shelf(material: Material, workshop: Workshop, like: Material | None = None) -> Material:
    """Save a new material of the workshop's own.

    With `like`, it takes the place of that reference material in every bar: the same key, and its
    fatty acids and allergens, which the form does not ask.
    """
    taken = set(Material.objects.seen_by(workshop).values_list("key", flat=True))
    material.workshop = workshop
    material.key = like.key if like else free_key(material.name, taken, "_")
    material.save()
    if like:
        _copy_shares(like, material)
    return material


def _copy_shares(like: Material, material: Material) -> None:
    acids = list(like.fatty_acids.all())
    allergens = list(like.allergens.all())
    for acid in acids:
        acid.pk, acid.material = None, material
    for allergen in allergens:
        allergen.pk, allergen.material = None, material
    FattyAcidShare.objects.bulk_create(acids)
    AllergenShare.objects.bulk_create(allergens)
