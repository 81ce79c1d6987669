"""Which vessel each portion of batter is in."""

from __future__ import annotations

from soapbench.bench.planning.given import Batch
from soapbench.science.words import say


def cups_of(batch: Batch) -> dict[str, str]:
    """Return the vessel of each portion by its letter: the largest stays in the pot, the largest cup next, and so on.

    Where there are too few cups the rest are called by their letter.
    """
    masses = batch.made.portions
    by_size = sorted((letter for letter in masses if masses[letter] > 0), key=lambda letter: -masses[letter])
    cups = [vessel.name for vessel in batch.bench.vessels if vessel.use == "cup"]
    names = [batch.bench.vessel("pot", say("the pot")), *cups]
    return {
        letter: names[at] if at < len(names) else say("cup {letter}", letter=letter)
        for at, letter in enumerate(by_size)
    }
