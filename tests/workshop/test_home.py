import pytest

from soapbench.workshop.models import Person

VESSEL = {
    "name": "Jug",
    "use": "lye",
    "material": "hdpe",
    "volume_ml": "2000",
    "tare_g": "140.5",
    "is_here": "on",
}
MOULD = {"name": "Small loaf", "shape": "box", "length_mm": "100", "width_mm": "70", "height_mm": "60", "is_here": "on"}
SCALE = {"name": "Fine scale", "resolution_g": "0.01", "capacity_g": "500", "is_here": "on"}
TOOL = {"name": "Fork", "kind": "comb", "diameter_mm": "", "is_here": "on"}
DETAILS = {"name": "Yard", "emergency_number": "112", "poison_centre_number": "01 2", "room_temperature_c": "21"}
PERSON = {"first_name": "Una", "username": "una", "is_active": "on"}
GOOD = [("scales", SCALE), ("vessels", VESSEL), ("moulds", MOULD), ("tools", TOOL)]


def errors_of(response):
    return {name: " ".join(words) for name, words in response.context["form"].errors.items()}


def test_the_page_asks_as_often_for_one_tool_as_for_many(as_owner, workshop, django_assert_num_queries):
    # session, person, workshop; scales, vessels, moulds, tools, people
    for number in range(20):
        workshop.tools.create(key=f"t{number}", name=f"T{number}", kind="comb")

    with django_assert_num_queries(8):
        as_owner.get("/workshop/")


def test_missing_numbers_are_shouted(as_owner, workshop):
    workshop.poison_centre_number = ""
    workshop.save()

    assert "No batch starts without them" in as_owner.get("/workshop/").content.decode()


@pytest.mark.parametrize(("word", "typed"), GOOD)
def test_equipment_can_be_added(as_owner, workshop, word, typed):
    assert as_owner.post(f"/workshop/{word}/new/", typed).status_code == 302
    assert getattr(workshop, word).get(name=typed["name"]).key


@pytest.mark.parametrize(("word", "typed"), GOOD)
def test_equipment_can_be_opened_and_saved_unchanged(as_owner, workshop, word, typed):
    for thing in getattr(workshop, word).all():
        shown = as_owner.get(f"/workshop/{word}/{thing.pk}/").context["form"]
        before = {field.name: field.value() or "" for field in shown}

        assert as_owner.post(f"/workshop/{word}/{thing.pk}/", before).status_code == 302
        same = as_owner.get(f"/workshop/{word}/{thing.pk}/").context["form"]
        assert {field.name: field.value() or "" for field in same} == before


def test_two_things_of_one_name_are_told_apart(as_owner, workshop):
    as_owner.post("/workshop/tools/new/", TOOL)
    as_owner.post("/workshop/tools/new/", TOOL)

    assert sorted(workshop.tools.filter(name="Fork").values_list("key", flat=True)) == ["fork", "fork-2"]


def test_one_tap_says_that_a_tool_is_not_here(as_owner, workshop):
    comb = workshop.tools.get(key="comb")

    as_owner.post(f"/workshop/tools/{comb.pk}/here/", {"is_here": "no"})
    assert not workshop.tools.get(key="comb").is_here

    as_owner.post(f"/workshop/tools/{comb.pk}/here/", {"is_here": "yes"})
    assert workshop.tools.get(key="comb").is_here


BAD = [
    ("scales", SCALE, {"resolution_g": ""}, "resolution_g"),
    ("scales", SCALE, {"resolution_g": "0"}, "resolution_g"),
    ("scales", SCALE, {"resolution_g": "0.1 g"}, "resolution_g"),
    ("scales", SCALE, {"capacity_g": "1e99"}, "capacity_g"),
    ("scales", SCALE, {"resolution_g": "50"}, "resolution_g"),
    ("vessels", VESSEL, {"tare_g": "-1"}, "tare_g"),
    ("vessels", VESSEL, {"tare_g": "heavy"}, "tare_g"),
    ("vessels", VESSEL, {"material": "aluminium"}, "material"),
    ("vessels", VESSEL, {"material": "glass"}, "material"),
    ("vessels", VESSEL, {"use": ""}, "use"),
    ("moulds", MOULD, {"height_mm": ""}, "height_mm"),
    ("moulds", MOULD, {"length_mm": "24 cm"}, "length_mm"),
    ("moulds", MOULD, {"width_mm": "99999"}, "width_mm"),
    ("moulds", MOULD, {"shape": "star"}, "shape"),
    ("moulds", {"name": "C", "shape": "cavities", "cavity_ml": "90"}, {"cavities": "2.5"}, "cavities"),
    ("tools", TOOL, {"name": ""}, "name"),
    ("tools", TOOL, {"diameter_mm": "-4"}, "diameter_mm"),
    ("tools", TOOL, {"kind": "wand"}, "kind"),
]


