"""A posterior on a grid: coarse first, then fine where the weight lies. Imported only by fits, since it needs numpy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source

Array = NDArray[np.float64]
LogLikelihood = Callable[[Sequence[Array]], Array]

DRAWS = Constant(
    "Curves drawn from a fit",
    "",
    2000,
    "",
    OWN_CHOICE,
    "cooling.fit, cure.fit_drying",
    why="The ends of a band then move by less than a reading is in doubt.",
)
FREEDOM = Constant(
    "Degrees of freedom of a reading's error",
    "ν",
    4,
    "",
    OWN_CHOICE,
    "student_t",
    why="So few that one mistyped reading hardly counts.",
)


@dataclass(frozen=True, slots=True)
class Normal:
    """A normal prior cut at both ends."""

    mean: float
    sd: float
    low: float
    high: float


def draws(priors: Sequence[Normal], log_likelihood: LogLikelihood, shapes: Sequence[Sequence[int]]) -> list[Array]:
    """Return equally likely values of each parameter.

    Args:
        priors: one for each parameter.
        log_likelihood: of the data at every node, given one array for each parameter.
        shapes: nodes along each parameter, one tuple for each pass; every pass looks closer.
    """
    ranges = [(prior.low, prior.high) for prior in priors]
    for shape in shapes:
        nodes = _nodes(ranges, shape)
        weights = _weights(nodes, priors, log_likelihood)
        ranges = _narrowed(nodes, weights, ranges, shape)
    return _systematic(nodes, weights)


def student_t(residual: Array) -> Array:
    """Return the log density, up to a constant, of Student's t with 4 degrees of freedom: odd data hardly count."""
    freedom = FREEDOM.value
    return np.asarray(-(freedom + 1) / 2 * np.log1p(residual**2 / freedom), dtype=np.float64)


def quantiles(values: Array, axis: int = 0) -> Array:
    """Return the 2.5, 50 and 97.5 % quantiles along an axis: the ends of 95 % and the middle."""
    return np.asarray(np.quantile(values, (0.025, 0.5, 0.975), axis=axis), dtype=np.float64)


def _nodes(ranges: Sequence[tuple[float, float]], shape: Sequence[int]) -> list[Array]:
    axes = [np.linspace(low, high, count) for (low, high), count in zip(ranges, shape, strict=True)]
    return [grid.ravel() for grid in np.meshgrid(*axes, indexing="ij")]


def _weights(nodes: Sequence[Array], priors: Sequence[Normal], log_likelihood: LogLikelihood) -> Array:
    log_weight = log_likelihood(nodes)
    for prior, values in zip(priors, nodes, strict=True):
        log_weight = log_weight - 0.5 * ((values - prior.mean) / prior.sd) ** 2
    weights = np.exp(log_weight - log_weight.max())
    return np.asarray(weights / weights.sum(), dtype=np.float64)


def _narrowed(
    nodes: Sequence[Array], weights: Array, ranges: Sequence[tuple[float, float]], shape: Sequence[int]
) -> list[tuple[float, float]]:
    narrowed = []
    for values, (low, high), count in zip(nodes, ranges, shape, strict=True):
        mean = float(weights @ values)
        sd = float(np.sqrt(weights @ (values - mean) ** 2))
        half = max(4 * sd, 1.5 * (high - low) / (count - 1))
        narrowed.append((max(low, mean - half), min(high, mean + half)))
    return narrowed


def _systematic(nodes: Sequence[Array], weights: Array) -> list[Array]:
    """Return equally likely nodes by walking evenly along the summed weights: no random numbers, no seed."""
    count = int(DRAWS.value)
    steps = (np.arange(count) + 0.5) / count
    chosen = np.minimum(np.searchsorted(np.cumsum(weights), steps), len(weights) - 1)
    return [values[chosen] for values in nodes]


STUDENT_LIKELIHOOD = Source(
    "student-likelihood", "Student's t as the error of a reading", "checked against scipy", "computed"
)
CONSTANTS = (DRAWS, FREEDOM)
_HERE = "soapbench.science.posterior."
RELATIONS = (
    Relation("Error of a reading", "-(ν + 1)/2 · ln(1 + r²/ν)", "", STUDENT_LIKELIHOOD, _HERE + "student_t"),
    Relation("Ends of a band", "2.5, 50 and 97.5 % of the draws", "", STUDENT_LIKELIHOOD, _HERE + "quantiles"),
)
