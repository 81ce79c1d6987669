import csv

import pytest
from django.conf import settings

from soapbench.science.alkali import Fat
from soapbench.shelf import reference
from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material

pytestmark = pytest.mark.django_db


def test_loading_twice_changes_nothing():
    reference.load()
    first = list(Material.objects.order_by("pk").values())

    reference.load()

    assert list(Material.objects.order_by("pk").values()) == first
    assert FattyAcidShare.objects.count() == len(list(reference.rows("fatty_acids.csv")))


def test_a_corrected_figure_reaches_the_row_that_is_there():
    reference.load()
    olive = Material.objects.get(key="olive")
    Material.objects.filter(pk=olive.pk).update(sv_low=1)

    reference.load()

    olive.refresh_from_db()
    assert (olive.sv_low, olive.sv_high) == (184, 196)  # Codex CXS 33-1981


def test_own_materials_stay_as_they_are(workshop):
    own = Material.objects.create(workshop=workshop, key="olive", kind="fat", name="Our olive", sv_low=185, sv_high=190)

    reference.load()

    own.refresh_from_db()
    assert own.name == "Our olive"


def test_every_fat_makes_a_fat_that_the_sums_accept():
    reference.load()

    for row in Material.objects.filter(kind="fat"):
        takes = Fat(row.name, 100, row.sv_low, row.sv_high, kind=row.fat_kind).koh_g
        assert (takes > 0) == (row.fat_kind != "unsaponifiable")


def test_every_row_names_how_sure_it_is_and_every_fat_its_source():
    reference.load()

    assert not Material.objects.filter(confidence="").exists()
    assert not Material.objects.filter(kind="fat", source="").exists()


def test_a_scent_without_a_paper_has_no_limit_unless_the_row_says_from_where():
    reference.load()

    assert Material.objects.get(key="lavender_oil").limit_percent is None
    for scent in Material.objects.filter(kind="scent", limit_percent__isnull=False):
        assert scent.limit_source and scent.limit_confidence in ("from memory", "computed")


def test_the_limit_of_clove_is_that_of_its_methyl_eugenol():
    # IFRA Amendment 49, methyl eugenol in category 9: 0.00087 %; EFSA 2023: clove oils hold up to 0.13 % of it.
    reference.load()

    limit = Material.objects.get(key="clove_bud_oil").limit_percent
    assert limit == pytest.approx(0.00087 / 0.0013, rel=0.02)
    assert limit < 0.00087 / 0.0013


def test_no_fatty_acid_range_is_upside_down_or_over_a_hundred():
    reference.load()

    for share in FattyAcidShare.objects.all():
        assert 0 <= share.percent_low <= share.percent_high <= 100
    for share in AllergenShare.objects.all():
        assert 0 <= share.percent_low <= share.percent_high <= 100


def test_no_single_sample_stands_as_an_exact_value():
    # Only free acids, whose value follows from their molar mass, may have a range of no width.
    reference.load()

    exact = Material.objects.filter(kind="fat", fat_kind="triglyceride")
    assert [row.key for row in exact if row.sv_low == row.sv_high] == []


# Codex CXS 210: palm oil 0.891 to 0.899 at 50 °C over water at 20 °C; measured values of palm oil
# near 40 °C lie at 0.900 g/ml.
def test_a_density_is_carried_to_the_temperature_of_the_batter():
    palm = next(row for row in reference.rows("fats.csv") if row["key"] == "palm")

    assert reference.density_at_batter(palm) == pytest.approx(0.900, abs=0.003)


def test_the_tables_hold_no_duplicate():
    for name in ("fats.csv", "materials.csv"):
        with (settings.FIXTURES_DIR / name).open(newline="") as file:
            keys = [row["key"] for row in csv.DictReader(file)]
        assert len(keys) == len(set(keys))
