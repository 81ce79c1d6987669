"""What the page of a material says beside its columns."""

import pytest

from soapbench.science.acids import ACIDS
from soapbench.science.restricted import strictest_limit
from soapbench.shelf import reference
from soapbench.shelf.acids import CITRIC, KINDS, other_form, strength
from soapbench.shelf.models import AllergenShare, FattyAcidShare, Material

pytestmark = pytest.mark.django_db


def page_of(client, key):
    return client.get(f"/shelf/{Material.objects.get(key=key).pk}/").content.decode()


@pytest.mark.parametrize("key", ["avocado", "rice_bran", "argan", "neem"])
def test_a_fat_with_a_wide_published_range_says_how_it_is_counted(as_owner, key):
    assert "varies a lot" in page_of(as_owner, key)


def test_a_lot_with_a_value_of_its_own_settles_a_wide_range(as_owner):
    page = page_of(as_owner, "shea")

    assert "lot SH-2609 brings its own value: 178.2 mg KOH/g counts" in page


@pytest.mark.parametrize(
    ("key", "words"), [("jojoba", "is a wax. Its esters react slowly"), ("lanolin", "It gets no alkali")]
)
def test_waxes_and_what_hardly_saponifies_say_how_they_are_handled(as_owner, key, words):
    assert words in page_of(as_owner, key)


def test_a_fat_that_is_counted_in_full_says_nothing(as_owner):
    assert "varies a lot" not in page_of(as_owner, "olive")


def test_an_own_fat_with_a_value_that_no_fat_has_is_a_sentence_and_no_broken_page(as_owner, workshop):
    Material.objects.create(workshop=workshop, kind="fat", key="odd", name="Odd", sv_low=20, sv_high=30)

    assert "too low for Odd" in page_of(as_owner, "odd")


def test_a_fat_holds_its_calculated_values_against_the_published_ones(as_owner):
    page = page_of(as_owner, "olive")

    assert "saponification value (AOCS Cd 3a-94) agrees" in page
    assert "iodine value (AOCS Cd 1c-85) agrees" in page


def test_a_fat_whose_values_do_not_agree_says_so(as_owner, workshop):
    row = Material.objects.create(workshop=workshop, kind="fat", key="odd", name="Odd", sv_low=240, sv_high=250)
    FattyAcidShare.objects.create(material=row, acid="C18:1", percent_low=95, percent_high=100, source="own")

    assert "does not agree" in page_of(as_owner, "odd")


def test_spoons_are_grams_where_a_density_is_stated_and_the_scale_is_right(as_owner):
    # 0.32 g/ml, as the demo invents it: 1.6 g in 5 ml, 4.8 g in 15 ml.
    page = page_of(as_owner, "fathom_mica")

    assert "1.6 g" in page and "4.8 g" in page
    assert "A spoon is a guess" in page


def test_without_a_density_a_spoon_cannot_be_turned_into_grams(as_owner):
    page = page_of(as_owner, "kaolin")

    assert "a spoon of it cannot be turned into grams" in page
    assert "Level teaspoon" not in page


def test_nobody_is_told_spoons_of_alkali(as_owner):
    assert "spoon" not in page_of(as_owner, "sodium_hydroxide")


def test_a_powder_of_the_makers_own_may_state_its_density(as_owner, workshop):
    as_owner.post(
        "/shelf/new/addition/",
        {"name": "Salt, flakes", "takes_koh_mg_per_g": "0", "density_g_per_ml": "0,6", "confidence": "supplier"},
    )

    assert "3.0 g" in page_of(as_owner, "salt_flakes")


def test_a_scent_says_how_much_of_it_its_limited_parts_allow(as_owner):
    # IFRA 49, methyl eugenol in category 9: 0.00087 %; over 0.13 % in clove bud oil (EFSA): 0.669 %.
    page = page_of(as_owner, "clove_bud_oil")

    assert "Methyl Eugenol: 0.00087 % of the bar at most" in page
    assert "that is 0.669 % of this scent" in page
    assert "not a label allergen" in page


def test_a_trace_of_a_limited_part_never_reaches_its_limit(as_owner):
    assert "this scent alone never reaches that" in page_of(as_owner, "lavender_oil")


def test_every_acid_of_the_tables_takes_what_its_molar_mass_says():
    reference.load()

    for key, kind in KINDS.items():
        row = Material.objects.get(key=key)
        taken = row.takes_koh_mg_per_g or row.sv_low
        share = {"lactic_acid_80": 0.80, "vinegar": 0.05}.get(key, 1.0)
        assert taken == pytest.approx(share * ACIDS[kind].koh_mg_per_g, rel=0.001)
    taking = Material.objects.filter(takes_koh_mg_per_g__gt=0).values_list("key", flat=True)
    assert set(taking) <= set(KINDS)


def test_each_form_of_citric_acid_knows_the_other():
    assert [other_form(key) for key in (*CITRIC, "salt")] == [CITRIC[1], CITRIC[0], None]


def test_the_strength_of_a_solution_follows_from_the_alkali_that_it_takes():
    assert strength("lactic", 498.3) == pytest.approx(0.80, abs=0.001)
    assert strength("lactic", 9999) == 1


def test_what_is_limited_but_no_label_allergen_is_marked_so():
    reference.load()

    unlisted = AllergenShare.objects.filter(is_listed=False)
    assert {share.name for share in unlisted} == {"Methyl Eugenol"}
    assert all(strictest_limit(share.name) for share in unlisted)
