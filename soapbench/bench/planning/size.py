"""From what was asked for to grams of fats, and what that gives."""

from __future__ import annotations

from soapbench.bars.amounts import amounts
from soapbench.bars.sizing import fats_for_bars, fats_for_mould, poured_ml, yield_of
from soapbench.bench.plan import Size
from soapbench.bench.planning.given import Batch, Order
from soapbench.science.cut import CutYield
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import fill_height_mm
from soapbench.science.rounding import round_to


def batch_of(order: Order) -> Batch:
    """Return the order with every mass worked out.

    Raises:
        FormulaError, OutOfRange: the formula, the size or the mould does not allow it; the sentence says why.
    """
    step = order.bench.scale.resolution_g
    fats_g = round_to(fats_wanted_g(order), step)
    return Batch(order, amounts(order.formula, order.facts, fats_g, step))


def fats_wanted_g(order: Order) -> float:
    """Return the grams of fats that were asked for, by any of the three ways.

    Raises:
        FormulaError, OutOfRange: as batch_of.
    """
    size, bench, loss_g = order.size, order.bench, order.reckoned.loss_g
    if size.by == "fats":
        return size.fats_g
    if size.by == "mould":
        return fats_for_mould(order.formula, order.facts, bench.mould, size.fill, bench.scale.resolution_g, loss_g)
    bar_g = size.bar_g or usual_bar_g(order)
    return fats_for_bars(order.formula, order.facts, bench.mould, size.bars, bar_g, loss_g)


def usual_bar_g(order: Order) -> float:
    """Return the fresh mass of a bar as the formula's cut gives it from a full mould, g.

    Raises:
        FormulaError, OutOfRange: as batch_of.
    """
    bench, loss_g = order.bench, order.reckoned.loss_g
    fats = fats_for_mould(order.formula, order.facts, bench.mould, 1.0, bench.scale.resolution_g, loss_g)
    made = amounts(order.formula, order.facts, fats, bench.scale.resolution_g)
    return yield_of(order.formula, made, bench.mould, loss_g=loss_g).bar_mass_g


def size_of(batch: Batch) -> Size:
    """Return the size of the batch with its number of bars and its height in the mould."""
    return Size(
        by=batch.order.size.by,
        fats_g=batch.made.fats_g,
        bars=_bars(batch),
        batter_g=batch.made.batter_g,
        fill_mm=round(_fill_mm(batch.bench.mould.depth_mm, batch), 1),
    )


def _bars(batch: Batch) -> int:
    try:
        return _yield(batch).count
    except OutOfRange:
        return batch.order.size.bars  # the check of the formula has said what is wrong with the cut


def _fill_mm(depth_mm: float, batch: Batch) -> float:
    try:
        return min(fill_height_mm(batch.bench.mould, poured_ml(batch.made, batch.learnt.loss_g)), depth_mm)
    except OutOfRange:
        return 0.0


def cut_sentence(batch: Batch) -> str:
    """Return what the planned cut gives, in words."""
    try:
        return _yield(batch).sentence
    except OutOfRange as error:
        return str(error)


def _yield(batch: Batch) -> CutYield:
    """Return the bars of this batch: as many as were asked for, or as many as the planned thickness gives."""
    asked = batch.order.size
    bars = asked.bars if asked.by == "bars" else 0
    return yield_of(batch.formula, batch.made, batch.bench.mould, bars, batch.learnt.loss_g)
