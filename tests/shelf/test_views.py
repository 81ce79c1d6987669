import pytest
from django.urls import reverse

from soapbench.shelf.facts import facts_for
from soapbench.shelf.models import Lot, Material

FAT = {
    "name": "Plum kernel oil",
    "fat_kind": "triglyceride",
    "state": "liquid",
    "sv_low": "186",
    "sv_high": "196",
    "confidence": "supplier",
}
LOT = {"code": "PK-1", "received_g": "2500", "status": "usable"}


def olive():
    return Material.objects.get(key="olive", workshop=None)


def errors_of(response):
    return {name: " ".join(words) for name, words in response.context["form"].errors.items()}


def test_the_shelf_opens_with_what_is_at_hand(as_owner):
    page = as_owner.get("/shelf/").content.decode()

    assert "Olive oil" in page and "15,000 g left" in page
    assert "Babassu oil" not in page


def test_a_search_looks_through_all_kinds(as_owner):
    page = as_owner.get("/shelf/", {"words": "laven"}).content.decode()

    assert "Lavender oil" in page and "Lavender buds" in page and "Olive oil" not in page


def test_a_search_for_nothing_says_what_to_do(as_owner):
    assert "Try a shorter word" in as_owner.get("/shelf/", {"words": "xyzzy"}).content.decode()


@pytest.mark.parametrize("words", ["\0", "%", "'; --", "x" * 5000])
def test_no_search_breaks_the_page(as_owner, words):
    assert as_owner.get("/shelf/", {"words": words, "kind": words}).status_code == 200


def test_typing_fetches_the_lines_alone(as_owner):
    response = as_owner.get("/shelf/", {"words": "olive"}, headers={"HX-Request": "true"})

    assert response.content.decode().lstrip().startswith('<div id="lines"')


def test_the_shelf_asks_as_often_for_one_lot_as_for_many(as_owner, workshop, django_assert_max_num_queries):
    # session, person, workshop; lots, use, materials
    for number in range(20):
        Lot.objects.create(workshop=workshop, material=olive(), code=f"Q{number}", received_g=1)

    with django_assert_max_num_queries(6):
        as_owner.get("/shelf/")


def test_a_materials_page_asks_as_often_however_many_lots(as_owner, workshop, django_assert_max_num_queries):
    for number in range(20):
        Lot.objects.create(workshop=workshop, material=olive(), code=f"Q{number}", received_g=1)

    address = f"/shelf/{olive().pk}/"
    with django_assert_max_num_queries(8):
        as_owner.get(address)


def test_a_material_shows_its_figures_its_source_and_how_sure_it_is(as_owner):
    page = as_owner.get(f"/shelf/{olive().pk}/").content.decode()

    assert "184 to 196" in page and "Codex Alimentarius CXS 33-1981" in page and "Published" in page
    assert "C18:1" in page and "OL-2609" in page


def test_a_scent_without_a_limit_says_what_to_ask_for(as_owner):
    scent = Material.objects.get(key="geranium_oil")

    assert "Ask the supplier for the certificate" in as_owner.get(f"/shelf/{scent.pk}/").content.decode()


def test_another_workshop_sees_neither_materials_nor_lots(client, stranger, workshop):
    client.force_login(stranger)
    own, lot = workshop.materials.first(), workshop.lots.first()

    for address in (
        f"/shelf/{own.pk}/",
        f"/shelf/{own.pk}/edit/",
        f"/shelf/lots/{lot.pk}/",
        f"/shelf/{own.pk}/lots/new/",
    ):
        assert client.get(address).status_code == 404
        assert client.post(address, {**FAT, **LOT}).status_code in (404, 405)
    assert "Fathom" not in client.get("/shelf/", {"kind": "colourant"}).content.decode()


@pytest.mark.parametrize("address", ["/shelf/99999999/", "/shelf/99999999999999999999999/", "/shelf/new/unobtainium/"])
def test_what_is_not_there_is_not_found(as_owner, address):
    assert as_owner.get(address).status_code == 404


def test_an_own_fat_comes_onto_the_shelf(as_owner, workshop):
    response = as_owner.post("/shelf/new/fat/", FAT)

    row = workshop.materials.get(name="Plum kernel oil")
    assert response.url == reverse("shelf:material", args=[row.pk])
    assert (row.key, row.sv_low, row.sv_high, row.kind) == ("plum_kernel_oil", 186, 196, "fat")


def test_a_decimal_comma_is_a_decimal_point(as_owner, workshop):
    as_owner.post("/shelf/new/fat/", {**FAT, "sv_low": "186,5"})

    assert workshop.materials.get(name="Plum kernel oil").sv_low == 186.5


@pytest.mark.parametrize("kind", ["alkali", "liquid", "colourant", "scent", "addition"])
def test_every_kind_can_be_added(as_owner, workshop, kind):
    typed = {
        "name": "New thing",
        "confidence": "supplier",
        "purity": "95",
        "water_fraction": "90",
        "takes_koh_mg_per_g": "0",
    }

    assert as_owner.post(f"/shelf/new/{kind}/", typed).status_code == 302
    row = workshop.materials.get(name="New thing")
    assert (row.kind, row.purity) == (kind, 0.95 if kind == "alkali" else None)


