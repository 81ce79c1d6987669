"""Timers that run out: on another page, behind another window, and on a screen that may go dark."""

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand

LONG = "01:30:00"  # longer than the timer of any lye


@pytest.fixture
def cooling(at):
    """A run whose lye was just made, so that a timer runs; returns the page and the run."""
    page, run = at("alkali-into-water", permissions=["screen-wake-lock"])
    page.clock.install()
    page.reload()
    hand = Hand(page)
    hand.wait_for("alkali-into-water")
    hand.hold()
    hand.wait_for("read-lye")
    hand.wait_until_saved()
    return page, run


def run_out(page):
    page.clock.fast_forward(LONG)


def test_a_timer_that_runs_out_is_told_on_every_page_and_leads_back(cooling):
    page, run = cooling
    page.goto("/shelf/")
    expect(page.locator("[data-alarm]")).to_be_hidden()
    run_out(page)
    page.clock.run_for(2000)

    expect(page.locator("[data-alarm]")).to_contain_text("Ebb Line")
    page.locator("[data-alarm] a").tap()
    page.wait_for_url(f"**/bench/{run.pk}/")


def test_an_alarm_that_was_heard_is_not_told_elsewhere(cooling):
    page, _run = cooling
    run_out(page)
    page.clock.run_for(2000)
    page.get_by_role("button", name="Heard").first.tap()
    page.goto("/shelf/")
    page.clock.run_for(3000)

    expect(page.locator("[data-alarm]")).to_be_hidden()


def test_a_screen_that_stays_on_needs_no_note(cooling):
    page, _run = cooling
    expect(page.locator("[data-alarm-note]")).to_be_hidden()


def test_a_phone_that_cannot_keep_its_screen_on_says_so(at):
    page, _run = at("alkali-into-water")
    page.add_init_script("delete Navigator.prototype.wakeLock")
    page.reload()
    hand = Hand(page)
    hand.wait_for("alkali-into-water")
    hand.hold()
    hand.wait_for("read-lye")

    expect(page.locator("[data-alarm-note]")).to_contain_text("an alarm is not certain")
