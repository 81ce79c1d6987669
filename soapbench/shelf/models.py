"""The shelf: materials, what is known of them and from where, and the lots bought."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from soapbench.shelf.alkalis import working_purity
from soapbench.workshop.models import Workshop


class Confidence(models.TextChoices):
    """How far a figure can be trusted."""

    PUBLISHED = "published", _("published")
    COMPUTED = "computed", _("computed")
    MEMORY = "from memory", _("from memory, not checked")
    PRACTICE = "common practice", _("common practice, no source")
    SUPPLIER = "supplier", _("supplier's paper")
    INVENTED = "invented", _("invented for the demo")


class MaterialQuerySet(models.QuerySet["Material"]):
    def seen_by(self, workshop: Workshop) -> MaterialQuerySet:
        """Return the reference materials and this workshop's own."""
        return self.filter(Q(workshop=None) | Q(workshop=workshop))

    def of_kind(self, *kinds: str) -> MaterialQuerySet:
        return self.filter(kind__in=kinds)

    def in_bulk_by_key(self) -> dict[str, Material]:
        """Return the materials by key; a workshop's own wins over a reference one."""
        return {row.key: row for row in sorted(self, key=lambda row: row.workshop_id is not None)}


class Material(models.Model):
    """Something that can go into a bar. `workshop` is empty for reference materials."""

    class Kind(models.TextChoices):
        FAT = "fat", _("fat")
        ALKALI = "alkali", _("alkali")
        LIQUID = "liquid", _("liquid")
        COLOURANT = "colourant", _("colourant")
        SCENT = "scent", _("scent")
        ADDITION = "addition", _("other addition")

    class FatKind(models.TextChoices):
        TRIGLYCERIDE = "triglyceride", _("fat or oil")
        WAX_ESTER = "wax ester", _("wax")
        FATTY_ACID = "fatty acid", _("free fatty acid")
        UNSAPONIFIABLE = "unsaponifiable", _("hardly takes alkali")

    class State(models.TextChoices):
        LIQUID = "liquid", _("liquid at 20 °C")
        SOFT = "soft", _("soft at 20 °C")
        SOLID = "solid", _("solid at 20 °C")

    key = models.SlugField(max_length=60)
    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, null=True, blank=True, related_name="materials")
    kind = models.CharField(_("kind"), max_length=10, choices=Kind)
    name = models.CharField(_("name"), max_length=120)
    inci = models.CharField(_("INCI name, EU"), max_length=200, blank=True)
    inci_us = models.CharField(_("INCI name, US"), max_length=200, blank=True)
    inci_saponified = models.CharField(_("INCI name of its soap"), max_length=200, blank=True)
    ci_number = models.CharField(_("colour index number"), max_length=40, blank=True)

    fat_kind = models.CharField(max_length=16, choices=FatKind, blank=True)
    state = models.CharField(_("state"), max_length=8, choices=State, blank=True)
    sv_low = models.FloatField(_("saponification value from, mg KOH/g"), null=True, blank=True)
    sv_high = models.FloatField(_("saponification value to, mg KOH/g"), null=True, blank=True)
    iodine_low = models.FloatField(_("iodine value from"), null=True, blank=True)
    iodine_high = models.FloatField(_("iodine value to"), null=True, blank=True)
    melts_at_c = models.FloatField(_("fully molten at, °C"), null=True, blank=True)
    # Acids among the additions take alkali as well.
    takes_koh_mg_per_g = models.FloatField(_("alkali it takes, mg KOH/g"), default=0)

    density_g_per_ml = models.FloatField(_("density, g/ml"), null=True, blank=True)
    purity = models.FloatField(
        _("purity"), null=True, blank=True, validators=[MinValueValidator(0.01), MaxValueValidator(1)]
    )
    water_fraction = models.FloatField(_("share of water"), default=1)  # liquids: milk is not all water

    # The safety limit of a scent in the finished, rinsed-off bar; none known blocks a run.
    limit_percent = models.FloatField(_("most in the bar, %"), null=True, blank=True)
    limit_source = models.CharField(_("where the limit comes from"), max_length=200, blank=True)
    limit_confidence = models.CharField(max_length=16, choices=Confidence, blank=True)
    working_minutes = models.FloatField(_("minutes that scented batter stays pourable"), null=True, blank=True)
    flash_point_c = models.FloatField(_("flash point, °C"), null=True, blank=True)

    swatch = models.CharField(_("colour shown"), max_length=7, blank=True)
    handling = models.TextField(_("handling notes"), blank=True)
    notes = models.TextField(_("notes on the figures"), blank=True)  # for the shelf; the bench shows handling alone
    source = models.CharField(_("source"), max_length=300, blank=True)
    locator = models.CharField(_("where in the source"), max_length=300, blank=True)
    confidence = models.CharField(_("how sure"), max_length=16, choices=Confidence, default=Confidence.PUBLISHED)

    objects = MaterialQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["workshop", "key"], name="own_material_once"),
            # SQLite counts empty workshops as all different, so the reference rows need their own.
            models.UniqueConstraint(fields=["key"], condition=Q(workshop=None), name="reference_material_once"),
        ]

    def __str__(self) -> str:
        return self.name


