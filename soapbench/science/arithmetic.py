"""Plain arithmetic under several sums: a polynomial, and straight lines through the rows of a table."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise


def polynomial(coefficients: Sequence[float], x: float) -> float:
    """Return c0 + c1 x + c2 x² + …, worked out from the last coefficient on (Horner)."""
    total = 0.0
    for coefficient in reversed(coefficients):
        total = total * x + coefficient
    return total


def interpolate(x: float, points: Sequence[tuple[float, float]]) -> float:
    """Return y at x on the straight lines between points in rising x; held constant beyond both ends."""
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]
