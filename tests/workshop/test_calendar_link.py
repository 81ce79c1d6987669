"""The private calendar address: one for each person, renewed and revoked by that person alone."""

import html

import pytest

from soapbench.workshop import calendar_link
from soapbench.workshop.models import CalendarLink


def token_of(person):
    return CalendarLink.objects.get(person=person).token


def test_nobody_has_an_address_until_he_asks_for_one(as_owner, owner):
    page = as_owner.get("/workshop/calendar/").content.decode()

    assert "Make my calendar address" in page
    assert not CalendarLink.objects.exists()


def test_the_page_shows_the_address_to_open_to_copy_and_to_scan(as_owner, owner):
    as_owner.post("/workshop/calendar/", {"act": "renew"})

    page = html.unescape(as_owner.get("/workshop/calendar/").content.decode())

    assert f'href="webcal://testserver/rack/calendar/{token_of(owner)}.ics"' in page
    assert f'value="http://testserver/rack/calendar/{token_of(owner)}.ics"' in page
    assert "<svg" in page.partition("device-qr")[2]


def test_an_address_cannot_be_guessed(owner, helper):
    tokens = {calendar_link.renew(person).token for person in (owner, helper, owner, helper)}

    assert len(tokens) == 4
    assert min(len(token) for token in tokens) >= 43  # 32 bytes


def test_a_new_address_ends_the_old_one(as_owner, owner):
    old = calendar_link.renew(owner).token

    as_owner.post("/workshop/calendar/", {"act": "renew"})

    assert calendar_link.person_of(old) is None
    assert calendar_link.person_of(token_of(owner)) == owner


def test_a_revoked_address_leads_nowhere(as_owner, owner):
    old = calendar_link.renew(owner).token

    as_owner.post("/workshop/calendar/", {"act": "revoke"})

    assert calendar_link.person_of(old) is None


def test_nobody_touches_the_address_of_another(client, owner, helper):
    token = calendar_link.renew(owner).token
    client.force_login(helper)

    client.post("/workshop/calendar/", {"act": "renew"})
    client.post("/workshop/calendar/", {"act": "revoke"})

    assert calendar_link.person_of(token) == owner


@pytest.mark.parametrize("change", [str.upper, str.lower, lambda token: token[:-1], lambda token: token + "A"])
def test_nearly_the_token_is_not_the_token(owner, change):
    token = calendar_link.renew(owner).token

    assert calendar_link.person_of(change(token)) is None


def test_who_has_left_has_no_calendar(owner):
    token = calendar_link.renew(owner).token
    owner.is_active = False
    owner.save()

    assert calendar_link.person_of(token) is None


def test_the_workshop_page_leads_there(as_owner):
    assert 'href="/workshop/calendar/"' in as_owner.get("/workshop/").content.decode()


@pytest.mark.parametrize(
    ("address", "subscribe"),
    [
        ("http://192.168.1.20:8000/c.ics", "webcal://192.168.1.20:8000/c.ics"),
        ("https://soap.example/c.ics", "webcal://soap.example/c.ics"),
        ("https://192.168.1.20:8000/c.ics", "webcals://192.168.1.20:8000/c.ics"),
    ],
)
def test_the_scheme_says_whether_the_port_speaks_tls(address, subscribe):
    assert calendar_link.subscribe_address(address) == subscribe


@pytest.mark.parametrize("own_name", ["localhost:8000", "127.0.0.1:8000", "[::1]:8000"])
def test_at_the_machine_itself_the_address_is_the_one_for_phones(as_owner, owner, settings, own_name):
    settings.HOUSE_ADDRESS = "http://192.168.1.20:8000"
    settings.ALLOWED_HOSTS = ["*"]
    calendar_link.renew(owner)

    page = as_owner.get("/workshop/calendar/", headers={"host": own_name}).content.decode()

    assert "webcal://192.168.1.20:8000/rack/calendar/" in page
