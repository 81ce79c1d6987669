"""Grams to weigh now, line by line, from what really happened so far."""

from __future__ import annotations

from soapbench.bars.amount import on_the_scale
from soapbench.bench.folding.book import ADDITIONS, LYE_SIDE
from soapbench.bench.folding.pot import (
    batter_g,
    fats_g,
    lye_water_g,
    mass_of,
    planned_g,
    pot_g,
    so_far_g,
    weighed_alkali,
)
from soapbench.bench.folding.settlement import settle
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line
from soapbench.bench.state import Settlement
from soapbench.science.doses import dose_g
from soapbench.science.rounding import round_to

HAIR = 1e-6  # g: sums of the same masses in another order
BY_DOSE = ("percent of fats", "percent of batter", "grams per kg of fats")


def targets(tally: Tally, settlement: Settlement | None) -> dict[str, float]:
    """Return grams to weigh by line key, and to split off by "portion:B"."""
    found = {line.key: _target(tally, line, settlement) for line in tally.plan.lines}
    return {**found, **_portion_targets(tally)}


def _portion_targets(tally: Tally) -> dict[str, float]:
    """Return the grams of each portion: those still in the pot share what is really left there."""
    shares = {one.letter: one.share for one in tally.plan.portions}
    split = tally.portions_g
    open_shares = {
        letter: share
        for letter, share in shares.items()
        if letter not in split and f"portion:{letter}" not in tally.left_out
    }
    left, whole = max(0.0, pot_g(tally) - sum(split.values())), sum(open_shares.values())
    found = {letter: share * batter_g(tally) for letter, share in shares.items()}
    found.update({letter: left * share / whole for letter, share in open_shares.items()})
    return {f"portion:{letter}": round_to(mass, tally.plan.resolution_g) for letter, mass in found.items()}


def target_of(tally: Tally, line: Line) -> float:
    """Return the grams to weigh now for one line."""
    return _target(tally, line, settle(tally) if line.group in LYE_SIDE else None)


def _target(tally: Tally, line: Line, settlement: Settlement | None) -> float:
    if line.key in tally.owed:
        return round(so_far_g(tally, line) + tally.owed[line.key], 6)
    if line.group in LYE_SIDE:
        if settlement is None or not settlement.is_needed or settlement.choice == "planned":
            return line.planned_g
        return settlement.recomputed[line.key]
    if line.group in ADDITIONS:
        return _dose(tally, line)
    return planned_g(tally, line)


def _dose(tally: Tally, line: Line) -> float:
    share, planned_share = share_of(tally, line.portion), tally.book.planned_shares.get(line.portion, 0.0)
    fats, base = fats_g(tally), _base_g(tally)
    if share == planned_share and _same(fats, tally.book.planned_fats_g) and _same(base, tally.book.planned_base_g):
        return line.planned_g
    if line.basis not in BY_DOSE:  # plain grams were meant for the portion as planned
        exact = line.planned_g * share / planned_share if line.portion != "all" and planned_share else line.planned_g
    else:
        exact = dose_g(line.rate, line.basis, share * fats, share * base)  # type: ignore[arg-type]  # checked above
    return on_the_scale(exact, tally.plan.resolution_g)


def _same(one: float, other: float) -> bool:
    return abs(one - other) < HAIR


def _base_g(tally: Tally) -> float:
    alkali = weighed_alkali(tally)
    alkali_g = tally.book.planned_alkali_g if alkali is None else alkali.total_g
    wet = sum(mass_of(tally, line) for line in tally.plan.in_group("carrier") if line.basis != "fat")
    return fats_g(tally) + lye_water_g(tally) + wet + alkali_g


def share_of(tally: Tally, portion: str) -> float:
    """Return a portion's share of the batter: as split, else as planned."""
    split = portions_now(tally)
    if portion in split and (total := batter_g(tally)) > 0:
        return split[portion] / total
    return tally.book.planned_shares.get(portion, 0.0)


def portions_now(tally: Tally) -> dict[str, float]:
    """Return the grams of each portion split off; the last one is what is left in the pot."""
    letters = [one.letter for one in tally.plan.portions if f"portion:{one.letter}" not in tally.left_out]
    missing = [letter for letter in letters if letter not in tally.portions_g]
    if len(missing) != 1 or not tally.portions_g:
        return dict(tally.portions_g)
    rest = round(max(0.0, pot_g(tally) - sum(tally.portions_g.values())), 6)
    return {**tally.portions_g, missing[0]: rest}
