"""Taps that wait: through a lapsed sign-in, a full disk, and a whole batch without a network."""

import pytest
from django.test import override_settings
from playwright.sync_api import expect

from soapbench.bench.events import facts_of
from soapbench.bench.models import Run
from tests.browser.hand import Hand

PASSWORD = "a long invented word"


@pytest.fixture
def weighing(at):
    page, run = at("weigh:fat:coconut")
    hand = Hand(page)
    hand.wait_for("weigh:fat:coconut")
    return hand, run


def test_a_sign_in_that_lapsed_is_renewed_without_losing_a_tap(weighing, world):
    hand, run = weighing
    before = len(facts_of(run))
    world.owner.set_password(PASSWORD)
    world.owner.save()
    with override_settings(TRUST_THIS_MACHINE=False):
        hand.page.context.clear_cookies()
        hand.do_as_planned()
        hand.do_as_planned()
        expect(hand.page.locator("[data-sign-words]")).to_have_text("Needs you")
        hand.page.locator("[data-sign]").tap()
        hand.page.get_by_role("link", name="Sign in").tap()
        hand.page.get_by_label("Name").fill(world.owner.username)
        hand.page.get_by_label("Password").fill(PASSWORD)
        hand.page.get_by_role("button", name="Sign in").tap()
        hand.page.wait_for_url(f"**/bench/{run.pk}/")
        Hand(hand.page).wait_until_saved()

    assert [fact.kind for fact in facts_of(run)[before:]] == ["weighed", "weighed"]


def test_a_full_disk_says_so_and_the_tap_is_not_taken_for_kept(weighing):
    hand, run = weighing
    before = len(facts_of(run))
    hand.page.evaluate(
        """() => {
          const add = IDBObjectStore.prototype.add;
          IDBObjectStore.prototype.add = function (...given) {
            if (!localStorage.getItem("disk-is-free")) throw new DOMException("full", "QuotaExceededError");
            return add.apply(this, given);
          };
        }"""
    )
    hand.weigh()

    expect(hand.page.locator("#needs")).to_be_visible()
    expect(hand.page.locator("#needs")).to_contain_text("This phone has no room left")
    assert hand.key == "weigh:fat:coconut" and len(facts_of(run)) == before
    hand.page.evaluate("localStorage.setItem('disk-is-free', '1')")
    hand.page.keyboard.press("Escape")
    hand.settle()
    hand.prompt.locator("[data-send]").tap()
    expect(hand.page.locator('[data-prompt="weigh:fat:coconut"]')).to_be_hidden()
    hand.wait_until_saved()
    assert [fact.kind for fact in facts_of(run)[before:]] == ["weighed"]


def begun(page):
    """Begin a batch; returns its page's hand."""
    page.goto("/bench/new/doorstep/")
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    return Hand(page)


def worked(hand, *, offline):
    """Work a batch from its first prompt to its last; returns the run."""
    page = hand.page
    hand.settle()
    page.context.set_offline(offline)
    hand.is_offline = offline
    hand.until("release")
    page.context.set_offline(False)
    hand.is_offline = False
    page.evaluate("dispatchEvent(new Event('online'))")
    hand.wait_until_saved()
    hand.hold()
    page.get_by_role("link", name="Open the record").wait_for()
    return Run.objects.get(pk=page.locator("[data-run]").get_attribute("data-run"))


def told(run):
    return [(fact.kind, fact.prompt, fact.payload) for fact in facts_of(run)]


def test_a_whole_batch_without_a_network_is_the_same_batch(open_phone):
    first, second = begun(open_phone()), begun(open_phone())  # before either has taught the other anything
    online, offline = worked(first, offline=False), worked(second, offline=True)

    assert told(offline) == told(online)
    assert offline.status == online.status == Run.Status.RELEASED
    assert offline.bars_made == online.bars_made
    assert offline.superfat_central == online.superfat_central
