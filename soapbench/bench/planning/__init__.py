"""The plan: a pure function of an order and the workshop."""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import Any

from soapbench.bars.to_science import KOH, NAOH, portion_shares, science_alkali, science_fat
from soapbench.bench.learning.learnt import teachings
from soapbench.bench.plan import Line, Plan, PlanLot, PlanPortion, Prompt
from soapbench.bench.planning.active_time import minutes_at_work
from soapbench.bench.planning.asking import with_cautions_said
from soapbench.bench.planning.combining import combining
from soapbench.bench.planning.cups import cups_of
from soapbench.bench.planning.firming import rest_plan
from soapbench.bench.planning.gathering import gathering
from soapbench.bench.planning.given import Batch, Bench, Order
from soapbench.bench.planning.heat import jug_hottest_c
from soapbench.bench.planning.lines import lines_of
from soapbench.bench.planning.lye import fats, lye
from soapbench.bench.planning.meanwhile import meanwhile
from soapbench.bench.planning.pauses import with_pause
from soapbench.bench.planning.portions import portions
from soapbench.bench.planning.pouring import choices, drawing
from soapbench.bench.planning.resting import resting
from soapbench.bench.planning.size import batch_of, size_of
from soapbench.bench.pots import POTS, vessel_of
from soapbench.science.alkali import alkali_mixture
from soapbench.science.atoms import KOH as KOH_G_PER_MOL
from soapbench.shelf.facts import MaterialFacts


def make_plan(order: Order) -> Plan:
    """Return the plan of a run: amounts, prompts in working order, and all that the bench needs without a network.

    Fats are rounded to the scale first and the alkali is worked out from the rounded fats. The same order always
    gives the same plan.

    Raises:
        FormulaError, OutOfRange: this formula cannot be made at this size; the sentence says why.
    """
    batch = batch_of(order)
    lines = lines_of(batch)
    shared, sentence = portions(batch, lines)
    used = {line.material for line in lines}
    prompts = _prompts(batch, lines, shared)
    return Plan(
        bar=order.bar,
        bar_slug=order.bar_slug,
        revision=order.revision,
        formula=order.formula,
        size=size_of(batch),
        made_at=order.made_at,
        made_by=order.made_by,
        **_bench(order.bench),
        lines=lines,
        prompts=prompts,
        portions=_portions(batch),
        materials={key: fact for key, fact in order.facts.items() if key in used},
        stand_ins=dict(order.stand_ins),
        planned_superfat=order.formula.superfat,
        lots=tuple(_taking(order, lot) for lot in order.lots),
        takes_mol_per_g=_takes(order),
        alkali_g_per_mol=_grams_per_mol(batch, lines),
        active_minutes=minutes_at_work([prompt for prompt in prompts if prompt.phase != "gather"]),
        schedule=sentence,
        cups=cups_of(batch),
        rest=rest_plan(batch),
        loss_g=batch.learnt.loss_g,
        **_learnt(batch, lines),
        jug_hottest_c=jug_hottest_c(batch),
    )


def _bench(bench: Bench) -> dict[str, Any]:
    """Return the fields of the plan that are the workshop's own."""
    return {
        "workshop": bench.workshop,
        "is_invented": bench.is_invented,
        "room_c": bench.room_c,
        "emergency": bench.emergency,
        "scale": bench.scale.name,
        "resolution_g": bench.scale.resolution_g,
        "capacity_g": bench.scale.capacity_g,
        "check_mass_g": bench.scale.check_mass_g,
        "check_name": bench.scale.check_name,
        "other_scales": bench.other_scales,
        "mould": bench.mould_name,
        "mould_shape": asdict(bench.mould),
        "drawings": choices(bench.tools),
        "tares": {vessel.name: vessel.tare_g for vessel in bench.vessels},
        "volumes_ml": {vessel.name: vessel.volume_ml for vessel in bench.vessels},
        "cup": bench.vessel("cup", ""),
    }


def _learnt(batch: Batch, lines: tuple[Line, ...]) -> dict[str, Any]:
    """Return the fields of the plan that finished runs taught."""
    vessels = {pot: vessel_of(lines, pot) for pot in POTS}
    learnt, trace = batch.learnt, batch.learnt.trace_minutes
    return {
        "learnt": teachings(learnt, batch.order.facts, vessels, batch.mixed_c),
        "cooling_learnt": {pot: rate for pot, name in vessels.items() if (rate := learnt.cooling.get(name))},
        "usual_trace_minutes": trace.value.central if trace else None,
        "usual_trace_runs": trace.runs if trace else 0,
    }


def _prompts(batch: Batch, lines: tuple[Line, ...], shared: list[Prompt]) -> tuple[Prompt, ...]:
    work = (
        *fats(batch, lines),
        *lye(batch, lines),
        *meanwhile(batch, lines),
        *combining(batch, lines),
        *with_pause(batch, shared),
        *drawing(batch),
        *resting(batch),
    )
    return tuple(map(with_cautions_said, (*gathering(batch, lines, minutes_at_work(work)), *work)))


def _portions(batch: Batch) -> tuple[PlanPortion, ...]:
    shares, masses = portion_shares(batch.formula), batch.made.portions
    return tuple(
        PlanPortion(each.letter, each.name, shares[each.letter], masses[each.letter], each.colour, each.texture)
        for each in batch.formula.portions
    )


def _takes(order: Order) -> dict[str, float]:
    """Return the moles of alkali to weigh for a gram of each fat and acid of the run or of its stand-ins."""
    found = {key: _mol_per_g(order, key, fact) for key, fact in {**order.stand_ins, **order.facts}.items()}
    return {key: takes for key, takes in found.items() if takes > 0}


def _mol_per_g(order: Order, key: str, fact: MaterialFacts) -> float:
    if fact.kind != "fat":
        return fact.takes_koh_mg_per_g / 1000 / KOH_G_PER_MOL
    value = science_fat(key, 1.0, {key: fact}).sv_for_alkali
    return (1 - order.formula.superfat) * value / 1000 / KOH_G_PER_MOL


def _taking(order: Order, lot: PlanLot) -> PlanLot:
    fact = order.facts.get(lot.material) or order.stand_ins.get(lot.material)
    if fact is None or fact.kind != "fat":
        return lot
    own = replace(fact, sv_own=lot.sv_own)
    return replace(lot, takes_mol_per_g=_mol_per_g(order, lot.material, own))


def _grams_per_mol(batch: Batch, lines: tuple[Line, ...]) -> dict[str, float]:
    one = alkali_mixture(1.0, science_alkali(batch.formula, batch.order.facts))
    masses = {NAOH: one.naoh_g, KOH: one.koh_g}
    return {line.key: masses[line.material] for line in lines if line.group == "alkali"}
