"""What the sums need to know of a material, as plain data that a plan can freeze."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class MaterialFacts:
    """One material as it stands on this workshop's shelf, the chosen lot's own figures applied."""

    key: str
    name: str
    kind: str  # Material.Kind
    inci: str = ""
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
    purity: float | None = None
    water_fraction: float = 1.0
    limit_percent: float | None = None
    limit_source: str = ""
    limit_confidence: str = ""
    working_minutes: float | None = None
    flash_point_c: float | None = None
    swatch: str = ""
    handling: str = ""
    confidence: str = "published"
    source: str = ""
    lot: int | None = None  # primary key of the lot to weigh from
    lot_code: str = ""
    left_g: float | None = None  # bought less weighed out, over all usable lots; None when no lot is kept
