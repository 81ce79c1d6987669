"""The app without a network: from a cold start, with what was heard last, and through a new edition."""

import re

import pytest
from playwright.sync_api import expect

from soapbench.bench.events import facts_of
from soapbench.workshop import offline
from tests.browser.hand import Hand

FILES_KEPT = "async () => (await caches.keys()).filter((name) => name.startsWith('shell ')).length"
PAGES_KEPT = """async () => {
  const paths = [];
  for (const name of await caches.keys()) {
    if (!name.startsWith("pages ")) continue;
    for (const { url } of await (await caches.open(name)).keys()) paths.push(new URL(url).pathname);
  }
  return paths;
}"""


def is_controlled(page):
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")


def wait_until_kept(page, path):
    for _ in range(100):
        if path in page.evaluate(PAGES_KEPT):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"{path} is not kept: {page.evaluate(PAGES_KEPT)}")


@pytest.fixture
def kept_at(at):
    """Open a run's page up to a prompt, kept by the worker; returns the hand and the run."""

    def opened(key):
        page, run = at(key)
        is_controlled(page)
        wait_until_kept(page, f"/bench/{run.pk}/")
        return Hand(page), run

    return opened


def cut(page):
    page.context.set_offline(True)


def restore(page):
    page.context.set_offline(False)


def test_a_run_goes_on_after_a_cold_start_without_a_network(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    cut(hand.page)
    page = hand.page.context.new_page()  # as after the browser was killed: nothing of the page is left
    hand.page.close()
    page.goto(f"/bench/{run.pk}/")
    cold = Hand(page)
    cold.wait_for("weigh:fat:coconut")
    cold.do_as_planned()
    expect(page.locator("[data-sign-words]")).to_have_text("1 waiting")

    restore(page)
    page.evaluate("dispatchEvent(new Event('online'))")
    cold.wait_until_saved()
    assert facts_of(run)[-1].kind == "weighed"


def test_what_the_server_took_before_the_cut_is_there_after_a_cold_start(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    hand.until("weigh:fat:olive")
    hand.wait_until_saved()
    cut(hand.page)
    hand.page.reload()

    again = Hand(hand.page)
    again.wait_for("weigh:fat:olive")


def test_the_app_s_start_leads_to_the_open_run_without_a_network(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    cut(hand.page)
    hand.page.goto("/?start")

    expect(hand.page).to_have_url(re.compile(f"/bench/{run.pk}/"))


def test_the_app_s_start_leads_to_the_open_run(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    hand.page.goto("/?start")

    expect(hand.page).to_have_url(re.compile(f"/bench/{run.pk}/"))


def test_a_page_that_is_not_kept_says_so(kept_at):
    hand, _run = kept_at("weigh:fat:coconut")
    cut(hand.page)
    hand.page.goto("/shelf/")

    expect(hand.page.get_by_role("heading", name="This page needs the network")).to_be_visible()
    hand.page.get_by_role("link", name="To the bench").tap()
    expect(hand.page.get_by_role("heading", name="Bench", exact=True)).to_be_visible()


def test_the_newest_record_can_be_read_without_a_network(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    wait_until_kept(hand.page, f"/logbook/{run.pk}/")
    cut(hand.page)
    hand.page.goto(f"/logbook/{run.pk}/")

    expect(hand.page.get_by_text(run.code).first).to_be_visible()


def test_a_sign_in_page_is_never_kept(kept_at):
    hand, run = kept_at("weigh:fat:coconut")
    hand.page.goto("/sign-in/")

    assert not [path for path in hand.page.evaluate(PAGES_KEPT) if "sign-in" in path]


@pytest.fixture
def new_edition(monkeypatch):
    """A deploy: the server's pages and worker are of another edition from now on."""

    def deploy():
        monkeypatch.setattr(offline, "edition", lambda: "2.0-feedbeef")

    return deploy


def test_a_new_edition_waits_beside_an_open_run_and_is_asked_for(kept_at, new_edition):
    hand, run = kept_at("weigh:fat:coconut")
    new_edition()
    hand.page.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    hand.page.wait_for_function(
        "() => navigator.serviceWorker.getRegistration().then((found) => found.waiting !== null)"
    )
    hand.do_as_planned()
    hand.wait_until_saved()
    expect(hand.page.locator("[data-new-edition]")).to_be_hidden()

    hand.page.goto("/")
    hand.page.get_by_role("button", name="Use it now").tap()
    hand.page.wait_for_function("async () => (await caches.keys()).every((name) => name.endsWith('2.0-feedbeef'))")
    cut(hand.page)
    hand.page.goto(f"/bench/{run.pk}/")
    Hand(hand.page).wait_for(hand.key)


def test_an_old_edition_s_page_keeps_its_files_until_it_is_kept_anew(kept_at, new_edition):
    hand, run = kept_at("weigh:fat:coconut")
    new_edition()
    hand.page.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    hand.page.wait_for_function(
        "() => navigator.serviceWorker.getRegistration().then((found) => found.waiting !== null)"
    )
    cut(hand.page)
    hand.page.reload()

    Hand(hand.page).wait_for("weigh:fat:coconut")
    assert hand.page.evaluate(FILES_KEPT) == 2


def test_the_remover_takes_the_worker_and_all_it_kept_away(kept_at, settings):
    hand, _run = kept_at("weigh:fat:coconut")
    settings.OFFLINE = False
    hand.page.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    hand.page.wait_for_function("async () => (await caches.keys()).length === 0", timeout=15_000)
