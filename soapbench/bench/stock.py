"""How much of each lot the runs have weighed out."""

from __future__ import annotations

from django.db.models import Sum

from soapbench.bench.models import LotUse, Run
from soapbench.bench.state import RunState
from soapbench.workshop.models import Workshop


def used_by_lot(workshop: Workshop) -> dict[int, float]:
    """Return grams weighed out by primary key of the lot, over all runs, in one query."""
    rows = LotUse.objects.filter(run__workshop=workshop).values_list("lot_id").annotate(Sum("mass_g"))
    return dict(rows.order_by())


def lots_of(state: RunState) -> dict[int, float]:
    """Return grams weighed out by lot in one run."""
    found = dict(state.spent)
    for weight in state.weights.values():
        if weight.lot is not None:
            found[weight.lot] = round(found.get(weight.lot, 0.0) + weight.mass_g, 6)
    return found


def keep_lots(run: Run, state: RunState) -> None:
    """Make the run's rows of lots used those of its state."""
    wanted = lots_of(state)
    kept = dict(run.lots_used.values_list("lot_id", "mass_g"))
    if wanted == kept:
        return
    run.lots_used.exclude(lot_id__in=wanted).delete()
    LotUse.objects.bulk_create(
        [LotUse(run=run, lot_id=lot, mass_g=mass) for lot, mass in wanted.items()],
        update_conflicts=True,
        unique_fields=["run", "lot"],
        update_fields=["mass_g"],
    )
