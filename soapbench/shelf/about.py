"""What the sums say of one material: how carefully it counts, whether its figures agree, spoons, limited parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, cast

from django.utils.translation import gettext as _

from soapbench.science.doses import spoon_to_g
from soapbench.science.errors import OutOfRange
from soapbench.science.fats import Fat, Kind, careful_note
from soapbench.science.profile import FatProfile
from soapbench.science.profile_check import PublishedFat, compare_values
from soapbench.science.profile_words import Comparison
from soapbench.science.restricted import largest_share_of_oil, strictest_limit
from soapbench.shelf.models import AllergenShare, Lot, Material
from soapbench.shelf.pages import LotLine

TEASPOON_ML, TABLESPOON_ML = 5.0, 15.0  # level measuring spoons


@dataclass(frozen=True)
class Spoons:
    """Grams in a level teaspoon and tablespoon, and the warning beside them; None where no density is stated."""

    teaspoon_g: float | None
    tablespoon_g: float | None
    warning: str


def about_material(row: Material, lots: Sequence[LotLine]) -> dict[str, Any]:
    """Return what the page of a material tells beside its own columns; its shares are fetched already."""
    in_use = next((line.lot for line in lots if line.lot.status == Lot.Status.USABLE and line.left_g > 0), None)
    return {
        "careful": careful_words(row, in_use),
        "comparisons": comparisons(row),
        "spoons": None if row.kind == Material.Kind.ALKALI else spoons(row.density_g_per_ml),
        "limits": list(limit_words(row.allergens.all())),
    }


def careful_words(row: Material, lot: Lot | None) -> str:
    """Return why this fat is not counted in full, or nothing for one that is."""
    if row.kind != Material.Kind.FAT:
        return ""
    try:
        note = careful_note(Fat(row.name, 0.0, row.sv_low or 0.0, row.sv_high or 0.0, kind=_fat_kind(row)))
    except OutOfRange as error:
        return str(error)
    if note and lot and lot.saponification_value and row.fat_kind == Material.FatKind.TRIGLYCERIDE:
        own = {"lot": lot.code, "value": lot.saponification_value}
        return _("%(name)s varies a lot, but lot %(lot)s brings its own value: %(value)g mg KOH/g counts.") % {
            "name": row.name,
            **own,
        }
    return note or ""


def comparisons(row: Material) -> tuple[Comparison, ...]:
    """Return how the values that follow from the fatty acids stand to the published ones; none where none is known."""
    acids = {share.acid: (share.percent_low, share.percent_high) for share in row.fatty_acids.all()}
    if row.kind != Material.Kind.FAT or not acids:
        return ()
    try:
        profile = FatProfile(row.name, 100.0, acids, _fat_kind(row))
        fat = PublishedFat(profile, _ends(row.sv_low, row.sv_high), _ends(row.iodine_low, row.iodine_high))
        return compare_values([fat])
    except OutOfRange:
        return ()  # the sentence on the fat itself says what is wrong


def spoons(density_g_per_ml: float | None) -> Spoons:
    """Return what a level teaspoon and a level tablespoon of it weigh, or why nobody can tell."""
    try:
        small, large = (spoon_to_g(1, ml, density_g_per_ml) for ml in (TEASPOON_ML, TABLESPOON_ML))
    except OutOfRange as error:
        return Spoons(None, None, str(error))
    return Spoons(small.grams, large.grams, small.warning)


def limit_words(shares: Iterable[AllergenShare]) -> Iterator[str]:
    """Yield a sentence for each part of a scent that has a limit of its own in the bar."""
    for share in shares:
        limit = strictest_limit(share.name)
        if limit is None or not share.percent_high:
            continue
        most = largest_share_of_oil(share.name, share.percent_high / 100)
        yield _("%(name)s: %(limit)g %% of the bar at most (%(source)s, %(trust)s). %(most)s") % {
            "name": share.name,
            "limit": limit.max_percent,
            "source": limit.source,
            "trust": limit.confidence,
            "most": _most_words(share.percent_high, most),
        }


def _most_words(high: float, most: float) -> str:
    if most >= 100:
        return _("With %(high)g %% of it at most, this scent alone never reaches that.") % {"high": high}
    shares = {"high": high, "most": int(most * 1000) / 1000}  # cut off, never rounded up
    return _("With %(high)g %% of it at most, that is %(most)g %% of this scent, if no other brings any.") % shares


def _fat_kind(row: Material) -> Kind:
    return cast(Kind, row.fat_kind or Material.FatKind.TRIGLYCERIDE.value)


def _ends(low: float | None, high: float | None) -> tuple[float, float] | None:
    return None if low is None or high is None else (low, high)
