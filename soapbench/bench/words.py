"""Numbers as the bench says them."""

from __future__ import annotations

from soapbench.science.words import listed as listed
from soapbench.science.words import say


def grams(mass_g: float) -> str:
    """Return "150.5 g": as many decimals as there are, no trailing noughts, a real minus sign."""
    return say("{mass:.10g} g", mass=round(mass_g, 4)).replace("-", "−")


def percent(share: float) -> str:
    """Return a fraction as "5.0 %"; what rounds to nothing has no sign."""
    return say("{share:.1f} %", share=round(100 * share, 1) + 0.0).replace("-", "−")


def minutes(number: float) -> str:
    """Return "45 min", "24 h" or "42 days", whichever says it shortest."""
    if number < 120:
        return say("{number:.0f} min", number=number)
    return f"{number / 60:.0f} h" if number < 60 * 72 else say("{count:.0f} days", count=number / 60 / 24)


def span(number: float) -> str:
    """Return "45 min", "2 h" or "1 h 40 min" of a time spent at the bench."""
    hours, rest = divmod(round(number), 60)
    parts = (f"{hours} h" if hours else "", say("{rest} min", rest=rest) if rest or not hours else "")
    return " ".join(part for part in parts if part)


def round_grams(mass_g: float) -> str:
    """Return "2 300 g" or "18.4 g": whole grams from a hundred on, thousands apart."""
    return grams(mass_g) if mass_g < 100 else f"{mass_g:,.0f} g".replace(",", "\u202f")


def over_or_short(gap_g: float) -> str:
    """Return "40 g over" or "30 g short"."""
    if gap_g > 0:
        return say("{mass} over", mass=grams(gap_g))
    return say("{mass} short", mass=grams(-gap_g))
