"""A phone asks what happened since: cheap when nothing did, whole when something did, and only in its own workshop."""

from django.urls import reverse

from soapbench.bench.integrity import verify
from soapbench.bench.models import Run
from tests.bench.asking import send


def since(client, run, position):
    return client.get(reverse("bench:since", args=[run.pk, position]))


def test_nothing_new_is_an_empty_answer_of_one_query_besides_the_sign_in(maker, begun, django_assert_num_queries):
    with django_assert_num_queries(4):  # session, person, workshop, run
        answer = since(maker, begun, 1)

    assert (answer.status_code, answer.content) == (204, b"")
    assert answer.headers["X-Soapbench-Now"]


def test_what_is_new_comes_with_the_state_that_it_makes(maker, bench, begun):
    bench.tap("ticked", "materials", item="material:olive", device="other phone", seen=1)
    answer = since(maker, begun, 1)

    assert [fact["kind"] for fact in answer.json()["facts"]] == ["ticked"]
    assert {"device": "other phone", "person": "Ada", "seen": 1}.items() <= answer.json()["facts"][0].items()
    assert answer.json()["state"]["current"] == "materials"


def test_another_workshop_is_told_nothing(client, stranger, begun):
    client.force_login(stranger)

    assert since(client, begun, 0).status_code == 404


def test_whoever_is_not_signed_in_is_sent_to_sign_in(client, begun):
    assert since(client, begun, 0).status_code == 302


def test_what_a_phone_knew_is_kept_and_sealed_by_the_chain(maker, begun):
    answer = send(maker, begun, "noted", {"text": "a draught"}, seen=1)
    run = Run.objects.get(pk=begun.pk)

    assert answer.status_code == 200 and run.events.last().seen == 1
    assert verify(run) is None


def test_a_prompt_cannot_be_handed_to_somebody_who_does_not_work_here(maker, begun):
    answer = send(maker, begun, "taken-in-hand", {"to": "Nobody"})

    assert (answer.status_code, answer.json()["field"]) == (422, "to")
