"""What a lot's paper says, typed on the page of a lot: carbonate, the form of an acid, a titration."""

from datetime import timedelta

import pytest
from django.utils import timezone
from django.utils.html import escape

from soapbench.shelf.facts import facts_for
from soapbench.shelf.models import Lot, Material

LOT = {"code": "N-1", "received_g": "2500", "status": "usable"}
# Blank 25.2 ml less 11.6 ml, 0.5 mol/l, 56.105 g/mol, 2.011 g: 189.7 mg KOH/g.
TITRATION = {"sample_g": "2.011", "blank_ml": "25.2", "used_ml": "11.6", "mol_per_l": "0,5"}


def key_of(key):
    return Material.objects.get(key=key, workshop=None)


def add(client, key, **typed):
    return client.post(f"/shelf/{key_of(key).pk}/lots/new/", {**LOT, **typed})


def errors_of(response):
    assert response.status_code == 422
    return {name: " ".join(words) for name, words in response.context["form"].errors.items()}


def only_lot(workshop, key):
    """Put away what the demo brought, so that the next lot is the one in use."""
    workshop.lots.filter(material__key=key).delete()


# NaOH 39.997, Na2CO3 105.988: 2 % of it titrates as 2 × 39.997 / 105.988 × 2 % = 1.51 % of NaOH.
def test_carbonate_is_taken_off_the_purity_that_every_sum_counts_on(as_owner, workshop):
    only_lot(workshop, "sodium_hydroxide")

    add(as_owner, "sodium_hydroxide", purity="99", carbonate="2")

    lot = workshop.lots.get(code="N-1")
    assert lot.working_purity == pytest.approx(0.9749, abs=0.0001)
    assert facts_for(workshop, ["sodium_hydroxide"])["sodium_hydroxide"].purity == lot.working_purity


# KOH 56.105, K2CO3 138.204: 3 % of it titrates as 2.436 % of KOH.
def test_the_carbonate_of_potash_counts_by_its_own_mass(as_owner, workshop):
    add(as_owner, "potassium_hydroxide", purity="90", carbonate="3")

    assert workshop.lots.get(code="N-1").working_purity == pytest.approx(0.8756, abs=0.0001)


def test_the_page_of_the_lot_says_what_the_carbonate_does(as_owner, workshop):
    add(as_owner, "sodium_hydroxide", purity="99", carbonate="2", carbonate_is_guess="on")
    lot = workshop.lots.get(code="N-1")

    words = "Of 99 % total alkali, 2 % carbonate by your estimate: 97.5 % works."
    assert words in as_owner.get(f"/shelf/lots/{lot.pk}/").content.decode()
    assert words in as_owner.get(f"/shelf/{lot.material.pk}/").content.decode()


def test_a_jar_without_carbonate_works_as_its_label_says(as_owner, workshop):
    add(as_owner, "sodium_hydroxide", purity="98")

    assert workshop.lots.get(code="N-1").working_purity == 0.98


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"carbonate": "2"}, "purity"),
        ({"carbonate": "31", "purity": "99"}, "carbonate"),
        ({"carbonate": "-1", "purity": "99"}, "carbonate"),
        ({"carbonate": "some", "purity": "99"}, "carbonate"),
    ],
)
def test_carbonate_that_cannot_be_is_told_at_its_field(as_owner, workshop, typed, field):
    errors = errors_of(add(as_owner, "sodium_hydroxide", supplier="Kept words", **typed))

    assert list(errors) == [field]
    assert not workshop.lots.filter(code="N-1").exists()


@pytest.mark.parametrize(("days", "is_told"), [(364, False), (367, True)])
def test_a_jar_of_more_than_a_year_gets_a_remark_and_no_more(as_owner, workshop, days, is_told):
    bought = timezone.localdate() - timedelta(days=days)

    answer = add(as_owner, "sodium_hydroxide", purity="99", bought_on=bought.isoformat())

    assert answer.status_code == 302
    lot = workshop.lots.get(code="N-1")
    assert ("more than a year ago" in as_owner.get(f"/shelf/lots/{lot.pk}/").content.decode()) == is_told
    assert lot.working_purity == 0.99


