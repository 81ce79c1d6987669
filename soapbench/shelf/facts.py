"""What the sums need to know of a material, as plain data that a plan can freeze."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.db.models import F

from soapbench.science.words import say, word
from soapbench.shelf.models import Confidence, Lot, Material

if TYPE_CHECKING:
    from soapbench.workshop.models import Workshop

NOTHING_USED: Mapping[int, float] = {}
STAND_IN_KINDS = (Material.Kind.FAT, Material.Kind.COLOURANT, Material.Kind.SCENT)


@dataclass(frozen=True)
class MaterialFacts:
    """One material as it stands on this workshop's shelf, the chosen lot's own figures applied."""

    key: str
    name: str
    kind: str  # Material.Kind
    inci: str = ""
    inci_us: str = ""
    inci_saponified: str = ""
    ci_number: str = ""
    fat_kind: str = "triglyceride"
    state: str = ""
    sv_low: float = 0.0
    sv_high: float = 0.0
    sv_own: float | None = None  # from the lot's paper; wins over the range
    iodine_low: float = 0.0
    iodine_high: float = 0.0
    fatty_acids: dict[str, tuple[float, float]] | None = None
    melts_at_c: float | None = None
    takes_koh_mg_per_g: float = 0.0
    density_g_per_ml: float | None = None
    purity: float | None = None  # what works of it: carbonate taken off
    purity_is_stated: bool = False  # on the paper of the lot
    water_fraction: float = 1.0
    limit_percent: float | None = None
    limit_source: str = ""
    limit_confidence: str = ""
    allergens: dict[str, tuple[float, float]] | None = None  # of a scent, in per cent of it
    parts: dict[str, float] | None = None  # the most of each known substance in a scent, allergen or not, in per cent
    working_minutes: float | None = None
    flash_point_c: float | None = None
    swatch: str = ""
    handling: str = ""
    confidence: str = "published"
    source: str = ""
    lot: int | None = None  # primary key of the lot to weigh from
    lot_code: str = ""
    left_g: float | None = None  # bought less weighed out, over all usable lots; None when no lot is kept


def facts_for(
    workshop: Workshop, keys: Iterable[str], used_g: Mapping[int, float] = NOTHING_USED
) -> dict[str, MaterialFacts]:
    """Return the facts of the named materials, in four queries however many they are.

    The workshop's own material wins over a reference one of the same key. Figures of the oldest
    usable lot that still holds something win over the material's. Unknown keys are left out.

    Args:
        used_g: grams weighed out so far, by primary key of the lot.
    """
    wanted = set(keys)
    lots = _usable_lots(workshop, wanted)
    materials = Material.objects.seen_by(workshop).filter(key__in=wanted).prefetch_related("fatty_acids", "allergens")
    return {key: _facts(row, lots.get(key, []), used_g) for key, row in materials.in_bulk_by_key().items()}


def stand_ins_for(workshop: Workshop, used_g: Mapping[int, float] = NOTHING_USED) -> dict[str, MaterialFacts]:
    """Return the fats, colourants and scents of which this workshop has something left."""
    usable = Lot.objects.seen_by(workshop).usable().filter(material__kind__in=STAND_IN_KINDS)
    found = facts_for(workshop, usable.values_list("material__key", flat=True).distinct(), used_g)
    return {key: facts for key, facts in found.items() if facts.left_g}


def left_in(lot: Lot, used_g: Mapping[int, float]) -> float:
    """Return the grams that a lot still holds; never below zero."""
    return max(0.0, lot.received_g - used_g.get(lot.pk, 0.0))


def _usable_lots(workshop: Workshop, keys: Iterable[str]) -> Mapping[str, list[Lot]]:
    lots: defaultdict[str, list[Lot]] = defaultdict(list)
    found = Lot.objects.seen_by(workshop).usable().filter(material__key__in=keys).select_related("material")
    for lot in found.order_by(F("bought_on").asc(nulls_last=True), "pk"):
        lots[lot.material.key].append(lot)
    return lots


def _facts(row: Material, lots: list[Lot], used_g: Mapping[int, float]) -> MaterialFacts:
    lot = next((lot for lot in lots if left_in(lot, used_g) > 0), lots[0] if lots else None)
    shares = row.allergens.all()
    return MaterialFacts(
        key=row.key,
        name=word("material", row.name),
        kind=row.kind,
        inci=row.inci,
        inci_us=row.inci_us,
        inci_saponified=row.inci_saponified,
        ci_number=row.ci_number,
        fat_kind=row.fat_kind or Material.FatKind.TRIGLYCERIDE,
        state=row.state,
        sv_low=row.sv_low or 0.0,
        sv_high=row.sv_high or 0.0,
        sv_own=lot.saponification_value if lot else None,
        iodine_low=row.iodine_low or 0.0,
        iodine_high=row.iodine_high or 0.0,
        fatty_acids={share.acid: (share.percent_low, share.percent_high) for share in row.fatty_acids.all()} or None,
        melts_at_c=row.melts_at_c,
        takes_koh_mg_per_g=row.takes_koh_mg_per_g,
        density_g_per_ml=row.density_g_per_ml,
        purity=lot.working_purity if lot and lot.purity else row.purity,
        purity_is_stated=bool(lot and lot.purity),
        water_fraction=row.water_fraction,
        allergens={share.name: (share.percent_low, share.percent_high) for share in shares if share.is_listed} or None,
        parts={share.name: share.percent_high for share in shares} or None,
        working_minutes=row.working_minutes,
        flash_point_c=row.flash_point_c,
        swatch=row.swatch,
        handling=word("handling", row.handling),
        confidence=row.confidence,
        source=row.source,
        lot=lot.pk if lot else None,
        lot_code=lot.code if lot else "",
        left_g=sum(left_in(lot, used_g) for lot in lots) if lots else None,
        **_limit(row, lot),
    )


def _limit(row: Material, lot: Lot | None) -> dict[str, Any]:
    """Return the limit of the lot's certificate, else the material's."""
    if lot and lot.limit_percent is not None:
        paper = ", ".join(
            part for part in (lot.certificate or "certificate", lot.supplier, say("lot {code}", code=lot.code)) if part
        )
        return {
            "limit_percent": lot.limit_percent,
            "limit_source": paper,
            "limit_confidence": Confidence.SUPPLIER.value,
        }
    return {
        "limit_percent": row.limit_percent,
        "limit_source": row.limit_source,
        "limit_confidence": row.limit_confidence,
    }
