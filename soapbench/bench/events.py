"""The one writer of the log: every fact of every run goes through `append`."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from django.db import IntegrityError, transaction
from django.utils import timezone

from soapbench.bench import cache, rules
from soapbench.bench.integrity import digest_of, root_of
from soapbench.bench.models import Event, Run
from soapbench.bench.payloads import parse, stored
from soapbench.bench.refusal import Refused
from soapbench.bench.run import fold
from soapbench.bench.state import Fact, RunState
from soapbench.science.words import mark, say
from soapbench.workshop.models import Person

__all__ = ["Appended", "Refused", "append", "facts_of", "state_of"]

MOST_AHEAD = timedelta(days=1)  # how far a phone's clock may be ahead of the server's
MOST_BEFORE = timedelta(days=1)  # how long before the run was made something may have happened
LONGEST_DEVICE = 64
COLUMNS = (
    "id",
    "position",
    "kind",
    "prompt",
    "payload",
    "happened_at",
    "received_at",
    "person_id",
    "device",
    "device_at",
    "seen",
)
OTHER_BATCH = mark("This entry belongs to another batch. Load the page again.")


@dataclass(frozen=True)
class Appended:
    """The event as the log keeps it, the run after it, and whether it was new."""

    event: Event
    state: RunState
    was_new: bool
    remark: str = ""  # something to tell the maker about it, or ""


def append(
    run: Run,
    *,
    id: uuid.UUID | str,
    kind: str,
    prompt: str,
    payload: Any,
    happened_at: datetime,
    device: str,
    by: Person,
    device_at: datetime | None = None,
    seen: int | None = None,
) -> Appended:
    """Record one fact of a run and return it with the state that follows.

    The same id twice is one event: the second time nothing is written and the answer is the same. Position and digest
    are given under a lock on the run, in the same transaction as the event and the run's own columns.

    Args:
        happened_at: by the server's clock, as far as the device knew it.
        device_at: by the device's own clock, kept beside it.
        seen: how many events of the run whoever tapped knew of, None when that is not known.

    Raises:
        Refused: the payload, the time or the moment is not acceptable; the sentence says why, the field where.
    """
    known = _read_id(id)
    with transaction.atomic():
        locked = Run.objects.select_for_update().get(pk=run.pk)
        plan = locked.plan
        facts = facts_of(locked)
        before = fold(plan, facts)
        if any(fact.id == str(known) for fact in facts):
            return Appended(Event.objects.get(pk=known), before, was_new=False)
        parsed = parse(kind, payload)
        _check_envelope(locked, prompt, happened_at, device)
        remark = rules.check(plan, before, facts, kind, prompt, parsed)
        knew = None if seen is None else max(0, min(seen, len(facts)))
        about = (kind, prompt, stored(parsed), knew)
        event = _write(locked, facts, known, about, (happened_at, device_at), device, by)
        state = fold(plan, (*facts, fact_of(event)))
        cache.keep(locked, plan, state, kind)
    return Appended(event, state, was_new=True, remark=remark)


def _read_id(id: uuid.UUID | str) -> uuid.UUID:
    if isinstance(id, uuid.UUID):
        return id
    try:
        return uuid.UUID(id)
    except (ValueError, AttributeError, TypeError) as error:
        raise Refused(say("This entry has no proper id. Load the page again."), "id") from error


def _check_envelope(run: Run, prompt: str, happened_at: datetime, device: str) -> None:
    if not isinstance(prompt, str):
        raise Refused(say("This batch has no such step. Load the page again."), "prompt")
    if not isinstance(device, str) or not device or len(device) > LONGEST_DEVICE or "\x00" in device:
        raise Refused(say("This device has no proper name. Load the page again."), "device")
    if not isinstance(happened_at, datetime) or timezone.is_naive(happened_at):
        raise Refused(say("The time of this entry has no time zone. Load the page again."), "happened_at")
    if happened_at > timezone.now() + MOST_AHEAD:
        raise Refused(
            say("The clock of this device is more than a day ahead. Set it right, then try again."), "happened_at"
        )
    if happened_at < run.made_at - MOST_BEFORE:
        raise Refused(
            say("This would have happened before the batch was begun. Set the device's clock."), "happened_at"
        )


def _write(
    run: Run,
    facts: tuple[Fact, ...],
    id: uuid.UUID,
    about: tuple[str, str, dict[str, Any], int | None],
    times: tuple[datetime, datetime | None],
    device: str,
    by: Person,
) -> Event:
    happened_at, device_at = times
    kind, prompt, payload, seen = about
    event = Event(
        id=id,
        run=run,
        position=len(facts) + 1,
        kind=kind,
        prompt=prompt,
        payload=payload,
        happened_at=happened_at.astimezone(UTC),
        device_at=_believable(device_at),
        received_at=timezone.now(),
        seen=seen,
        device=device,
        person=by,
        previous_digest=run.head_digest or root_of(run),
    )
    event.digest = digest_of(event)
    try:
        event.save()
    except IntegrityError as error:  # the id was taken by another batch a moment ago
        raise Refused(say(OTHER_BATCH), "id") from error
    run.event_count, run.head_digest = event.position, event.digest
    return event


def _believable(device_at: datetime | None) -> datetime | None:
    """Return what the device's clock said, or None where it never was a clock: what happened is kept all the same."""
    try:
        return device_at.astimezone(UTC) if device_at else None
    except (OverflowError, ValueError):
        return None


def fact_of(event: Event) -> Fact:
    """Return an event as the fold reads it."""
    return _fact(event, event.person.name)


def facts_of(run: Run) -> tuple[Fact, ...]:
    """Return the events of a run in their order, in two queries."""
    # Plain rows: making a model of every event would take most of the time of an append.
    rows = list(run.events.order_by("position").values_list(*COLUMNS, named=True))
    people = Person.objects.in_bulk({row.person_id for row in rows})
    return tuple(_fact(row, people[row.person_id].name) for row in rows)


def _fact(row: Any, person: str) -> Fact:
    return Fact(
        id=str(row.id),
        position=row.position,
        kind=row.kind,
        prompt=row.prompt,
        payload=row.payload,
        happened_at=row.happened_at,
        received_at=row.received_at,
        person=person,
        device=row.device,
        device_at=row.device_at,
        seen=row.seen,
    )


def state_of(run: Run) -> RunState:
    """Return where the run stands, folded from its events."""
    return fold(run.plan, facts_of(run))
