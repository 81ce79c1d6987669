"""Writes tests/vectors: runs small enough to read, with the state that the server's fold and the phone's must share.

    python -m tests.bench.vectors

Each file: {"name", "plan", "events": [{id, kind, prompt, payload, happened_at}], "expect": {"current", "done",
"skipped", "pot_g", "targets", "timers": [{key, ends_at}]}}. A field of the plan that has its default is left out.
"""

import dataclasses
import json
from datetime import datetime, timedelta
from pathlib import Path

import msgspec

from soapbench.bench.pausing import checks, in_vessel
from soapbench.bench.phone import plan_document
from soapbench.bench.plan import Plan, from_document
from soapbench.bench.run import fold
from soapbench.bench.safety import stages_now
from soapbench.bench.state import Fact
from tests.bench.sample import START
from tests.bench.vector_cases import CASES

FOLDER = Path(__file__).parent.parent / "vectors"


def vector(case):
    hand = case()
    state = fold(hand.plan, hand.facts)
    return {
        "name": case.__name__.replace("_", " "),
        "plan": without_defaults(hand.plan),
        "phone": for_the_phone(hand.plan),
        "events": [event_of(fact, is_two=any(each.seen is not None for each in hand.facts)) for fact in hand.facts],
        "expect": expected(hand.plan, state),
    }


def event_of(fact, *, is_two):
    """Return an event as plain data; who tapped it on which phone where there were two."""
    told = {name: getattr(fact, name) for name in ("id", "kind", "prompt", "payload")}
    who = {name: getattr(fact, name) for name in ("position", "person", "device", "seen")} if is_two else {}
    return {**told, "happened_at": fact.happened_at.isoformat(), **who}


def for_the_phone(plan):
    """Return what the page hands to the phone besides the plan itself."""
    document = plan_document(plan)
    moles = {key: lot["mol_per_g"] for key, lot in document["lots"].items()}
    return {name: document[name] for name in ("jug", "mol_per_g", "acid_mol_per_g")} | {"lots_mol_per_g": moles}


def in_hand(plan, state):
    return plan.prompt(state.current).line if state.current else ""


def expected(plan, state):
    return {
        "current": state.current,
        "done": list(state.done),
        "skipped": sorted(state.skipped),
        "ticked": state.ticked,
        "dealt": state.dealt,
        "pot_g": state.pot_g,
        "targets": state.targets,
        "paused_since": state.paused_since and state.paused_since.isoformat(),
        "checks": list(checks(plan, state, START, START + timedelta(minutes=6))),
        "in_vessel": in_vessel(plan, state, plan.line(line)) if (line := in_hand(plan, state)) else None,
        "rest": state.rest and [state.rest.gel, state.rest.earliest.isoformat(), state.rest.latest.isoformat()],
        "stages": list(stages_now(plan, state)),
        "rinsing_since": state.rinsing_since and state.rinsing_since.isoformat(),
        "superfat": state.superfat_as_asked,
        "strength": state.strength_as_asked,
        "takings": {key: [one.take_g, one.of_g, one.share] for key, one in state.takings.items()},
        "timers": [{"key": timer.key, "ends_at": timer.ends_at.isoformat()} for timer in state.timers],
        **({"in_hand": hands_of(state)} if state.in_hand else {}),
        **({"conflicts": conflicts_of(state)} if state.conflicts else {}),
        **({"notices": told(state)} if state.notices else {}),
    }


def hands_of(state):
    return {key: [held.person, held.device] for key, held in state.in_hand.items()}


def conflicts_of(state):
    return [[one.subject, [fact.id for fact in one.facts], list(one.counts), one.is_open] for one in state.conflicts]


def told(state):
    return {key: [notice.sentence for notice in notices] for key, notices in state.notices.items()}


def without_defaults(value):
    """Return plain data; a field that has its default is left out."""
    if dataclasses.is_dataclass(value):
        return {
            field.name: without_defaults(getattr(value, field.name))
            for field in dataclasses.fields(value)
            if field.default is dataclasses.MISSING or getattr(value, field.name) != field.default
        }
    if isinstance(value, dict):
        return {key: without_defaults(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [without_defaults(each) for each in value]
    return value


def expected_of(document):
    """Return what the server makes of a vector."""
    plan = from_document(document["plan"])
    facts = [fact_of(number, event) for number, event in enumerate(document["events"], 1)]
    return expected(plan, fold(plan, facts))


def fact_of(number, event):
    at = datetime.fromisoformat(event["happened_at"])
    who = event.get("person", "Ada"), event.get("device", "phone")
    return Fact(
        event["id"], number, event["kind"], event["prompt"], event["payload"], at, at, *who, seen=event.get("seen")
    )


def path_of(case):
    return FOLDER / f"{case.__name__}.json"


def write():
    FOLDER.mkdir(exist_ok=True)
    for case in CASES:
        document = vector(case)
        assert msgspec.convert(document["plan"], Plan)
        path_of(case).write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    write()
