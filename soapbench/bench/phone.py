"""What the page hands to its scripts, and what the server answers: plain JSON data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

import msgspec

from soapbench.bars.to_science import KOH, NAOH, science_alkali, science_fat
from soapbench.bench.cooled import Cooled, cooled
from soapbench.bench.cooling_screen import cooling_document, cooling_screen
from soapbench.bench.folding.book import Book
from soapbench.bench.folding.tolerances import KIND
from soapbench.bench.parts_screen import parts_advice
from soapbench.bench.plan import Line, Plan, PlanLot, Prompt, RestPlan, Timer
from soapbench.bench.pot_screen import pot_document
from soapbench.bench.rest_screen import rest_advice
from soapbench.bench.start_screen import start_words
from soapbench.bench.state import Fact, RunningTimer, RunState, Weight
from soapbench.bench.ways_screen import ask_document, off_words, way_documents
from soapbench.bench.weigh_screen import decimals_of
from soapbench.science.alkali import Acid
from soapbench.science.effect import mol_per_g
from soapbench.science.late_pour import spoon_after_minutes
from soapbench.shelf.facts import MaterialFacts


def plan_document(plan: Plan) -> dict[str, Any]:
    """Return the part of the plan that the phone folds with: prompts, lines and the factors of the alkali."""
    materials, book = {**plan.materials, **plan.stand_ins}, Book(plan)
    return {
        "resolution_g": plan.resolution_g,
        "decimals": decimals_of(plan.resolution_g),
        "tares": plan.tares,
        "takes_mol_per_g": plan.takes_mol_per_g,
        "alkali_g_per_mol": plan.alkali_g_per_mol,
        "lots": {str(lot.lot): _lot(plan, lot) for lot in plan.lots},
        "mol_per_g": {key: _mol_per_g(plan, fact) for key, fact in materials.items()},
        "acid_mol_per_g": {key: Acid(fact.name, 1.0, fact.takes_koh_mg_per_g).mol for key, fact in materials.items()},
        "jug": sorted(Book(plan).jug_keys),
        "water": {"by": plan.formula.water.by, "value": plan.formula.water.value},
        "lines": [_line(line) for line in plan.lines],
        "prompts": [_prompt(prompt, book) for prompt in plan.prompts],
        "usual_trace_minutes": plan.usual_trace_minutes,
        "scale": {"check_mass_g": plan.check_mass_g, "name": plan.scale},
        "drawing": _way(asdict(plan.formula.drawing)),
        "portions": [
            {"letter": portion.letter, "name": portion.name, "share": portion.share} for portion in plan.portions
        ],
        "rest": _rest_plan(plan.rest) if plan.rest else None,
        "items": {tick.key: tick.text for prompt in plan.prompts for tick in prompt.ticks},
        "path": plan.formula.drawing.path,
        "tools": {choice.tool: choice.tool_name for choice in plan.drawings},
        "names": {key: facts.name for key, facts in materials.items()},
        "own_lots": {key: [facts.lot, facts.lot_code] for key, facts in materials.items() if facts.lot},
    }


def _lot(plan: Plan, lot: PlanLot) -> dict[str, Any]:
    fact = Book(plan).facts(lot.material, lot.lot)
    mol = None if fact is None else _mol_per_g(plan, fact)
    return {"material": lot.material, "takes_mol_per_g": lot.takes_mol_per_g, "mol_per_g": mol}


def _mol_per_g(plan: Plan, fact: MaterialFacts) -> float:
    """Return the moles of alkali that a gram of fat takes, or that a gram of alkali gives; central values."""
    if fact.kind == "fat":
        return science_fat(fact.key, 1.0, {fact.key: fact}).mol
    if fact.key not in (NAOH, KOH):
        return 0.0
    alkali = science_alkali(plan.formula, {fact.key: fact})
    return mol_per_g("NaOH" if fact.key == NAOH else "KOH", alkali)


def _way(drawing: Mapping[str, Any]) -> str:
    return f"{drawing['path']} {drawing['tool']}"


def _line(line: Line) -> dict[str, Any]:
    return {
        "key": line.key,
        "name": line.name,
        "material": line.material,
        "group": line.group,
        "kind": KIND[line.group],
        "basis": line.basis,
        "rate": line.rate,
        "planned_g": line.planned_g,
        "tolerance_g": line.tolerance_g,
        "vessel": line.vessel,
        "portion": line.portion,
        "lot": line.lot,
    }


def _prompt(prompt: Prompt, book: Book) -> dict[str, Any]:
    return {
        "key": prompt.key,
        "kind": prompt.kind,
        "title": prompt.title,
        "phase": prompt.phase,
        "line": prompt.line,
        "portion": prompt.portion,
        "letters": list(book.letters_of(prompt)),
        "pot": prompt.pot,
        "changes": list(prompt.changes),
        "low_c": prompt.low_c,
        "high_c": prompt.high_c,
        "meanwhile": prompt.meanwhile,
        "takes_minutes": prompt.takes_minutes,
        "ticks": [{"key": tick.key, "lines": list(tick.lines), "alone": tick.alone} for tick in prompt.ticks],
        "timer": _plan_timer(prompt.timer) if prompt.timer else None,
    }


def _rest_plan(rest: RestPlan) -> dict[str, Any]:
    return {
        "starts": rest.starts,
        "again_hours": rest.again_hours,
        "gel_shows_hours": rest.gel_shows_hours,
        "windows": {
            gel: {"earliest_h": one.earliest_h, "latest_h": one.latest_h, "sentence": one.sentence}
            for gel, one in rest.windows.items()
        },
    }


def _plan_timer(timer: Timer) -> dict[str, Any]:
    return {
        "key": timer.key,
        "label": timer.label,
        "minutes": timer.minutes,
        "until": timer.until,
        "portion": timer.portion,
        "spoon_after": spoon_after_minutes(timer.minutes) if timer.portion else None,
    }


def state_document(plan: Plan, state: RunState) -> dict[str, Any]:
    """Return what only the server can tell of where the run stands; the phone folds the rest by itself."""
    return {
        "status": state.status,
        "current": state.current,
        "weights": {key: _weight(weight) for key, weight in state.weights.items()},
        "targets": state.targets,
        "tolerances": state.tolerances,
        "pot_g": state.pot_g,
        "portions_g": state.portions_g,
        "scale": state.scale,
        "drawing_ahead": _way(state.drawing_ahead) if state.drawing_ahead else "",
        "settlement_sentence": state.settlement.sentence if state.settlement else "",
        "superfat_sentence": state.superfat_sentence,
        "off_words": off_words(state),
        "to_do": state.to_do,
        "ways": way_documents(state),
        "ask_why": ask_document(state),
        "advice": parts_advice(plan, state),
        "pot_check": pot_document(plan, state),
        "is_lye_heavy": state.is_lye_heavy,
        "pots": {pot.pot: _pot(pot) for pot in cooled(plan, state)},
        "cooling": cooling_document(cooling_screen(plan, state)),
        "start": msgspec.to_builtins(start_words(plan, state)),
        "rest": rest_advice(state),
        "changes": [
            {"event": change.event, "prompt": change.prompt, "effect": change.effect} for change in state.changes
        ],
        "timers": [_timer(timer) for timer in state.timers],
        "due_at": state.due_at.isoformat() if state.due_at else None,
    }


def _pot(pot: Cooled) -> dict[str, Any]:
    return {"began": pot.began.isoformat(), "curve": pot.curve}


def _weight(weight: Weight) -> dict[str, Any]:
    return {"mass_g": weight.mass_g, "target_g": weight.target_g, "name": weight.name, "is_within": weight.is_within}


def _timer(timer: RunningTimer) -> dict[str, Any]:
    return {"key": timer.key, "label": timer.label, "ends_at": timer.ends_at.isoformat()}


def fact_documents(facts: Sequence[Fact], have: int = 0) -> list[dict[str, Any]]:
    """Return the events that a device does not hold yet, as it keeps them."""
    return [
        {
            "id": fact.id,
            "position": fact.position,
            "kind": fact.kind,
            "prompt": fact.prompt,
            "payload": fact.payload,
            "happened_at": fact.happened_at.isoformat(),
            "device": fact.device,
            "person": fact.person,
            "seen": fact.seen,
        }
        for fact in facts
        if fact.position > have
    ]
