"""Runs and the facts that make them up."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING, Any, NoReturn

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from soapbench.bars.models import Bar, Revision
from soapbench.bench import plan as plans
from soapbench.shelf.models import Lot
from soapbench.workshop.models import Workshop

if TYPE_CHECKING:
    from soapbench.bench.plan import Plan


class RunQuerySet(models.QuerySet["Run"]):
    """Runs, narrowed by the questions that the bench, the rack and the logbook ask."""

    def seen_by(self, workshop: Workshop) -> RunQuerySet:
        return self.filter(workshop=workshop)

    def open(self) -> RunQuerySet:
        return self.filter(status__in=Run.OPEN)

    def at_the_bench(self) -> RunQuerySet:
        return self.filter(status=Run.Status.BENCH)

    def on_the_rack(self) -> RunQuerySet:
        return self.filter(status__in=[Run.Status.RESTING, Run.Status.CURING])

    def finished(self) -> RunQuerySet:
        return self.exclude(status__in=Run.OPEN)

    def with_deviations(self) -> RunQuerySet:
        return self.filter(deviations__gt=0)

    def matching(self, text: str) -> RunQuerySet:
        """Return runs whose bar, code or reason contains the words."""
        found = self
        for word in text.split():
            found = found.filter(Q(code__icontains=word) | Q(bar__name__icontains=word) | Q(ended_why__icontains=word))
        return found


class Run(models.Model):
    """One batch being made: a frozen plan and the events that happened to it.

    The columns after `plan` are a cache of the folded state, kept so that lists ask once;
    `rebuild_runs` remakes them from the events.
    """

    class Status(models.TextChoices):
        BENCH = "bench", _("at the bench")
        RESTING = "resting", _("resting")
        CURING = "curing", _("curing")
        RELEASED = "released", _("released")
        REJECTED = "rejected", _("rejected")
        STOPPED = "stopped", _("stopped")

    OPEN = (Status.BENCH, Status.RESTING, Status.CURING)

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    workshop = models.ForeignKey(Workshop, on_delete=models.PROTECT, related_name="runs")
    bar = models.ForeignKey(Bar, on_delete=models.PROTECT, related_name="runs")
    revision = models.ForeignKey(Revision, on_delete=models.PROTECT, related_name="runs")
    code = models.CharField(_("batch code"), max_length=40)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    plan_document = models.JSONField()

    status = models.CharField(max_length=10, choices=Status, default=Status.BENCH)
    prompt = models.CharField(max_length=120, blank=True)  # the key of the current prompt
    prompt_title = models.CharField(max_length=200, blank=True)
    due_at = models.DateTimeField(null=True, blank=True)  # when the current wait is over
    due_until = models.DateTimeField(null=True, blank=True)  # until when the loaf is best taken out and cut
    paused_since = models.DateTimeField(null=True, blank=True)  # on hold since then
    deviations = models.PositiveIntegerField(default=0)
    started_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_why = models.CharField(max_length=2000, blank=True)
    bars_made = models.PositiveIntegerField(null=True, blank=True)
    superfat_central = models.FloatField(null=True, blank=True)
    lesson = models.JSONField(null=True, blank=True)  # what it teaches the next plan; see learning.lesson
    put_off = models.CharField(max_length=2300, blank=True)  # why it waits for another day, "" while it goes on
    event_count = models.PositiveIntegerField(default=0)
    head_digest = models.CharField(max_length=64, blank=True)

    objects = RunQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at"]
        constraints = [models.UniqueConstraint(fields=["workshop", "code"], name="run_code_once")]
        indexes = [
            models.Index(fields=["workshop", "-made_at"]),
            models.Index(fields=["workshop", "status", "-made_at"]),
        ]

    def __str__(self) -> str:
        return self.code

    @property
    def plan(self) -> Plan:
        return plans.from_document(self.plan_document)

    @property
    def is_open(self) -> bool:
        return self.status in self.OPEN


class AppendOnly(Exception):
    """Somebody tried to change or delete an event."""


NEVER_CHANGED = "Events are never changed. Append a correction instead."
NEVER_DELETED = "Events are never deleted. Append a correction instead."
ONE_WRITER = "Events are written by events.append alone, one at a time."


class EventQuerySet(models.QuerySet["Event"]):
    """Events can be read. Everything else is refused here as well as on the row itself."""

    def update(self, **kwargs: Any) -> NoReturn:
        raise AppendOnly(NEVER_CHANGED)

    def bulk_update(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnly(NEVER_CHANGED)

    def update_or_create(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnly(NEVER_CHANGED)

    def delete(self) -> NoReturn:
        raise AppendOnly(NEVER_DELETED)

    def bulk_create(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnly(ONE_WRITER)


class Event(models.Model):
    """One fact of a run. Written by `events.append` alone, never changed, never deleted."""

    id = models.UUIDField(primary_key=True, editable=False)  # UUIDv7, made on the device
    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="events")
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=20)
    prompt = models.CharField(max_length=120, blank=True)
    payload = models.JSONField()
    happened_at = models.DateTimeField()  # by the server's clock as far as the device knew it
    device_at = models.DateTimeField(null=True, blank=True)  # by the device's own, as it was
    received_at = models.DateTimeField()
    seen = models.PositiveIntegerField(null=True, blank=True)  # how many events whoever tapped knew of
    device = models.CharField(max_length=64)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    previous_digest = models.CharField(max_length=64, blank=True)
    digest = models.CharField(max_length=64)

    objects = EventQuerySet.as_manager()

    class Meta:
        ordering = ["run", "position"]
        constraints = [models.UniqueConstraint(fields=["run", "position"], name="event_position_once")]

    def __str__(self) -> str:
        return f"{self.position} {self.kind}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self._state.adding:
            raise AppendOnly(NEVER_CHANGED)
        super().save(*args, force_insert=True)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise AppendOnly(NEVER_DELETED)


class Attachment(models.Model):
    """The file of an "attached" event: a cache of what the event says, and where the file lies."""

    class What(models.TextChoices):
        PHOTO = "photo", _("photo")
        VOICE = "voice", _("voice note")

    event = models.OneToOneField(Event, on_delete=models.PROTECT, primary_key=True, related_name="attachment")
    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="attachments")
    what = models.CharField(max_length=5, choices=What)
    sha256 = models.CharField(max_length=64)
    media = models.CharField(max_length=20)
    size = models.PositiveIntegerField()
    width = models.PositiveIntegerField(null=True, blank=True)  # px, of a photo
    height = models.PositiveIntegerField(null=True, blank=True)
    file = models.FileField(max_length=120)

    def __str__(self) -> str:
        return f"{self.what} {self.sha256[:8]}"

    @property
    def ending(self) -> str:
        return str(self.file.name).rpartition(".")[2]


class LotUse(models.Model):
    """Grams that a run weighed out of a lot: a cache of its events, so that the shelf asks once for all runs."""

    run = models.ForeignKey(Run, on_delete=models.CASCADE, related_name="lots_used")
    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="uses")
    mass_g = models.FloatField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["run", "lot"], name="lot_use_once")]

    def __str__(self) -> str:
        return f"{self.mass_g:g} g"
