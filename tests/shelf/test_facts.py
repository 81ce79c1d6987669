from datetime import date

import pytest

from soapbench.shelf.facts import facts_for, stand_ins_for
from soapbench.shelf.models import Lot, Material


def lot(workshop, key, **columns):
    material = Material.objects.get(key=key)
    columns = {"code": "X", "received_g": 100, "bought_on": date(2026, 1, 1), **columns}
    return Lot.objects.create(workshop=workshop, material=material, **columns)


def test_the_figure_on_the_lots_paper_wins(workshop):
    fact = facts_for(workshop, ["coconut"])["coconut"]

    assert (fact.sv_low, fact.sv_high, fact.sv_own) == (248, 265, 257.4)


def test_a_lot_without_a_figure_leaves_the_published_range(workshop):
    assert facts_for(workshop, ["castor"])["castor"].sv_own is None


def test_the_oldest_lot_is_weighed_from_first(workshop):
    older = lot(workshop, "shea", bought_on=date(2025, 1, 1), saponification_value=171)

    fact = facts_for(workshop, ["shea"])["shea"]

    assert (fact.lot, fact.sv_own, fact.left_g) == (older.pk, 171, 3100)


def test_a_lot_of_unknown_age_comes_last(workshop):
    undated = lot(workshop, "shea", bought_on=None)

    assert facts_for(workshop, ["shea"])["shea"].lot != undated.pk


def test_an_emptied_lot_gives_way_to_the_next(workshop):
    older = lot(workshop, "shea", bought_on=date(2025, 1, 1))

    fact = facts_for(workshop, ["shea"], {older.pk: 100.0})["shea"]

    assert fact.lot_code == "SH-2609"
    assert fact.left_g == 3000


def test_what_is_set_aside_or_used_up_does_not_count(workshop):
    fact = facts_for(workshop, ["palm"])["palm"]

    assert (fact.lot, fact.left_g) == (None, None)


def test_the_certificate_of_the_lot_sets_the_limit(workshop):
    fact = facts_for(workshop, ["fig_shade_scent"])["fig_shade_scent"]

    assert (fact.limit_percent, fact.limit_confidence) == (2.6, "supplier")
    assert "invented certificate 12" in fact.limit_source


def test_a_scent_without_a_paper_keeps_the_remembered_limit_and_says_so(workshop):
    fact = facts_for(workshop, ["lemongrass_oil"])["lemongrass_oil"]

    assert (fact.limit_percent, fact.limit_confidence) == (1.4, "from memory")


def test_an_own_material_wins_over_the_reference_one(workshop):
    Material.objects.create(workshop=workshop, key="olive", kind="fat", name="Our olive", sv_low=185, sv_high=190)

    fact = facts_for(workshop, ["olive"])["olive"]

    assert fact.name == "Our olive"
    assert fact.lot_code == "OL-2609"  # the lot stays with the material's key


def test_another_workshops_lots_and_materials_are_not_seen(world):
    facts = facts_for(world.stranger.workshop, ["coconut", "fathom_mica"])

    assert list(facts) == ["coconut"]
    assert facts["coconut"].lot is None


def test_an_unknown_key_is_left_out(workshop):
    assert facts_for(workshop, ["unobtainium"]) == {}


@pytest.mark.parametrize("keys", [["olive"], ["olive", "coconut", "shea", "castor", "kaolin", "lavender_oil"]])
def test_it_asks_four_times_however_many_materials(workshop, keys, django_assert_num_queries):
    with django_assert_num_queries(4):
        facts_for(workshop, keys)


def test_stand_ins_are_the_fats_colours_and_scents_at_hand(workshop):
    found = stand_ins_for(workshop)

    assert {"shea", "charcoal", "woodsmoke_scent"} <= set(found)
    assert not {"sodium_hydroxide", "palm", "babassu"} & set(found)


def test_what_is_used_up_by_weighing_stands_in_for_nothing(workshop):
    kelp = Lot.objects.get(code="KM-03")

    assert "kelp_mica" not in stand_ins_for(workshop, {kelp.pk: 18.0})
