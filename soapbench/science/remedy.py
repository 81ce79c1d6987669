"""Everything that puts a departure from the plan right, C1 to C17, under one name."""

from __future__ import annotations

from .portions import Portion, PortionSuperfats, portion_superfats
from .pot import PotCheck, pot_check
from .remedy_after import alkali_to_add, fat_to_add, remedies_lye_in, superfat_now
from .remedy_answer import Remedy
from .remedy_before import (
    add_what_is_owed,
    keep_proportions,
    recompute_alkali,
    remedies_before_lye,
    shrink_to_stock,
    substitute,
)
from .remedy_dose import cure_progress, dose_for_portion, dose_for_rest, keep_the_shade, keep_the_size, mould_gap
from .remedy_lye import (
    make_more_lye,
    pour_part_of_lye,
    put_water_right,
    remedies_lye_made,
    share_of_stock_lye,
)

__all__ = [
    "Portion",
    "PortionSuperfats",
    "PotCheck",
    "Remedy",
    "add_what_is_owed",
    "alkali_to_add",
    "cure_progress",
    "dose_for_portion",
    "dose_for_rest",
    "fat_to_add",
    "keep_proportions",
    "keep_the_shade",
    "keep_the_size",
    "make_more_lye",
    "mould_gap",
    "portion_superfats",
    "pot_check",
    "pour_part_of_lye",
    "put_water_right",
    "recompute_alkali",
    "remedies_before_lye",
    "remedies_lye_in",
    "remedies_lye_made",
    "share_of_stock_lye",
    "shrink_to_stock",
    "substitute",
    "superfat_now",
]