def test_only_alkali_is_asked_for_carbonate(as_owner):
    assert "Carbonate" not in as_owner.get(f"/shelf/{key_of('olive').pk}/lots/new/").content.decode()


def test_a_lot_of_citric_acid_asks_which_form_the_jar_says(as_owner, workshop):
    page = as_owner.get(f"/shelf/{key_of('citric_acid').pk}/lots/new/").content.decode()

    assert "Which form does the jar say?" in page
    assert "Citric acid, anhydrous" in page and "Citric acid, monohydrate" in page
    assert list(errors_of(add(as_owner, "citric_acid"))) == ["jar_form"]


def test_the_lot_belongs_to_the_form_that_the_jar_says(as_owner, workshop):
    add(as_owner, "citric_acid", jar_form="citric_acid_monohydrate")

    assert workshop.lots.get(code="N-1").material.key == "citric_acid_monohydrate"


def test_a_form_that_is_none_is_refused(as_owner):
    assert list(errors_of(add(as_owner, "citric_acid", jar_form="powder"))) == ["jar_form"]


def test_a_lot_that_batches_have_used_keeps_its_form(as_owner, workshop, monkeypatch):
    lot = Lot.objects.create(workshop=workshop, material=key_of("citric_acid"), code="N-1", received_g=2500)
    monkeypatch.setattr("soapbench.shelf.views.used_by_lot", lambda _workshop: {lot.pk: 10.0})

    response = as_owner.post(f"/shelf/lots/{lot.pk}/", {**LOT, "jar_form": "citric_acid_monohydrate"})

    assert "write a new lot" in errors_of(response)["jar_form"]
    lot.refresh_from_db()
    assert lot.material.key == "citric_acid"


def test_other_lots_are_not_asked_for_a_form(as_owner, workshop):
    assert add(as_owner, "lactic_acid").status_code == 302


def test_a_titration_gives_the_value_and_stays_with_the_lot(as_owner, workshop):
    add(as_owner, "olive", **TITRATION)

    lot = workshop.lots.get(code="N-1")
    assert lot.saponification_value == pytest.approx(189.7)
    assert "2.011 g of fat; blank 25.2 ml" in as_owner.get(f"/shelf/lots/{lot.pk}/").content.decode()


def test_a_value_typed_later_puts_the_titration_out_of_use(as_owner, workshop):
    add(as_owner, "olive", **TITRATION)
    lot = workshop.lots.get(code="N-1")

    as_owner.post(f"/shelf/lots/{lot.pk}/", {**LOT, "saponification_value": "188"})

    lot.refresh_from_db()
    assert (lot.saponification_value, lot.titration) == (188, "")


def test_saving_a_titrated_lot_again_keeps_its_titration(as_owner, workshop):
    add(as_owner, "olive", **TITRATION)
    lot = workshop.lots.get(code="N-1")

    as_owner.post(f"/shelf/lots/{lot.pk}/", {**LOT, "saponification_value": "189.7"})

    lot.refresh_from_db()
    assert lot.titration.startswith("2.011 g")


@pytest.mark.parametrize(
    ("typed", "fields"),
    [
        ({"blank_ml": ""}, ["blank_ml"]),
        ({"blank_ml": "", "mol_per_l": ""}, ["blank_ml", "mol_per_l"]),
        ({"used_ml": "30"}, ["used_ml"]),
        ({"sample_g": "0.5"}, ["sample_g"]),  # 763 mg KOH/g: no fat has that
        ({"sample_g": "1.5"}, ["sample_g"]),  # 254: that of coconut
        ({"sample_g": "two"}, ["sample_g"]),
        ({"saponification_value": "190"}, ["saponification_value"]),
    ],
)
def test_a_titration_that_cannot_be_is_told_at_its_field_and_stays_typed(as_owner, workshop, typed, fields):
    response = add(as_owner, "olive", **{**TITRATION, **typed})

    errors = errors_of(response)
    assert list(errors) == fields
    assert all(sentence.endswith((".", "?")) for sentence in errors.values())
    assert escape("25.2") in response.content.decode() or "blank_ml" in typed
    assert not workshop.lots.filter(code="N-1").exists()
