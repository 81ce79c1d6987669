"""The names in the reference data and the words that documents keep: each is translated in a context of its own."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings

# Table, column, context.
COLUMNS = (
    ("fats.csv", "name", "material"),
    ("fats.csv", "notes", "notes"),
    ("materials.csv", "name", "material"),
    ("materials.csv", "handling", "handling"),
)
# What formulas and plans keep in English and a sentence says: context, words.
KEPT = (
    (
        "drawing",
        "zigzag|lengthwise zigzag|figure eights|spiral|s curve|round the edge|lifted loops|down and up|none",
    ),
    ("cut", "slices|blocks on their sides|long planks|rounds|cavities"),
    ("trace", "emulsion|thin|medium|thick|Emulsion|Thin|Medium|Thick"),
    ("hot sign", "honey|milk|sugar|beer"),
)


def words_of_reference() -> Iterator[tuple[str, str, str]]:
    """Return context, word and place of each."""
    for table, column, context in COLUMNS:
        with Path(settings.FIXTURES_DIR, table).open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                if row[column]:
                    yield context, row[column], f"fixtures/{table}"
    place = Path(__file__).relative_to(settings.BASE_DIR).as_posix()
    for context, words in KEPT:
        yield from ((context, word, place) for word in words.split("|"))
