"""When the loaf is firm: the windows that the plan freezes, one for each way the loaf may go."""

from __future__ import annotations

from soapbench.bench.plan import RestPlan, RestWindow
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import gel_verdict
from soapbench.science.lye import concentration
from soapbench.science.unmould import AGAIN_FROM, GEL_SHOWS, Process, UnmouldWindow, unmould_window
from soapbench.science.words import say

MINUTES = 60.0
OLIVE, SALT = "olive", "salt"  # keys of the reference materials; a workshop's own of the same key win


def rest_plan(batch: Batch) -> RestPlan:
    """Return the windows: as planned, gel seen, no gel seen.

    The maker's own hours win over the process: the window keeps its width and begins with them. With one of the two
    hours given, it stands for both.
    """
    process = batch.formula.process
    planned: Process = "oven" if process.oven else "no gel" if gel_verdict(batch) == "unlikely" else "unknown"
    after_gel: Process = "oven" if process.oven else "gel"
    windows = {"": planned, "yes": after_gel, "no": "no gel"}
    return RestPlan(
        windows={seen: _window(batch, each) for seen, each in windows.items()},
        starts="oven" if process.oven else "cover",
        again_hours=AGAIN_FROM.value,
        gel_shows_hours=GEL_SHOWS.value,
    )


def own_hours(batch: Batch) -> float:
    """Return the maker's own hours until the unmoulding, 0 where the process decides."""
    process = batch.formula.process
    return process.unmould_hours or process.cut_hours


def _window(batch: Batch, process: Process) -> RestWindow:
    found = unmould_window(
        process,
        concentration(batch.made.alkali_mass.total_g, batch.made.water_g),
        _share(batch, OLIVE),
        _salt(batch),
        batch.formula.process.oven_minutes / MINUTES if process == "oven" else 0.0,
    )
    own = own_hours(batch)
    return _of_maker(found, own) if own else RestWindow(found.earliest_h, found.latest_h, found.sentence)


def _of_maker(found: UnmouldWindow, own: float) -> RestWindow:
    said = say("{own:g} h is your own figure. {sentence}", own=own, sentence=found.sentence)
    return RestWindow(own, own + found.latest_h - found.earliest_h, said)


def _share(batch: Batch, material: str) -> float:
    masses = batch.made.fat_masses
    total = sum(masses.values())
    return masses.get(material, 0.0) / total if total else 0.0


def _salt(batch: Batch) -> float:
    grams = sum(each.mass_g for each in batch.made.additives if each.material == SALT)
    return grams / batch.made.fats_g
