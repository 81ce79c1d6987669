"""Calendar entries after RFC 5545: short, plain, with no names of people."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from uuid import uuid5

from django.conf import settings
from django.utils import timezone
from django.utils.translation import gettext as _
from icalendar import Alarm, Calendar, Event

from soapbench.bench.models import Run
from soapbench.rack.waits import Wait

PRODUCT = "-//soapbench//soapbench//EN"
LASTS = timedelta(minutes=15)  # room for a finger in the calendar; own choice
ASK_AGAIN = timedelta(hours=1)
NIGHT_BEGINS, NIGHT_ENDS = time(21), time(7)  # nobody is rung out of bed for a bar of soap; own choice


@dataclass(frozen=True)
class Entry:
    """A wait of a batch, with what a calendar needs to see that it moved."""

    run: Run
    wait: Wait
    changed_at: datetime  # when the batch's last event reached the server
    address: str  # of the batch's page

    @property
    def uid(self) -> str:
        """Return the same id for the same wait of the same batch, for ever (a UUID, as RFC 7986 advises)."""
        return str(uuid5(self.run.pk, self.wait.key))


def calendar(entries: Iterable[Entry], *, is_feed: bool) -> bytes:
    """Return the entries as an iCalendar file; a feed says how often it is worth asking again."""
    made = Calendar()
    for name, value in {"prodid": PRODUCT, "version": "2.0", "calscale": "GREGORIAN", "method": "PUBLISH"}.items():
        made.add(name, value)
    if is_feed:
        for name, value in {"name": "soapbench", "x-wr-calname": "soapbench"}.items():
            made.add(name, value)
        made.add("x-wr-timezone", settings.TIME_ZONE)
        made.add("refresh-interval", ASK_AGAIN, parameters={"VALUE": "DURATION"})
        made.add("x-published-ttl", "PT1H")
    for entry in entries:
        made.add_component(_event(entry))
    return bytes(made.to_ical())


def _event(entry: Entry) -> Event:
    run, wait = entry.run, entry.wait
    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", entry.changed_at.astimezone(UTC))
    event.add("last-modified", entry.changed_at.astimezone(UTC))
    event.add("sequence", run.event_count)  # grows with every event, so with every move
    event.add("dtstart", to_seconds(wait.due_at))
    event.add("dtend", to_seconds(wait.due_at) + LASTS)
    event.add("summary", f"{wait.act} · {run.bar.name}")
    event.add("description", description(entry))
    event.add("url", entry.address)
    event.add("status", "CONFIRMED" if wait.is_running else "TENTATIVE")
    event.add("transp", "TRANSPARENT")  # the maker is not busy all that time
    event.add("class", "PRIVATE")
    event.add_component(_alarm(wait))
    return event


def to_seconds(moment: datetime) -> datetime:
    """Return a moment in UTC without its fraction, which a calendar cannot hold."""
    return moment.astimezone(UTC).replace(microsecond=0)


def description(entry: Entry) -> str:
    """Return the batch's code, and whether the hour is still only planned."""
    planned = "" if entry.wait.is_running else _("By the plan; it moves with what comes before.")
    return "\n".join(filter(None, (entry.run.code, planned)))


def _alarm(wait: Wait) -> Alarm:
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", wait.act)
    alarm.add("trigger", rings_at(wait) - wait.due_at)
    return alarm


def rings_at(wait: Wait) -> datetime:
    """Return when the alarm rings: when it is due, but by night not before seven, where it can wait."""
    here = timezone.localtime(wait.due_at)
    if wait.rings_at_night or NIGHT_ENDS <= here.time() < NIGHT_BEGINS:
        return wait.due_at
    day = here.date() + timedelta(days=1 if here.time() >= NIGHT_BEGINS else 0)
    return timezone.make_aware(datetime.combine(day, NIGHT_ENDS))