@pytest.mark.parametrize(("word", "good", "wrong", "field"), BAD)
def test_a_wrong_measure_is_told_at_its_field(as_owner, workshop, word, good, wrong, field):
    count = getattr(workshop, word).count()

    response = as_owner.post(f"/workshop/{word}/new/", {**good, **wrong})

    assert response.status_code == 422
    assert list(errors_of(response)) == [field]
    assert errors_of(response)[field].endswith(".")
    assert getattr(workshop, word).count() == count


@pytest.mark.parametrize("word", ["scales", "vessels", "moulds", "tools"])
def test_another_workshops_equipment_is_not_found(client, stranger, workshop, word):
    client.force_login(stranger)
    pk = getattr(workshop, word).first().pk

    assert client.get(f"/workshop/{word}/{pk}/").status_code == 404
    assert client.post(f"/workshop/{word}/{pk}/here/", {"is_here": "no"}).status_code == 404
    assert getattr(workshop, word).get(pk=pk).is_here


@pytest.mark.parametrize("word", ["lots", "people_", "workshop"])
def test_a_word_that_is_no_equipment_is_not_found(as_owner, word):
    assert as_owner.get(f"/workshop/{word}/new/").status_code == 404


def test_the_numbers_to_call_are_kept(as_owner, workshop):
    as_owner.post("/workshop/details/", DETAILS)

    workshop.refresh_from_db()
    assert (workshop.poison_centre_number, workshop.room_temperature_c) == ("01 2", 21)


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"emergency_number": ""}, "emergency_number"),
        ({"poison_centre_number": " "}, "poison_centre_number"),
        ({"room_temperature_c": "68"}, "room_temperature_c"),  # Fahrenheit
        ({"name": ""}, "name"),
        ({"hospital": "x" * 200}, "hospital"),
    ],
)
def test_details_that_cannot_be_right_are_refused(as_owner, wrong, field):
    response = as_owner.post("/workshop/details/", {**DETAILS, **wrong})

    assert response.status_code == 422
    assert list(errors_of(response)) == [field]


def test_the_owner_takes_somebody_on(as_owner, workshop, client):
    as_owner.post("/workshop/people/new/", {**PERSON, "password": "eight or more"})

    una = workshop.people.get(username="una")
    assert una.check_password("eight or more") and not una.is_owner


def test_without_a_password_only_the_link_lets_in(as_owner, workshop):
    as_owner.post("/workshop/people/new/", PERSON)

    assert not workshop.people.get(username="una").has_usable_password()


def test_a_helper_takes_nobody_on_and_changes_only_himself(client, helper, owner):
    client.force_login(helper)

    assert client.post("/workshop/people/new/", PERSON).status_code == 403
    assert client.get(f"/workshop/people/{owner.pk}/").status_code == 403
    assert client.get(f"/workshop/people/{helper.pk}/").status_code == 200


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"first_name": ""}, "first_name"),
        ({"username": "tobit"}, "username"),
        ({"username": "a b"}, "username"),
        ({"password": "short"}, "password"),
        ({"caustic_training_on": "last year"}, "caustic_training_on"),
    ],
)
def test_a_person_that_cannot_be_is_refused(as_owner, wrong, field):
    response = as_owner.post("/workshop/people/new/", {**PERSON, **wrong})

    assert response.status_code == 422
    assert list(errors_of(response)) == [field]


def test_the_owner_cannot_shut_himself_out(as_owner, owner):
    as_owner.post(f"/workshop/people/{owner.pk}/", {"first_name": "Ada", "username": "ada"})

    assert Person.objects.get(pk=owner.pk).is_active
