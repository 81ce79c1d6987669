"""What the logbook finds, and how it answers a search that makes no sense."""

from datetime import timedelta

import pytest
from django.utils import timezone

from soapbench.bench.models import Run
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from tests.bench.sample import START


def shown(client, **asked):
    """Return the codes that a search shows, in order."""
    return [run.code for run in client.get("/logbook/", asked).context["found"].page]


def errors_of(response):
    return {name: " ".join(words) for name, words in response.context["form"].errors.items()}


def row(world, code, *, bar="doorstep", days=0, **columns):
    bar = world.bars[bar]
    return Run(
        workshop=world.workshop,
        bar=bar,
        revision=bar.revisions.first(),
        code=code,
        made_by=world.owner,
        plan_document={},
        **columns,
    )


@pytest.fixture
def runs(world):
    """Four batches on four days, oldest first."""
    made = [
        row(world, "first", status="released", bars_made=10),
        row(world, "second", bar="ebb-line", status="rejected", ended_why="White pockets in two bars.", deviations=2),
        row(world, "third", status="curing", deviations=1),
        row(world, "fourth", bar="byre-gate", status="bench"),
    ]
    Run.objects.bulk_create(made)
    for number, run in enumerate(made):
        Run.objects.filter(pk=run.pk).update(made_at=START + timedelta(days=number))
    return made


def test_every_batch_is_listed_newest_first(as_owner, runs):
    assert shown(as_owner) == ["fourth", "third", "second", "first"]


@pytest.mark.parametrize(
    ("asked", "codes"),
    [
        ({"bar": "ebb-line"}, ["second"]),
        ({"state": "released"}, ["first"]),
        ({"deviations": "on"}, ["third", "second"]),
        ({"words": "pockets"}, ["second"]),
        ({"words": "EBB white"}, ["second"]),
        ({"words": "doorstep"}, ["third", "first"]),
        ({"since": "2026-11-27"}, ["fourth", "third"]),
        ({"until": "2026-11-26"}, ["second", "first"]),
        ({"since": "2026-11-26", "until": "2026-11-26"}, ["second"]),
        ({"bar": "doorstep", "deviations": "on"}, ["third"]),
        ({"words": "\0first\0"}, ["first"]),
    ],
)
def test_a_search_narrows_the_list(as_owner, runs, asked, codes):
    assert shown(as_owner, **asked) == codes


def test_a_search_without_an_answer_says_what_to_do(as_owner, runs):
    page = as_owner.get("/logbook/", {"words": "unheard of"}).content.decode()

    assert "Take something out of it" in page


def test_an_empty_logbook_says_how_it_fills(as_owner):
    assert "No batch has been made yet" in as_owner.get("/logbook/").content.decode()


@pytest.mark.parametrize(
    ("asked", "field", "sentence"),
    [
        ({"since": "yesterday"}, "since", "This is not a day. Write it as 2026-11-25"),
        ({"until": "2026-02-31"}, "until", "This is not a day"),
        ({"since": "2026-11-27", "until": "2026-11-20"}, "until", "lies before the first"),
        ({"state": "flying"}, "state", "Choose one from the list"),
        ({"bar": "unheard-of"}, "bar", "Choose one from the list"),
        ({"words": "x" * 101}, "words", "100"),
    ],
)
def test_a_part_that_makes_no_sense_says_so_and_is_left_out(as_owner, runs, asked, field, sentence):
    answer = as_owner.get("/logbook/", asked)

    assert answer.status_code == 200
    assert sentence in errors_of(answer)[field]
    assert "That part of the search was left out" in answer.content.decode()
    assert asked[field] in answer.content.decode()


def test_the_other_parts_of_a_search_still_count(as_owner, runs):
    assert shown(as_owner, since="yesterday", bar="ebb-line") == ["second"]


@pytest.mark.parametrize("number", ["999", "0", "-1", "two", "9" * 400, "\0", "1e9"])
def test_a_page_that_is_not_there_says_which_one_is_shown(as_owner, runs, number):
    answer = as_owner.get("/logbook/", {"page": number})

    assert answer.status_code == 200
    assert "This is page 1 of 1" in answer.content.decode()


def test_the_next_page_keeps_the_search(as_owner, world):
    Run.objects.bulk_create(row(world, f"run-{number}") for number in range(30))

    page = as_owner.get("/logbook/", {"words": "run", "bar": "doorstep"}).content.decode()

    assert 'href="?words=run&amp;bar=doorstep&amp;page=2"' in page
    assert len(shown(as_owner, words="run", page="2")) == 5


def test_a_day_is_a_day_of_the_workshop_not_of_greenwich(as_owner, runs):
    late = START.replace(hour=23, minute=30)
    Run.objects.filter(code="first").update(made_at=late)

    with timezone.override("Pacific/Auckland"):
        assert "first" in shown(as_owner, since="2026-11-26", until="2026-11-26")


def test_a_batch_of_another_workshop_is_not_listed(client, runs, stranger):
    client.force_login(stranger)

    assert shown(client) == []
    assert shown(client, bar="ebb-line") == []


def test_a_search_by_script_gets_the_list_alone(as_owner, runs):
    page = as_owner.get("/logbook/", {"words": "first"}, headers={"HX-Request": "true"}).content.decode()

    assert page.lstrip().startswith('<div id="runs"') and "first" in page and "<html" not in page


@pytest.mark.parametrize(
    "count", [10, pytest.param(10_000, marks=pytest.mark.slow)], ids=["ten batches", "ten thousand batches"]
)
def test_the_logbook_asks_as_often_for_ten_batches_as_for_ten_thousand(
    as_owner, world, django_assert_num_queries, count
):
    Run.objects.bulk_create((row(world, f"run-{number}") for number in range(count)), batch_size=1000)

    with django_assert_num_queries(6):  # session, person, workshop; bars to choose from, count, one page
        assert "batches" in as_owner.get("/logbook/", {"words": "run"}).content.decode()


def test_the_list_does_not_read_the_plans(as_owner, world, django_assert_num_queries):
    start_run(world.bars["doorstep"].revisions.first(), SizeAsked("fats", 900.0), world.owner)

    run = as_owner.get("/logbook/").context["found"].page[0]

    assert "plan_document" in run.get_deferred_fields()
