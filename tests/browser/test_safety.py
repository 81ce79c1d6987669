"""Splash, spill, stop: one tap away, without a network and without a script, and kept in the log."""

import re
from contextlib import suppress

import pytest
from django.db import OperationalError
from playwright.sync_api import expect

from soapbench.bench.events import state_of
from tests.browser.hand import HOLD_MS, Hand

LYE = "alkali-into-water"
UNTIL_CLEAN = ["weigh:alkali:naoh", LYE, "read-lye", "cool", "combine", "trace", "pour:1", "clean"]


def last(page, run, kind, **payload):
    """Wait until the log ends with an event of this kind and these fields, and return it."""
    for _ in range(50):
        with suppress(OperationalError):
            event = run.events.order_by("position").last()
            if event.kind == kind and payload.items() <= event.payload.items():
                return event
        page.wait_for_timeout(100)
    raise AssertionError(event.kind)


def open_stop(page):
    page.locator('.dock [popovertarget="steps"]').tap()
    page.locator('#steps [popovertarget="stop-safe"]').tap()
    return page.locator("#stop-safe")


def hold(page, panel):
    button = panel.locator("[data-hold-button]")
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(HOLD_MS)
    page.mouse.up()


@pytest.mark.parametrize("key", UNTIL_CLEAN)
def test_first_aid_is_one_tap_away_until_the_bench_is_clean(at, key):
    page, run = at(key)
    page.locator(".dock .is-aid").tap()

    expect(page.locator("#first-aid")).to_contain_text(run.plan.emergency)
    expect(page.get_by_role("button", name="Start the rinse timer")).to_be_in_viewport()


def test_the_rinse_timer_starts_without_a_network_and_arrives_with_its_moment(at):
    page, run = at("read-lye")
    page.context.set_offline(True)
    page.locator(".dock .is-aid").tap()
    page.get_by_role("button", name="Start the rinse timer").tap()
    expect(page.locator("[data-rinse-left]")).to_have_text(re.compile(r"^29:5\d$"))
    expect(page.locator("#first-aid")).to_contain_text("Keep rinsing. Ring now.")
    page.locator("#first-aid").get_by_role("button", name="Eye").tap()
    page.context.set_offline(False)

    last(page, run, "rinsed", is_running=True, where="eye")
    assert state_of(run).rinses[0].where == "eye"


def test_the_rinse_timer_counts_up_after_zero(at):
    page, run = at("read-lye")
    page.clock.install()
    page.reload()
    page.wait_for_selector("[data-run][data-live=true]")
    page.locator(".dock .is-aid").tap()
    page.get_by_role("button", name="Start the rinse timer").tap()
    page.clock.fast_forward(31 * 60_000)

    expect(page.locator("[data-rinse-left]")).to_have_text(re.compile(r"^\+01:0\d$"))
    page.get_by_role("button", name="Stop the rinse timer").tap()
    expect(page.locator("[data-rinse-left]")).to_have_text("30:00")
    last(page, run, "rinsed", is_running=False)


def test_without_a_script_the_rinse_begins_and_ends(at):
    page, run = at("read-lye", java_script_enabled=False)
    page.locator(".dock .is-aid").tap()
    page.get_by_role("button", name="Start the rinse timer").tap()
    page.locator(".dock .is-aid").tap()
    expect(page.locator("#first-aid")).to_contain_text("Rinsing began at the time above")
    page.get_by_role("button", name="Stop the rinse timer").tap()
    page.locator(".dock .is-aid").tap()
    expect(page.locator("[data-rinse-left]")).to_have_text("30:00")

    assert state_of(run).rinses[0].ended is not None


def test_spilt_lye_says_what_to_do_and_leaves_the_alkali_unknown(at):
    page, run = at("read-lye")
    page.locator(".dock .is-aid").tap()
    page.locator("#first-aid").get_by_role("button", name="Spilt").tap()
    spill = page.locator("#spill")
    expect(spill).to_contain_text("sand, earth or vermiculite")
    spill.get_by_role("button", name="Cleaned up, write it down").locator("visible=true").first.tap()

    assert last(page, run, "changed").payload["what"] == "lost or spilt"
    expect(page.locator("[data-prompt]:not([hidden])")).to_contain_text("Nobody knows how much alkali")


@pytest.mark.parametrize("script", [True, False], ids=["with a script", "without one"])
def test_a_batch_with_lye_is_closed_only_with_a_word_on_where_it_is(at, script):
    page, run = at("read-lye", java_script_enabled=script)
    panel = open_stop(page)
    expect(panel).to_contain_text("marked LYE – BURNS")
    panel.get_by_text("Jug covered").tap()
    panel.locator(".chip-choice", has_text="No time left").tap()
    if script:
        hold(page, panel)
        expect(panel.get_by_role("alert")).to_have_text("Tap where the lye is now.")
        assert state_of(run).ended is None

    panel.locator(".chip-choice", has_text="Kept: covered").tap()
    if script:
        hold(page, panel)
    else:
        panel.locator("[data-plain] input").check()
        panel.get_by_role("button", name="It is done").tap()
    expect(page.locator("[data-ended]")).to_contain_text("stopped")
    assert run.events.last().payload["lye"] == "kept"
    assert run.events.last().payload["steps"] == ["jug"]


def test_the_list_follows_the_batch_without_a_network(at):
    page, _run = at(LYE)
    hand = Hand(page)
    hand.wait_for(LYE)
    page.context.set_offline(True)
    hand.hold()
    hand.wait_for("read-lye")
    panel = open_stop(page)

    expect(panel.get_by_text("Jug covered")).to_be_visible()
    expect(panel.get_by_text("Where is the lye now?")).to_be_visible()
    expect(panel.get_by_text("Weighed alkali: lid on")).to_be_hidden()
    page.context.set_offline(False)
    hand.wait_until_saved()


def test_a_loaf_is_stopped_without_a_question_about_lye(at):
    page, run = at("rest")
    panel = open_stop(page)
    expect(panel.get_by_text("Where is the lye now?")).to_be_hidden()
    panel.get_by_text("Loaf in its mould").tap()
    panel.locator(".chip-choice", has_text="It cannot be saved").tap()
    hold(page, panel)

    expect(page.locator("[data-ended]")).to_contain_text("stopped")
    assert run.events.last().payload["steps"] == ["loaf"]
