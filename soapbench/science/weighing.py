"""Everything about a weight on the scale, under one name."""

from __future__ import annotations

from .doubts import Doubt, entry_doubts
from .pot import PotCheck, pot_check
from .rounding import (
    Kind,
    round_keeping_total,
    round_to,
    scale_too_coarse,
    smallest_sensible_g,
    tolerance_g,
)

__all__ = [
    "Doubt",
    "Kind",
    "PotCheck",
    "entry_doubts",
    "pot_check",
    "round_keeping_total",
    "round_to",
    "scale_too_coarse",
    "smallest_sensible_g",
    "tolerance_g",
]
