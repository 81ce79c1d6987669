"""The maker's line: each bar with its formula revisions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.db import models
from django.db.models import OuterRef, Subquery
from django.utils.translation import gettext_lazy as _

from soapbench.bars import formula
from soapbench.workshop.models import Workshop

if TYPE_CHECKING:
    from soapbench.bars.formula import Formula, Portion


class BarQuerySet(models.QuerySet["Bar"]):
    def seen_by(self, workshop: Workshop) -> BarQuerySet:
        return self.filter(workshop=workshop)

    def with_current(self) -> BarQuerySet:
        """Add `current_document` and `current_number` in the same query, so that a list asks once."""
        current = Revision.objects.filter(bar=OuterRef("pk")).order_by("-number")
        return self.annotate(
            current_document=Subquery(current.values("document")[:1]),
            current_number=Subquery(current.values("number")[:1]),
        )

    def in_the_line(self) -> BarQuerySet:
        return self.filter(is_retired=False)


class Bar(models.Model):
    """A named bar that is made again and again."""

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="bars")
    slug = models.SlugField(max_length=80)
    name = models.CharField(_("name"), max_length=80)
    description = models.TextField(_("description"), blank=True)
    is_invented = models.BooleanField(default=False)
    is_retired = models.BooleanField(_("no longer made"), default=False)

    objects = BarQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [models.UniqueConstraint(fields=["workshop", "slug"], name="bar_once")]

    def __str__(self) -> str:
        return self.name

    @property
    def portions(self) -> tuple[Portion, ...]:
        """Return the portions of the current revision; of bars that came by `with_current`."""
        document = getattr(self, "current_document", None)
        return formula.from_document(document).portions if document else ()


class Revision(models.Model):
    """One state of a bar's formula. Pinned once a run has used it; editing it then makes the next one."""

    bar = models.ForeignKey(Bar, on_delete=models.CASCADE, related_name="revisions")
    number = models.PositiveIntegerField()
    document = models.JSONField()  # a Formula, as soapbench.bars.formula writes it
    is_pinned = models.BooleanField(default=False)
    why = models.CharField(_("what changed and why"), max_length=200, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-number"]
        constraints = [models.UniqueConstraint(fields=["bar", "number"], name="revision_once")]

    def __str__(self) -> str:
        return f"{self.bar} · {self.number}"

    @property
    def formula(self) -> Formula:
        return formula.from_document(self.document)
