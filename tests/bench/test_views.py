"""The bench through its pages: begin a run, show it, take what happened, refuse the rest in plain words."""

import json
import uuid

import pytest
from django.urls import reverse
from django.utils import timezone

from soapbench.bench.kinds import KINDS
from soapbench.bench.models import Run
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run

READ = {"cautions_read": True}
SIZE = {"by": "mould", "mould": "long-loaf", "scale": "bench-scale"}


@pytest.fixture
def run(world):
    return start_run(world.bars["ebb-line"].revisions.first(), SizeAsked("mould"), world.owner)


def send(client, run, **changes):
    """Send one event as a phone does."""
    event = {
        "id": str(uuid.uuid4()),
        "kind": "noted",
        "prompt": "materials",
        "payload": {"text": "All is well."},
        "happened_at": timezone.now().isoformat(),
        "device": "a phone",
        **changes,
    }
    return client.post(reverse("bench:events", args=[run.pk]), json.dumps(event), content_type="application/json")


def test_a_bar_is_begun_with_its_cautions_ticked(as_owner, world):
    answer = as_owner.post("/bench/new/ebb-line/", {**SIZE, "start": "1", "cautions_read": "on"})

    run = Run.objects.get()
    assert answer.status_code == 302 and answer["Location"] == reverse("bench:run", args=[run.pk])
    assert [event.kind for event in run.events.all()] == ["started"]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"cautions_read": ""}, "Read the cautions"),
        ({"by": "bars", "bars": ""}, "Write a number"),
        ({"by": "bars", "bars": "-3"}, "1 or more"),
        ({"by": "bars", "bars": "2.5"}, "whole number"),
        ({"by": "fats", "fats_g": "12 oz"}, "not a plain number"),
        ({"by": "fats", "fats_g": "9999999"}, "too much"),
        ({"mould": "no-such-mould"}, "mould is not in the workshop"),
        ({"scale": "no-such-scale"}, "scale is not in the workshop"),
    ],
)
def test_a_size_that_cannot_be_made_is_told_in_words_and_begins_nothing(as_owner, world, typed, sentence):
    answer = as_owner.post("/bench/new/ebb-line/", {**SIZE, "start": "1", "cautions_read": "on", **typed})

    assert answer.status_code in (200, 422)
    assert sentence in answer.content.decode()
    assert not Run.objects.exists()


def test_without_numbers_to_call_nothing_begins(as_owner, world):
    world.workshop.emergency_number = ""
    world.workshop.save()

    answer = as_owner.post("/bench/new/ebb-line/", {**SIZE, "start": "1", "cautions_read": "on"})

    assert answer.status_code == 422 and "emergency" in answer.content.decode()
    assert not Run.objects.exists()


def test_the_run_page_holds_every_prompt(as_owner, run):
    page = as_owner.get(reverse("bench:run", args=[run.pk])).content.decode()

    assert all(f'data-prompt="{prompt.key}"' in page for prompt in run.plan.prompts)


def test_another_workshop_sees_neither_the_run_nor_may_it_write(client, world, run):
    client.force_login(world.stranger)

    assert client.get(reverse("bench:run", args=[run.pk])).status_code == 404
    assert send(client, run).status_code == 404


def test_the_same_event_twice_is_one(as_owner, run):
    known = str(uuid.uuid4())

    first, second = (send(as_owner, run, id=known, kind="started", prompt="", payload=READ).json() for _ in range(2))

    assert first["position"] == second["position"]
    assert first["accepted"] == second["accepted"] == [known]
    assert run.events.count() == 1


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    "payload",
    [
        {},
        {"mass_g": -1, "line": "water", "text": ""},
        {"mass_g": 1e12, "bars": 10**9, "temp_c": 4000, "value": -5},
        {"mass_g": "heavy", "bars": "many", "temp_c": "hot", "value": []},
        {"line": "fat:of-another-run", "item": "nothing", "portion": "Z", "event": str(uuid.uuid4()), "mass_g": 3},
    ],
    ids=["missing", "negative", "huge", "no number", "foreign"],
)
def test_a_bad_event_of_any_kind_is_refused_in_a_sentence_or_harmless(as_owner, run, kind, payload):
    answer = send(as_owner, run, kind=kind, payload=payload)

    assert answer.status_code in (200, 422)
    if answer.status_code == 422:
        assert answer.json()["sentence"].endswith((".", "?"))
        assert not run.events.exists()


@pytest.mark.parametrize(
    "changes",
    [
        {"id": "no id"},
        {"kind": "unheard-of"},
        {"prompt": "no-such-prompt", "kind": "done", "payload": {}},
        {"happened_at": "yesterday"},
        {"happened_at": "2026-01-01T00:00:00"},
        {"payload": "words"},
    ],
)
def test_an_event_of_the_wrong_shape_is_refused_in_a_sentence(as_owner, run, changes):
    answer = send(as_owner, run, **changes)

    assert answer.status_code in (400, 422)
    assert answer.json()["sentence"].endswith(".")


@pytest.mark.parametrize("body", ["{", "[1, 2]", "\x00", "null"])
def test_what_is_no_event_is_refused_in_a_sentence(as_owner, run, body):
    answer = as_owner.post(reverse("bench:events", args=[run.pk]), body, content_type="application/json")

    assert answer.status_code in (400, 422) and answer.json()["sentence"].endswith(".")


def test_a_refused_plain_form_shows_the_sentence_and_what_was_typed(as_owner, run):
    typed = {"id": str(uuid.uuid4()), "kind": "weighed", "prompt": "weigh:water", "line": "water", "mass_g": "a lot"}

    answer = as_owner.post(reverse("bench:events", args=[run.pk]), typed)

    page = answer.content.decode()
    assert answer.status_code == 422
    assert "is not a number" in page and "a lot" in page


def test_the_bench_asks_as_often_for_one_run_as_for_many(as_owner, world, run, django_assert_num_queries):
    start_run(world.bars["ebb-line"].revisions.first(), SizeAsked("mould"), world.owner)

    with django_assert_num_queries(5):
        as_owner.get("/")
