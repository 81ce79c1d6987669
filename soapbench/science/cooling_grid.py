"""The grid posterior behind the cooling fit. Imported only when a fit is asked for, since it needs numpy."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

DRAWS = 2000
REFERENCE_K = 30.0  # k is the rate at this distance from the room
SMALLEST_Q = 1e-4  # p = 1 is taken as 1.0001, which changes no digit that is shown


@dataclass(frozen=True, slots=True)
class Normal:
    """A normal prior cut at both ends."""

    mean: float
    sd: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Priors:
    """What is believed before the readings: rate, exponent, room, first temperature."""

    ln_k: Normal
    exponent: Normal
    room: Normal
    start: Normal

    def axes(self) -> tuple[Normal, Normal, Normal, Normal]:
        """Return the four in the order of the grid."""
        return (self.ln_k, self.exponent, self.room, self.start)


@dataclass(frozen=True, slots=True)
class Draws:
    """Equally likely cooling curves; all arrays have the same length."""

    k: Array
    q: Array
    room: Array
    start: Array

    def temperatures(self, minutes: Array) -> Array:
        """Return one row per draw and one column per time after the start."""
        return model(self.k[:, None], self.q[:, None], self.room[:, None], self.start[:, None], minutes[None, :])

    def minutes_to(self, target_c: float) -> Array:
        """Return for each draw the minutes after the start until the target; infinite where it is not reached."""
        side = np.sign(self.start - self.room)
        begin = np.abs(self.start - self.room)
        end = side * (target_c - self.room)
        reached = np.where(end > 1e-6, end, np.nan)
        scale = REFERENCE_K**self.q / (self.q * self.k)
        minutes = (reached**-self.q - np.maximum(begin, 1e-6) ** -self.q) * scale
        return np.where(np.isnan(minutes), np.inf, np.maximum(minutes, 0.0))


def model(k: Array, q: Array, room: Array, start: Array, minutes: Array) -> Array:
    """Return temperatures of dθ/dt = -k θ (θ/30)^q; works for a pot that warms up to the room as well."""
    away = np.maximum(np.abs(start - room), 1e-6)
    theta = (away**-q + q * k * minutes / REFERENCE_K**q) ** (-1 / q)
    return room + np.sign(start - room) * theta


def draws(minutes: Array, temperatures: Array, priors: Priors, scale_c: float) -> Draws:
    """Return draws from the posterior, on a coarse grid first and then on a finer one where the weight lies.

    minutes and temperatures hold the readings after the first one, counted from it.
    """
    ranges = [(axis.low, axis.high) for axis in priors.axes()]
    for shape in ((41, 7, 5, 5), (61, 11, 9, 7)):
        nodes = _nodes(ranges, shape)
        weights = _weights(nodes, minutes, temperatures, priors, scale_c)
        ranges = _narrowed(nodes, weights, ranges, shape)
    return _systematic(nodes, weights)


def quantiles(values: Array, axis: int = 0) -> Array:
    """Return the 5, 50 and 95 % quantiles along an axis."""
    return np.asarray(np.quantile(values, (0.05, 0.5, 0.95), axis=axis), dtype=np.float64)


def _nodes(ranges: list[tuple[float, float]], shape: tuple[int, ...]) -> list[Array]:
    axes = [np.linspace(low, high, count) for (low, high), count in zip(ranges, shape, strict=True)]
    return [grid.ravel() for grid in np.meshgrid(*axes, indexing="ij")]


def _weights(nodes: list[Array], minutes: Array, temperatures: Array, priors: Priors, scale_c: float) -> Array:
    ln_k, exponent, room, start = nodes
    log_weight = np.zeros_like(ln_k)
    for axis, values in zip(priors.axes(), nodes, strict=True):
        log_weight -= 0.5 * ((values - axis.mean) / axis.sd) ** 2
    k, q = np.exp(ln_k), np.maximum(exponent - 1, SMALLEST_Q)
    for minute, temperature in zip(minutes, temperatures, strict=True):
        residual = (model(k, q, room, start, minute) - temperature) / scale_c
        log_weight -= 2.5 * np.log1p(residual**2 / 4)  # Student t with 4 degrees of freedom
    weights = np.exp(log_weight - log_weight.max())
    return np.asarray(weights / weights.sum(), dtype=np.float64)


def _narrowed(
    nodes: list[Array], weights: Array, ranges: list[tuple[float, float]], shape: tuple[int, ...]
) -> list[tuple[float, float]]:
    narrowed = []
    for values, (low, high), count in zip(nodes, ranges, shape, strict=True):
        mean = float(weights @ values)
        sd = float(np.sqrt(weights @ (values - mean) ** 2))
        half = max(4 * sd, 1.5 * (high - low) / (count - 1))
        narrowed.append((max(low, mean - half), min(high, mean + half)))
    return narrowed


def _systematic(nodes: list[Array], weights: Array) -> Draws:
    """Return equally likely nodes by walking evenly along the summed weights: no random numbers, no seed."""
    steps = (np.arange(DRAWS) + 0.5) / DRAWS
    chosen = np.minimum(np.searchsorted(np.cumsum(weights), steps), len(weights) - 1)
    ln_k, exponent, room, start = (values[chosen] for values in nodes)
    return Draws(np.exp(ln_k), np.maximum(exponent - 1, SMALLEST_Q), room, start)
