"""The chain of digests: each event carries the digest of all that it stores and of the one before."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

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
    text = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _canonical(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def verify(run: Run) -> Broken | None:
    """Return the first event of the run that does not fit its chain, or None when every one does."""
    previous = ""
    count = 0
    for count, event in enumerate(run.events.order_by("position"), start=1):
        sentence = _fault(event, count, previous)
        if sentence:
            return Broken(count, f"Entry {count} of {run.code} does not fit: {sentence}")
        previous = event.digest
    if (run.event_count, run.head_digest) != (count, previous):
        return Broken(count + 1, f"{run.code} ends too early: entry {count + 1} is missing, or the count was changed.")
    return None


def _fault(event: Event, position: int, previous: str) -> str:
    if event.position != position:
        return f"its number is {event.position}, so one is missing or was moved."
    if event.previous_digest != previous:
        return "it does not follow the entry before it."
    if event.digest != digest_of(event):
        return "what it says was changed after it was written."
    return ""
