"""The bench's list of runs, and one run's page."""

import uuid

import pytest

from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from tests.bench.asking import shown_key, submit, words_of
from tests.bench.sample import Hand

HOME_QUERIES = 5
RUN_QUERIES = 7


def test_the_bench_lists_the_open_runs_and_where_they_stand(maker, begun):
    page = words_of(maker.get("/"))

    assert begun.code in page and "Set out the fats" in page


def test_a_run_that_ended_is_not_on_the_bench(maker, bench, begun):
    bench.tap("stopped", reason="spilt", made_safe="wiped up")

    assert begun.code not in words_of(maker.get("/"))


def test_an_empty_bench_says_what_to_do(maker, revision):
    page = words_of(maker.get("/"))

    assert "Nothing is in progress. Choose a bar to make." in page and "Winter Lane" in page


def test_the_bench_asks_as_often_for_one_run_as_for_five(maker, revision, ada, django_assert_num_queries):
    start_run(revision, SizeAsked("fats", 1000.0), ada)
    maker.get("/")
    with django_assert_num_queries(HOME_QUERIES):
        maker.get("/")
    for _ in range(4):
        start_run(revision, SizeAsked("fats", 1000.0), ada)
    with django_assert_num_queries(HOME_QUERIES):
        page = maker.get("/")
    assert words_of(page).count("at the bench") == 5


def test_another_workshop_sees_neither_runs_nor_bars(client, stranger, begun):
    client.force_login(stranger)
    page = words_of(client.get("/"))

    assert begun.code not in page and "Winter Lane" not in page


def test_whoever_is_not_signed_in_is_asked_to(client, begun):
    assert client.get(f"/bench/{begun.pk}/").status_code == 302


def test_the_run_page_holds_every_prompt_and_shows_one(maker, begun):
    page = maker.get(f"/bench/{begun.pk}/")
    text = page.content.decode()

    assert all(f'data-prompt="{prompt.key}"' in text for prompt in begun.plan.prompts)
    assert shown_key(page) == "materials"


def test_a_prompt_that_is_asked_for_is_shown(maker, begun):
    assert shown_key(maker.get(f"/bench/{begun.pk}/?at=weigh:fat:olive")) == "weigh:fat:olive"


@pytest.mark.parametrize("at", ["weigh:fat:unknown", "%00", "<script>", "x" * 3000])
def test_a_prompt_that_is_not_there_leads_to_the_one_of_now(maker, begun, at):
    page = maker.get(f"/bench/{begun.pk}/", {"at": at})

    assert page.status_code == 200 and shown_key(page) == "materials"


def test_the_page_asks_no_more_often_as_the_run_goes_on(maker, bench, django_assert_num_queries):
    hand = Hand(bench.run.plan).start()
    bench.play(hand.facts)
    with django_assert_num_queries(RUN_QUERIES):
        maker.get(f"/bench/{bench.run.pk}/")
    bench.play(hand.until("cut").facts)
    with django_assert_num_queries(RUN_QUERIES):
        maker.get(f"/bench/{bench.run.pk}/")


@pytest.mark.parametrize("path", ["", "events/"])
def test_a_run_of_another_workshop_is_not_there(client, stranger, begun, path):
    client.force_login(stranger)
    ask = client.post if path else client.get

    assert ask(f"/bench/{begun.pk}/{path}").status_code == 404


def test_a_run_that_never_was_is_not_there(maker, revision):
    assert maker.get(f"/bench/{uuid.uuid4()}/").status_code == 404


@pytest.mark.parametrize("path", ["/bench/12/", "/bench/not-a-number/events/", "/bench/new/no-such-bar/"])
def test_an_address_that_was_cut_short_is_not_there(maker, revision, path):
    assert maker.get(path).status_code == 404


def test_a_run_is_not_changed_by_looking_at_its_events(maker, begun):
    assert maker.get(f"/bench/{begun.pk}/events/").status_code == 405


def test_a_run_that_ended_says_how_and_leads_to_its_record(maker, begun):
    submit(maker, begun, "stopped", "materials", reason="the jug broke", made_safe="wiped up")
    page = words_of(maker.get(f"/bench/{begun.pk}/"))

    assert "This run has ended: stopped" in page and "Open the record" in page and "the jug broke" in page
