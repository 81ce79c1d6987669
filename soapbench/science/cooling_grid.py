"""The grid posterior behind the cooling fit. Imported only when a fit is asked for, since it needs numpy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soapbench.science import posterior
from soapbench.science.cooling_law import REFERENCE
from soapbench.science.posterior import Array, Normal

REFERENCE_K = REFERENCE.value  # k is the rate at this distance from the room
SMALLEST_Q = 1e-4  # p = 1 is taken as 1.0001, which changes no digit that is shown


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


def draws(minutes: Array, temperatures: Array, priors: Sequence[Normal], scale_c: float) -> Draws:
    """Return draws from the posterior of rate (its logarithm), exponent, room and first temperature.

    minutes and temperatures hold the readings after the first one, counted from it; priors come in that order.
    """

    def log_likelihood(nodes: Sequence[Array]) -> Array:
        ln_k, exponent, room, start = nodes
        k, q = np.exp(ln_k), np.maximum(exponent - 1, SMALLEST_Q)
        total = np.zeros_like(k)
        for minute, temperature in zip(minutes, temperatures, strict=True):
            total += posterior.student_t((model(k, q, room, start, minute) - temperature) / scale_c)
        return total

    ln_k, exponent, room, start = posterior.draws(priors, log_likelihood, ((41, 7, 5, 5), (61, 11, 9, 7)))
    return Draws(np.exp(ln_k), np.maximum(exponent - 1, SMALLEST_Q), room, start)


def rows(draws: Draws, start_minutes: float, span: float, points: int) -> tuple[tuple[float, float, float, float], ...]:
    """Return rows of (minutes, low, central, high) in C, from the start over a span of minutes, 95 % band."""
    times = np.linspace(0.0, span, points)
    band = posterior.quantiles(draws.temperatures(times))
    found = zip(times + start_minutes, *band, strict=True)
    return tuple((float(t), float(low), float(central), float(high)) for t, low, central, high in found)
