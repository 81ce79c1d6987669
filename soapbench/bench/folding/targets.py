"""Grams to weigh now, line by line, from what really happened so far."""

from __future__ import annotations

from soapbench.bars.amount import on_the_scale
from soapbench.bench.folding.book import ADDITIONS, LYE_SIDE
from soapbench.bench.folding.pot import batter_g, fats_g, lye_water_g, mass_of, planned_g, so_far_g, weighed_alkali
from soapbench.bench.folding.settlement import settle
from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line
from soapbench.bench.state import Settlement
from soapbench.science.doses import dose_g
from soapbench.science.rounding import round_to


def targets(tally: Tally, settlement: Settlement | None) -> dict[str, float]:
    """Return grams to weigh by line key, and to split off by "portion:B"."""
    found = {line.key: _target(tally, line, settlement) for line in tally.plan.lines}
    total = batter_g(tally)
    for letter, share in tally.book.planned_shares.items():
        if letter != "all":
            found[f"portion:{letter}"] = round_to(share * total, tally.plan.resolution_g)
    return found


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
    if line.group in ADDITIONS and line.basis in ("percent of fats", "percent of batter", "grams per kg of fats"):
        return _dose(tally, line)
    return planned_g(tally, line)


def _dose(tally: Tally, line: Line) -> float:
    share, planned_share = share_of(tally, line.portion), tally.book.planned_shares.get(line.portion, 0.0)
    fats, base = fats_g(tally), _base_g(tally)
    if share == planned_share and fats == tally.book.planned_fats_g and base == tally.book.planned_base_g:
        return line.planned_g
    exact = dose_g(line.rate, line.basis, share * fats, share * base)  # type: ignore[arg-type]  # checked above
    return on_the_scale(exact, tally.plan.resolution_g)


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
    letters = [portion.letter for portion in tally.plan.portions]
    missing = [letter for letter in letters if letter not in tally.portions_g]
    if len(missing) != 1 or not tally.portions_g:
        return dict(tally.portions_g)
    rest = round(max(0.0, batter_g(tally) - sum(tally.portions_g.values())), 6)
    return {**tally.portions_g, missing[0]: rest}
