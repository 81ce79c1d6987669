"""Numbers as the bench says them."""

from __future__ import annotations

from collections.abc import Sequence


def grams(mass_g: float) -> str:
    """Return "150.5 g": as many decimals as there are, no trailing noughts, a real minus sign."""
    return f"{round(mass_g, 4):.10g} g".replace("-", "−")


def percent(share: float) -> str:
    """Return a fraction as "5.0 %"; what rounds to nothing has no sign."""
    return f"{round(100 * share, 1) + 0.0:.1f} %".replace("-", "−")


def minutes(number: float) -> str:
    """Return "45 min", "24 h" or "42 days", whichever says it shortest."""
    if number < 120:
        return f"{number:.0f} min"
    return f"{number / 60:.0f} h" if number < 60 * 72 else f"{number / 60 / 24:.0f} days"


def span(number: float) -> str:
    """Return "45 min", "2 h" or "1 h 40 min" of a time spent at the bench."""
    hours, rest = divmod(round(number), 60)
    parts = (f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else "")
    return " ".join(part for part in parts if part)


def round_grams(mass_g: float) -> str:
    """Return "2 300 g" or "18.4 g": whole grams from a hundred on, thousands apart."""
    return grams(mass_g) if mass_g < 100 else f"{mass_g:,.0f} g".replace(",", "\u202f")


def listed(words: Sequence[str]) -> str:
    """Return "A", "A and B" or "A, B and C"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def over_or_short(gap_g: float) -> str:
    """Return "40 g over" or "30 g short"."""
    return f"{grams(abs(gap_g))} {'over' if gap_g > 0 else 'short'}"
