"""The reference materials: from the tables in fixtures/ into the database, as often as you like."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction

from soapbench.science.sources import FROM_MEMORY, Constant
from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material

BATTER_C = 40.0  # densities are carried to the temperature of a usual batter
FAT_EXPANSION = Constant(
    "Loss of a fat's density with heat", "β", 0.00065, "g/ml per °C", FROM_MEMORY, "shelf.reference.density_at_batter"
)
# Kell 1975, as tables of the density of water print it.
WATER_DENSITY = {"": 1.0, "15": 0.9991, "15.5": 0.9990, "20": 0.9982, "25": 0.9970, "30": 0.9957}
NUMBERS = (
    "sv_low", "sv_high", "iodine_low", "iodine_high", "melts_at_c", "density_g_per_ml", "purity", "limit_percent",
    "flash_point_c",
)  # fmt: skip
WORDS = (
    "key", "kind", "name", "inci", "inci_us", "inci_saponified", "ci_number", "fat_kind", "state", "limit_source",
    "limit_confidence", "swatch", "handling", "notes", "source", "locator", "confidence",
)  # fmt: skip
FIELDS = (*WORDS, *NUMBERS, "takes_koh_mg_per_g", "water_fraction")


def rows(name: str) -> Iterator[dict[str, str]]:
    """Yield the rows of one table of fixtures/."""
    with (Path(settings.FIXTURES_DIR) / name).open(newline="", encoding="utf-8") as file:
        yield from csv.DictReader(file)


@transaction.atomic
def load() -> int:
    """Write every reference material as the tables have it now; return how many there are."""
    known = dict(Material.objects.filter(workshop=None).values_list("key", "pk"))
    materials = [Material(pk=known.get(columns["key"]), **columns) for columns in _columns()]
    Material.objects.bulk_update([row for row in materials if row.pk], FIELDS)
    Material.objects.bulk_create([row for row in materials if not row.pk])
    keys = dict(Material.objects.filter(workshop=None).values_list("key", "pk"))
    _load_fatty_acids(keys)
    _load_allergens(keys)
    return len(materials)


def _columns() -> Iterator[dict[str, Any]]:
    for row in rows("fats.csv"):
        yield {
            **_plain({**row, "kind": Material.Kind.FAT}),
            "inci_us": row["inci"],
            "density_g_per_ml": density_at_batter(row),
        }
    for row in rows("materials.csv"):
        yield _plain(row)


def _plain(row: Mapping[str, str]) -> dict[str, Any]:
    words = {name: row.get(name, "") for name in WORDS}
    numbers = {name: _number(row.get(name, "")) for name in NUMBERS}
    share = _number(row.get("water_fraction", ""))
    return {
        **words,
        **numbers,
        "takes_koh_mg_per_g": _number(row.get("takes_koh_mg_per_g", "")) or 0.0,
        "water_fraction": 1.0 if share is None else share,
    }


def _number(text: str) -> float | None:
    return float(text) if text else None


def density_at_batter(row: Mapping[str, str]) -> float | None:
    """Return the middle of the printed densities in g/ml, carried to BATTER_C; None where none is printed.

    Printed ones are relative to water at the temperature of column water_at_c; empty means g/ml already.
    """
    if not row["density_low"]:
        return None
    printed = (float(row["density_low"]) + float(row["density_high"])) / 2
    density = printed * WATER_DENSITY[row["water_at_c"]]
    return round(density - FAT_EXPANSION.value * (BATTER_C - float(row["density_at_c"])), 4)


def _load_fatty_acids(keys: Mapping[str, int]) -> None:
    FattyAcidShare.objects.filter(material__workshop=None).delete()
    FattyAcidShare.objects.bulk_create(
        FattyAcidShare(
            material_id=keys[row["fat"]],
            acid=row["acid"],
            percent_low=float(row["percent_low"]),
            percent_high=float(row["percent_high"]),
            source=row["source"],
            locator=row["locator"],
        )
        for row in rows("fatty_acids.csv")
    )


def _load_allergens(keys: Mapping[str, int]) -> None:
    AllergenShare.objects.filter(material__workshop=None).delete()
    AllergenShare.objects.bulk_create(
        AllergenShare(
            material_id=keys[row["scent"]],
            name=row["allergen"],
            cas=row["cas"],
            percent_low=float(row["percent_low"]),
            percent_high=float(row["percent_high"]),
            source=row["source"],
            confidence=row["confidence"],
            is_listed=row["listed"] == "yes",
        )
        for row in rows("allergens.csv")
    )
