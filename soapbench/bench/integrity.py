"""The chain of digests: each event carries the digest of all that it stores and of the one before."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from soapbench.bench.files import digest_of_file
from soapbench.science.words import say

if TYPE_CHECKING:
    from soapbench.bench.models import Event, Run


@dataclass(frozen=True)
class Broken:
    """The first event of a run that does not fit, by its position, and why."""

    position: int
    sentence: str


def digest_of(event: Event) -> str:
    """Return the SHA-256 over every stored column and the digest before it, in canonical JSON."""
    document = {
        "id": str(event.id),
        "run": str(event.run_id),
        "position": event.position,
        "kind": event.kind,
        "prompt": event.prompt,
        "payload": event.payload,
        "happened_at": _canonical(event.happened_at),
        "received_at": _canonical(event.received_at),
        "device": event.device,
        "person": event.person_id,
        "previous": event.previous_digest,
    }
    if event.device_at is not None:  # entries from before there were two times keep their digest
        document["device_at"] = _canonical(event.device_at)
    if event.seen is not None:  # nor do those from before it was kept what a device knew
        document["seen"] = event.seen
    return _sha256(document)


def root_of(run: Run) -> str:
    """Return the SHA-256 over what a run was begun with, its frozen plan above all: the first event follows it."""
    document = {
        "run": str(run.pk),
        "workshop": run.workshop_id,
        "code": run.code,
        "bar": run.bar_id,
        "revision": run.revision_id,
        "made_at": _canonical(run.made_at),
        "made_by": run.made_by_id,
        "plan": run.plan_document,
    }
    return _sha256(document)


def _sha256(document: Mapping[str, Any]) -> str:
    text = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _canonical(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def verify(run: Run) -> Broken | None:
    """Return the first event of the run that does not fit its chain or its file, or None when every one does."""
    events = list(run.events.order_by("position"))
    previous = _before_the_first(run, events)
    if events and events[0].previous_digest != previous:
        why = say("its plan, its code or its bar was changed after it was begun.")
        return Broken(1, say("Entry 1 of {code} does not fit: {why}", code=run.code, why=why))
    for count, event in enumerate(events, start=1):
        sentence = _fault(event, count, previous)
        if sentence:
            return Broken(
                count,
                say("Entry {count} of {code} does not fit: {sentence}", count=count, code=run.code, sentence=sentence),
            )
        previous = event.digest
    if (run.event_count, run.head_digest) != (len(events), previous if events else ""):
        count = len(events) + 1
        return Broken(
            count,
            say(
                "{code} ends too early: entry {count} is missing, or the count was changed.", code=run.code, count=count
            ),
        )
    return _lost_file(run, [event for event in events if event.kind == "attached"])


def _before_the_first(run: Run, events: list[Event]) -> str:
    """Return what the first event must follow; those of before plans had a digest follow nothing."""
    if events and events[0].position == 1 and not events[0].previous_digest:
        return ""
    return root_of(run)


def _lost_file(run: Run, attached: list[Event]) -> Broken | None:
    """Return the first attachment whose file is missing, or is another one than the log says."""
    rows = run.attachments.in_bulk() if attached else {}
    for event in attached:
        row = rows.get(event.pk)
        found = digest_of_file(Path(row.file.path)) if row else ""
        if found != event.payload["sha256"]:
            why = say("its file was changed after it was kept.") if found else say("its file is missing.")
            return Broken(
                event.position,
                say("Entry {position} of {code} does not fit: {why}", position=event.position, code=run.code, why=why),
            )
    return None


def _fault(event: Event, position: int, previous: str) -> str:
    if event.position != position:
        return say("its number is {position}, so one is missing or was moved.", position=event.position)
    if event.previous_digest != previous:
        return say("it does not follow the entry before it.")
    if event.digest != digest_of(event):
        return say("what it says was changed after it was written.")
    return ""
