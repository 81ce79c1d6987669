"""A number with its two ends, and the arithmetic that several modules share."""

from __future__ import annotations

from dataclasses import dataclass

from .errors import number


@dataclass(frozen=True, slots=True)
class Interval:
    """A low end, a central value and a high end; 95 % of cases lie inside unless the maker of it says otherwise.

    Raises:
        OutOfRange: one of the three is not a number.
    """

    low: float
    central: float
    high: float

    def __post_init__(self) -> None:
        for value in (self.low, self.central, self.high):
            number(value, "Each end of a range")

    @property
    def width(self) -> float:
        """Return high less low, in the unit of the interval."""
        return self.high - self.low

    def contains(self, value: float) -> bool:
        """Return whether the value lies inside, ends included."""
        return self.low <= value <= self.high

    def scaled(self, factor: float) -> Interval:
        """Return the interval times a factor; a negative factor swaps the ends."""
        ends = sorted((self.low * factor, self.high * factor))
        return Interval(ends[0], self.central * factor, ends[1])

    def shifted(self, by: float) -> Interval:
        """Return the interval with the same amount added to each of its three numbers."""
        return Interval(self.low + by, self.central + by, self.high + by)

    @classmethod
    def exact(cls, value: float) -> Interval:
        """Return the interval without width of a value that is known."""
        return cls(value, value, value)