def test_own_figures_take_the_place_of_the_reference_ones_in_every_bar(as_owner, workshop):
    as_owner.post("/shelf/new/fat/?like=olive", {**FAT, "name": "Olive oil, our press"})

    fact = facts_for(workshop, ["olive"])["olive"]
    assert (fact.name, fact.sv_low) == ("Olive oil, our press", 186)
    assert fact.fatty_acids and "C18:1" in fact.fatty_acids


BAD_FATS = [
    ({"name": ""}, "name"),
    ({"sv_low": ""}, "sv_low"),
    ({"sv_low": "-5"}, "sv_low"),
    ({"sv_high": "1e300"}, "sv_high"),
    ({"sv_low": "inf"}, "sv_low"),
    ({"sv_low": "nan"}, "sv_low"),
    ({"sv_low": "186 mg"}, "sv_low"),
    ({"sv_low": "0.134"}, "sv_low"),  # grams of NaOH per gram, the wrong unit
    ({"sv_low": "196", "sv_high": "186"}, "sv_high"),
    ({"iodine_low": "90", "iodine_high": "80"}, "iodine_high"),
    ({"fat_kind": "butter"}, "fat_kind"),
    ({"confidence": "invented"}, "confidence"),
    ({"name": "x" * 500}, "name"),
    ({"name": "a\0b"}, "name"),
]


@pytest.mark.parametrize(("wrong", "field"), BAD_FATS)
def test_a_wrong_entry_is_told_at_its_field_and_nothing_typed_is_lost(as_owner, workshop, wrong, field):
    response = as_owner.post("/shelf/new/fat/", {**FAT, "handling": "smells of plums", **wrong})

    assert response.status_code == 422
    assert list(errors_of(response)) == [field]
    assert errors_of(response)[field].endswith(".")
    assert "smells of plums" in response.content.decode()
    assert not workshop.materials.filter(kind="fat").exists()


def test_a_form_sent_empty_names_every_field_that_is_needed(as_owner):
    assert {"name", "sv_low", "sv_high", "fat_kind"} <= set(errors_of(as_owner.post("/shelf/new/fat/", {})))


@pytest.mark.parametrize("swatch", ["red", "#12345", "#zzzzzz", "#fff"])
def test_a_colour_that_is_none_is_refused(as_owner, swatch):
    response = as_owner.post("/shelf/new/colourant/", {"name": "Teal", "swatch": swatch, "confidence": "supplier"})

    assert "swatch" in errors_of(response)


def test_a_limit_without_a_source_is_refused(as_owner):
    response = as_owner.post("/shelf/new/scent/", {"name": "Dew", "limit_percent": "3", "confidence": "supplier"})

    assert list(errors_of(response)) == ["limit_source"]


def test_a_reference_material_cannot_be_changed_in_place(as_owner):
    assert as_owner.post(f"/shelf/{olive().pk}/edit/", FAT).status_code == 404


def test_a_lot_is_written_down_with_the_suppliers_own_value(as_owner, workshop):
    as_owner.post(f"/shelf/{olive().pk}/lots/new/", {**LOT, "saponification_value": "188,4"})

    lot = workshop.lots.get(code="PK-1")
    assert (lot.received_g, lot.saponification_value) == (2500, 188.4)


def test_a_lot_keeps_its_figures_when_it_is_opened_and_saved_again(as_owner, workshop):
    lot = workshop.lots.get(code="NA-118")
    shown = as_owner.get(f"/shelf/lots/{lot.pk}/").context["form"]
    typed = {field.name: field.value() or "" for field in shown}

    assert as_owner.post(f"/shelf/lots/{lot.pk}/", typed).status_code == 302
    lot.refresh_from_db()
    assert (lot.purity, lot.received_g) == (0.99, 5000)


BAD_LOTS = [
    ({"code": ""}, "code"),
    ({"code": "OL-2609"}, "code"),
    ({"received_g": ""}, "received_g"),
    ({"received_g": "0"}, "received_g"),
    ({"received_g": "-3"}, "received_g"),
    ({"received_g": "1e12"}, "received_g"),
    ({"received_g": "5 kg"}, "received_g"),
    ({"bought_on": "yesterday"}, "bought_on"),
    ({"bought_on": "2026-02-30"}, "bought_on"),
    ({"bought_on": "2026-05-01", "best_before": "2026-04-01"}, "best_before"),
    ({"status": "lost"}, "status"),
    ({"saponification_value": "0.135"}, "saponification_value"),
    ({"saponification_value": "260"}, "saponification_value"),  # that of coconut
]


@pytest.mark.parametrize(("wrong", "field"), BAD_LOTS)
def test_a_wrong_lot_is_told_at_its_field(as_owner, workshop, wrong, field):
    count = workshop.lots.count()

    response = as_owner.post(f"/shelf/{olive().pk}/lots/new/", {**LOT, "supplier": "Kept words", **wrong})

    assert response.status_code == 422
    assert list(errors_of(response)) == [field]
    assert "Kept words" in response.content.decode()
    assert workshop.lots.count() == count


def test_a_lot_cannot_shrink_below_what_batches_used(as_owner, workshop, monkeypatch):
    lot = workshop.lots.get(code="OL-2609")
    monkeypatch.setattr("soapbench.shelf.views.used_by_lot", lambda _workshop: {lot.pk: 900.0})

    response = as_owner.post(f"/shelf/lots/{lot.pk}/", {**LOT, "code": "OL-2609", "received_g": "800"})

    assert "900 g" in errors_of(response)["received_g"]
