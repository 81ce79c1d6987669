import pytest
import time_machine

from soapbench.workshop.entry import entry_path
from soapbench.workshop.models import Person


@pytest.fixture
def own_machine(settings):
    settings.TRUST_THIS_MACHINE = True


def test_the_owner_needs_no_password_at_the_machine_itself(client, owner, own_machine):
    response = client.get("/workshop/")

    assert response.status_code == 200
    assert response.context["user"] == owner


def test_nobody_is_let_in_when_the_machine_is_not_trusted(client, owner):
    assert client.get("/workshop/").url.startswith("/sign-in/")


def test_a_phone_on_the_network_is_not_the_machine_itself(client, owner, own_machine):
    assert client.get("/workshop/", REMOTE_ADDR="192.168.1.20").url.startswith("/sign-in/")


def test_a_proxy_on_the_machine_does_not_make_everybody_the_owner(client, owner, own_machine):
    assert client.get("/workshop/", headers={"X-Forwarded-For": "203.0.113.9"}).status_code == 302


def test_who_signs_out_at_the_machine_stays_out(client, owner, own_machine):
    client.post("/sign-out/")

    assert client.get("/workshop/").url.startswith("/sign-in/")


def test_the_signed_link_lets_its_person_in(client, helper):
    assert client.get(entry_path(helper)).status_code == 302
    assert client.get("/workshop/").context["user"] == helper


def test_the_signed_link_ends_after_twelve_hours(client, helper):
    with time_machine.travel("2026-11-25T08:00:00Z", tick=False):
        link = entry_path(helper)
    with time_machine.travel("2026-11-25T20:00:01Z", tick=False):
        response = client.get(link)

    assert response.status_code == 403
    assert "too old" in response.content.decode()


def test_a_new_password_ends_old_links(client, helper):
    link = entry_path(helper)
    helper.set_password("another one")
    helper.save()

    assert client.get(link).status_code == 403


@pytest.mark.parametrize("token", ["x", "WyIxIiwyXQ:abc:def", "é", "a" * 3000])
def test_a_made_up_link_lets_nobody_in(client, db, token):
    assert client.get(f"/enter/{token}/").status_code == 403


def test_the_link_of_somebody_who_left_lets_nobody_in(client, helper):
    link = entry_path(helper)
    Person.objects.filter(pk=helper.pk).update(is_active=False)

    assert client.get(link).status_code == 403


def test_somebody_without_a_workshop_is_told_so_and_can_sign_out(client, db):
    client.force_login(Person.objects.create_user("lone"))

    response = client.get("/shelf/")

    assert response.status_code == 403
    assert "you belong to no workshop" in response.content.decode()
    assert client.post("/sign-out/").status_code == 302


def test_the_first_start_asks_whose_workshop_this_is(client, db, own_machine):
    assert client.get("/shelf/").url == "/start/"
    typed = {"name": "Shed", "your_name": "Ina Moss", "emergency_number": "112", "poison_centre_number": "1"}

    client.post("/start/", {**typed, "room_temperature_c": "18"})

    owner = Person.objects.get()
    assert owner.is_owner and owner.workshop.name == "Shed"
    assert client.get("/workshop/").context["user"] == owner


def test_the_first_start_is_over_once_somebody_is_there(client, owner, own_machine):
    assert client.get("/start/").status_code == 404


def test_the_first_start_is_for_the_machine_itself_only(client, db, own_machine):
    assert client.get("/start/", REMOTE_ADDR="192.168.1.20").status_code == 404
