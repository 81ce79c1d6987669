"""The reach that the maker's own cut tells: how far one long stroke pulled the edge of a stripe."""

from __future__ import annotations

from soapbench.science.errors import OutOfRange, positive
from soapbench.science.pattern.draw import STYLUS, Drawn, draw, twists_of
from soapbench.science.sources import Relation
from soapbench.science.words import say

LONG_MM = 150.0  # on either side of the stripe: beyond it a longer stroke pulls no farther
LEAST, MOST = 0.3, 4.0  # reaches in tool diameters between which the answer is looked for
STEPS = 20


def tongue_mm(diameter_mm: float, reach_mm: float) -> float:
    """Return how far a long straight stroke across a stripe pulls the stripe's edge, far from any wall, mm.

    Raises:
        OutOfRange: a measure is not above zero, or the stroke would be too fine to follow.

    Source: the model itself; its values stand in the tests.
    """
    import numpy as np

    stroke = Drawn("z", ((-LONG_MM, 0.0), (LONG_MM, 0.0)), diameter_mm, reach_mm)
    moved, _across = draw(twists_of(stroke, lambda u, v: 1e9), reach_mm, np.zeros(1), np.zeros(1))
    return float(moved[0])


def reach_from_tongue(diameter_mm: float, tongue: float) -> float:
    """Return the reach at which a tool of this thickness pulls an edge so far, mm, to about 0.01 mm.

    Args:
        diameter_mm: of the tool.
        tongue: how far the edge was pulled in the cut, mm.

    Raises:
        OutOfRange: a measure is not above zero, or no batter pulls so little or so far.

    Source: the model, solved for the reach by halving.
    """
    width = positive(diameter_mm, "The thickness of the tool", "mm")
    positive(tongue, "The length of the tongue", "mm")
    low, high = LEAST * width, MOST * width
    least, most = tongue_mm(width, low), tongue_mm(width, high)
    if not least <= tongue <= most:
        sentence = "With this tool the tongue is between {least:.0f} and {most:.0f} mm long. Measure it once more."
        raise OutOfRange(say(sentence, least=least, most=most))
    for _ in range(STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if tongue_mm(width, middle) < tongue else (low, middle)
    return (low + high) / 2


CONSTANTS = ()
_HERE = "soapbench.science.pattern.calibrate."
RELATIONS = (
    Relation("Tongue that a long stroke pulls", "the model, far from walls", "mm", STYLUS, _HERE + "tongue_mm"),
    Relation("Reach from a tongue", "the same, solved for L", "mm", STYLUS, _HERE + "reach_from_tongue"),
)
