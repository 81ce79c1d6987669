import pytest
import time_machine

from soapbench.workshop import throttle

RIGHT = {"username": "ada", "password": "lye before water never"}


@pytest.fixture
def owner(owner):
    owner.set_password(RIGHT["password"])
    owner.save()
    return owner


def test_the_right_password_lets_in(client, owner):
    assert client.post("/sign-in/", RIGHT).status_code == 302
    assert client.get("/workshop/").status_code == 200


def test_a_wrong_password_is_told_and_the_name_kept(client, owner):
    response = client.post("/sign-in/", {**RIGHT, "password": "wrong"})

    assert response.status_code == 422
    assert "do not belong together" in response.content.decode()
    assert 'value="ada"' in response.content.decode()


@pytest.mark.parametrize(
    "typed", [{}, {"username": ""}, {"username": "a\0", "password": "b"}, {"username": "x" * 9999, "password": "b"}]
)
def test_a_form_that_is_no_sign_in_is_refused_in_words(client, db, typed):
    response = client.post("/sign-in/", typed)

    assert response.status_code == 422
    assert response.context["form"].errors


def test_the_eleventh_try_within_ten_minutes_is_refused_even_if_right(client, owner):
    with time_machine.travel("2026-11-25T08:00:00Z", tick=False):
        for _ in range(10):
            client.post("/sign-in/", {**RIGHT, "password": "wrong"})
        response = client.post("/sign-in/", RIGHT)

    assert response.status_code == 422
    assert "Wait ten minutes" in response.content.decode()


def test_after_ten_minutes_it_may_be_tried_again(client, owner):
    with time_machine.travel("2026-11-25T08:00:00Z", tick=False):
        for _ in range(11):
            client.post("/sign-in/", {**RIGHT, "password": "wrong"})
    with time_machine.travel("2026-11-25T08:10:01Z", tick=False):
        assert client.post("/sign-in/", RIGHT).status_code == 302


def test_one_persons_tries_do_not_shut_out_another(db):
    with time_machine.travel("2026-11-25T08:00:00Z", tick=False):
        tries = [throttle.may_try_password("ada", "10.0.0.1") for _ in range(11)]

        assert tries == [True] * 10 + [False]
        assert throttle.may_try_password("tobit", "10.0.0.1")
        assert throttle.may_try_password("ada", "10.0.0.2")


def test_many_names_from_one_address_are_stopped_too(db):
    with time_machine.travel("2026-11-25T08:00:00Z", tick=False):
        assert [throttle.may_try_password(f"name {n}", "10.0.0.1") for n in range(61)].count(False) == 1


def test_a_bucket_fills_up_evenly(db):
    with time_machine.travel(0, tick=False) as clock:
        assert [throttle.take("k", 2) for _ in range(3)] == [True, True, False]
        clock.shift(throttle.REFILL_S / 2)
        assert [throttle.take("k", 2) for _ in range(2)] == [True, False]


def test_signing_in_leads_nowhere_outside(client, owner):
    response = client.post("/sign-in/", {**RIGHT, "next": "https://example.org/"})

    assert response.url == "/"
