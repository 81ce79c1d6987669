"""The workshop: its people, its scale, its vessels, moulds and tools."""

from __future__ import annotations

import secrets

from django.contrib.auth.models import AbstractUser
from django.core.validators import MinValueValidator
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from soapbench.science.mould import Mould as MouldShape


class Workshop(models.Model):
    """One small business with its rooms and habits."""

    name = models.CharField(_("name"), max_length=120)
    is_invented = models.BooleanField(default=False, help_text=_("Demo data of our own invention."))
    room_temperature_c = models.FloatField(_("usual room temperature, °C"), default=20)
    emergency_number = models.CharField(_("emergency services"), max_length=40, blank=True)
    poison_centre_number = models.CharField(_("poison centre"), max_length=40, blank=True)
    hospital = models.CharField(_("nearest hospital"), max_length=120, blank=True)

    def __str__(self) -> str:
        return self.name

    @property
    def has_emergency_numbers(self) -> bool:
        return bool(self.emergency_number and self.poison_centre_number)


class Person(AbstractUser):
    """Somebody who works here and signs what was done."""

    workshop = models.ForeignKey(Workshop, on_delete=models.PROTECT, related_name="people", null=True, blank=True)
    is_owner = models.BooleanField(default=False)
    caustic_training_on = models.DateField(_("trained in handling caustics on"), null=True, blank=True)

    @property
    def name(self) -> str:
        return self.get_full_name() or self.username


class Equipment(models.Model):
    """What every piece of equipment has: a workshop, a stable key, a name."""

    key = models.SlugField(max_length=60)
    name = models.CharField(_("name"), max_length=80)
    is_here = models.BooleanField(_("in the workshop and usable"), default=True)

    class Meta:
        abstract = True
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Scale(Equipment):
    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="scales")
    resolution_g = models.FloatField(_("smallest step, g"), validators=[MinValueValidator(0.001)])
    capacity_g = models.FloatField(_("most it carries, g"), validators=[MinValueValidator(1)])
    check_mass_g = models.FloatField(_("known mass to try it with, g"), default=0, validators=[MinValueValidator(0)])
    check_name = models.CharField(_("what the known mass is"), max_length=60, blank=True)

    class Meta(Equipment.Meta):
        constraints = [models.UniqueConstraint(fields=["workshop", "key"], name="scale_key_once")]


class Vessel(Equipment):
    """A jug, pot or cup, with what it weighs empty."""

    class Use(models.TextChoices):
        LYE = "lye", _("lye jug")
        POT = "pot", _("mixing pot")
        CUP = "cup", _("portion cup")

    class Material(models.TextChoices):
        POLYPROPYLENE = "polypropylene", _("polypropylene (5)")
        HDPE = "hdpe", _("HDPE (2)")
        STEEL = "steel", _("stainless steel")
        SILICONE = "silicone", _("silicone")
        GLASS = "glass", _("glass")

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="vessels")
    use = models.CharField(max_length=10, choices=Use)
    material = models.CharField(max_length=20, choices=Material)
    volume_ml = models.FloatField(_("volume, ml"), validators=[MinValueValidator(1)])
    tare_g = models.FloatField(_("weight empty, g"), validators=[MinValueValidator(0)])

    class Meta(Equipment.Meta):
        constraints = [models.UniqueConstraint(fields=["workshop", "key"], name="vessel_key_once")]


class Mould(Equipment):
    class Shape(models.TextChoices):
        BOX = "box", _("loaf")
        SLAB = "slab", _("slab")
        CYLINDER = "cylinder", _("cylinder")
        CAVITIES = "cavities", _("cavities")

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="moulds")
    shape = models.CharField(max_length=10, choices=Shape)
    length_mm = models.FloatField(_("length, mm"), default=0)
    width_mm = models.FloatField(_("width, mm"), default=0)
    height_mm = models.FloatField(_("height, mm"), default=0)
    diameter_mm = models.FloatField(_("diameter, mm"), default=0)
    cavities = models.PositiveIntegerField(_("number of cavities"), default=0)
    cavity_ml = models.FloatField(_("volume of a cavity, ml"), default=0)

    class Meta(Equipment.Meta):
        constraints = [models.UniqueConstraint(fields=["workshop", "key"], name="mould_key_once")]

    @property
    def as_shape(self) -> MouldShape:
        """Return the shape that the sums work with."""
        return MouldShape(
            shape=self.shape,  # type: ignore[arg-type]  # the column's choices are the shape's own
            length_mm=self.length_mm,
            width_mm=self.width_mm,
            height_mm=self.height_mm,
            diameter_mm=self.diameter_mm,
            cavities=self.cavities,
            cavity_ml=self.cavity_ml,
        )


class Tool(Equipment):
    class Kind(models.TextChoices):
        BLENDER = "blender", _("stick blender")
        SPATULA = "spatula", _("spatula")
        THERMOMETER = "thermometer", _("thermometer")
        SKEWER = "skewer", _("skewer")
        HANGER = "hanger", _("hanger")
        COMB = "comb", _("comb")
        SPOON = "spoon", _("spoon")
        DIVIDER = "divider", _("divider")
        CUTTER = "cutter", _("cutter")
        OVEN = "oven", _("oven")

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="tools")
    kind = models.CharField(max_length=12, choices=Kind)
    diameter_mm = models.FloatField(_("thickness of the drawing part, mm"), default=0)

    class Meta(Equipment.Meta):
        constraints = [models.UniqueConstraint(fields=["workshop", "key"], name="tool_key_once")]


class TokenBucket(models.Model):
    """How much is left of somebody's tries at a password; see throttle.take."""

    digest = models.CharField(max_length=64, primary_key=True)  # of name and address, so that neither is kept
    share = models.FloatField()  # of the bucket that is full, 0..1
    updated_at = models.DateTimeField()

    def __str__(self) -> str:
        return self.digest[:8]


def new_calendar_token() -> str:
    """Return what nobody guesses: 32 bytes of the system's randomness."""
    return secrets.token_urlsafe(32)


class CalendarLink(models.Model):
    """The private address where the calendar of one person fetches what is due. Whoever knows it needs no password."""

    person = models.OneToOneField(Person, on_delete=models.CASCADE, related_name="calendar_link")
    token = models.CharField(max_length=64, unique=True, default=new_calendar_token)
    made_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.token[:4]}…"