class FattyAcidShare(models.Model):
    """One fatty acid of a fat, as a range in per cent of its fatty acids."""

    material = models.ForeignKey(Material, on_delete=models.CASCADE, related_name="fatty_acids")
    acid = models.CharField(max_length=12)
    percent_low = models.FloatField()
    percent_high = models.FloatField()
    source = models.CharField(max_length=300)
    locator = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["acid"]
        constraints = [models.UniqueConstraint(fields=["material", "acid"], name="fatty_acid_once")]

    def __str__(self) -> str:
        return f"{self.acid} {self.percent_low:g}–{self.percent_high:g} %"


class AllergenShare(models.Model):
    """One listed allergen or limited substance of a scent, as a range in per cent of the scent."""

    material = models.ForeignKey(Material, on_delete=models.CASCADE, related_name="allergens")
    name = models.CharField(max_length=120)  # as the list of Regulation (EU) 2023/1545 names it
    is_listed = models.BooleanField(default=True)  # False: not on that list, but limited, such as methyl eugenol
    cas = models.CharField(max_length=60, blank=True)
    percent_low = models.FloatField()
    percent_high = models.FloatField()
    source = models.CharField(max_length=300)
    confidence = models.CharField(max_length=16, choices=Confidence)

    class Meta:
        ordering = ["name"]
        constraints = [models.UniqueConstraint(fields=["material", "name"], name="allergen_once")]

    def __str__(self) -> str:
        return f"{self.name} {self.percent_low:g}–{self.percent_high:g} %"


class LotQuerySet(models.QuerySet["Lot"]):
    def seen_by(self, workshop: Workshop) -> LotQuerySet:
        return self.filter(workshop=workshop)

    def usable(self) -> LotQuerySet:
        """Return lots that may be weighed from: neither used up nor set aside."""
        return self.filter(status=Lot.Status.USABLE)


class Lot(models.Model):
    """One purchase of a material, with what its paper says."""

    class Status(models.TextChoices):
        USABLE = "usable", _("usable")
        SET_ASIDE = "set aside", _("set aside")
        USED_UP = "used up", _("used up")

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="lots")
    material = models.ForeignKey(Material, on_delete=models.PROTECT, related_name="lots")
    code = models.CharField(_("lot"), max_length=60)
    supplier = models.CharField(_("supplier"), max_length=120, blank=True)
    bought_on = models.DateField(_("bought on"), null=True, blank=True)
    best_before = models.DateField(_("best before"), null=True, blank=True)
    received_g = models.FloatField(_("bought, g"), validators=[MinValueValidator(0.01)])
    status = models.CharField(_("status"), max_length=10, choices=Status, default=Status.USABLE)
    # The supplier's own figures, which win over the published ones.
    saponification_value = models.FloatField(_("supplier's saponification value, mg KOH/g"), null=True, blank=True)
    purity = models.FloatField(
        _("supplier's purity"), null=True, blank=True, validators=[MinValueValidator(0.01), MaxValueValidator(1)]
    )
    # Alkali draws carbonic acid from the air. The purity on the paper counts the carbonate that comes of it.
    carbonate = models.FloatField(
        _("share of carbonate"), null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(1)]
    )
    carbonate_is_guess = models.BooleanField(_("the maker's own estimate"), default=False)
    titration = models.CharField(_("the titration behind the saponification value"), max_length=160, blank=True)
    limit_percent = models.FloatField(_("supplier's limit in the bar, %"), null=True, blank=True)
    certificate = models.CharField(_("certificate"), max_length=120, blank=True)

    objects = LotQuerySet.as_manager()

    class Meta:
        ordering = ["material__name", "bought_on", "pk"]
        constraints = [models.UniqueConstraint(fields=["workshop", "material", "code"], name="lot_once")]

    def __str__(self) -> str:
        return f"{self.material.name} · {self.code}"

    @property
    def stated_purity(self) -> float | None:
        """Return the purity on the paper, a fraction; else the usual one of the material."""
        return self.purity or self.material.purity

    @property
    def working_purity(self) -> float | None:
        """Return the purity that every sum counts on, a fraction: as stated, without the carbonate."""
        stated = self.stated_purity
        if stated is None or not self.carbonate:
            return stated
        return working_purity(stated, self.carbonate, self.material.key)
