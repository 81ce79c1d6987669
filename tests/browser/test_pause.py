"""Called away and back in a real browser: the card, what it says and asks, and the screen behind it."""

import re
from contextlib import suppress
from datetime import timedelta

import pytest
from django.db import OperationalError
from playwright.sync_api import expect

from soapbench.bench.events import state_of
from tests.browser.hand import Hand


@pytest.fixture
def hand_at(at):
    def opened(key, **differences):
        page, run = at(key, **differences)
        hand = Hand(page)
        hand.wait_for(key)
        return hand, run, page.locator("#hold-on")

    return opened


def hold_on(hand):
    hand.page.get_by_role("button", name="Hold on").tap()


def with_a_clock(hand):
    """Load the page anew under a clock that a test can move."""
    key = hand.key
    hand.page.clock.install()
    hand.page.reload()
    hand.page.wait_for_selector("[data-run][data-live=true]")
    hand.wait_for(key)


def fall_asleep(page, minutes):
    """Put the page into the background and wake it so many minutes later."""
    hide = "([state]) => {Object.defineProperty(document, 'hidden', {configurable: true, get: () => state});"
    hide += " document.dispatchEvent(new Event('visibilitychange'))}"
    page.evaluate(hide, [True])
    page.clock.fast_forward(timedelta(minutes=minutes) / timedelta(milliseconds=1))
    page.evaluate(hide, [False])


def last_kinds(page, run, *wanted):
    """Wait until the log ends with these kinds of events, and return what it ends with."""
    kinds = ()
    for _ in range(50):
        with suppress(OperationalError):  # the server writes into the same memory at this moment
            kinds = tuple(run.events.order_by("position").values_list("kind", flat=True))[-len(wanted) :]
        if kinds == wanted:
            break
        page.wait_for_timeout(100)
    return kinds


def test_hold_on_is_written_down_at_once_and_changes_nothing_behind_it(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    hand.type("31")
    hold_on(hand)

    expect(card).to_be_visible()
    expect(card.locator("[data-resume-now]")).to_have_text("Weigh Olive oil")
    expect(card.locator("[data-resume-typed]")).to_have_text("31 g")
    assert hand.key == "weigh:fat:olive"
    assert last_kinds(hand.page, run, "paused") == ("paused",)

    card.get_by_role("button", name="Go on").tap()
    expect(card).to_be_hidden()
    assert hand.prompt.locator("[data-entry] input").input_value() == "31"
    assert last_kinds(hand.page, run, "paused", "resumed") == ("paused", "resumed")


def test_hold_on_works_without_a_network(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    hand.page.context.set_offline(True)
    hold_on(hand)
    expect(card).to_be_visible()
    card.get_by_role("button", name="Go on").tap()
    hand.page.context.set_offline(False)

    assert last_kinds(hand.page, run, "paused", "resumed") == ("paused", "resumed")


def test_the_card_and_a_half_typed_weight_outlive_a_reload(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    hand.type("31")
    hold_on(hand)
    last_kinds(hand.page, run, "paused")
    hand.page.reload()

    expect(card).to_be_visible()
    expect(card.locator("[data-resume-typed]")).to_have_text("31 g")
    assert state_of(run).current == "weigh:fat:olive"


def test_not_sure_shows_what_the_vessel_weighs_with_and_without_it(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    state, line = state_of(run), run.plan.line("fat:olive")
    empty = run.plan.tares[line.vessel]
    hold_on(hand)
    card.get_by_text("Not sure", exact=True).tap()
    within = card.get_by_role("button", name="It is in")

    grams = "".join(re.findall(r"[\d.]+", within.inner_text().replace("\u202f", "")))
    assert float(grams) == pytest.approx(empty + state.pot_g + state.targets["fat:olive"])
    within.tap()
    last_kinds(hand.page, run, "paused", "resumed")
    assert run.events.last().payload == {"checked": "weighed again: it is in"}
    assert hand.key == "weigh:fat:olive"


def test_back_from_the_background_the_card_says_how_long_and_the_pause_is_kept(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    with_a_clock(hand)
    fall_asleep(hand.page, 7)

    expect(card).to_be_visible()
    expect(card.locator("[data-resume-away]")).to_have_text(re.compile(r"^07:\d\d$"))
    card.get_by_role("button", name="No").tap()
    assert last_kinds(hand.page, run, "paused", "resumed") == ("paused", "resumed")
    (pause,) = state_of(run).pauses
    assert pause.minutes == pytest.approx(7, abs=0.5)
    assert pause.checked == "it is not in"


def test_a_short_look_away_and_a_second_one_soon_after_open_no_card(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    with_a_clock(hand)
    fall_asleep(hand.page, 0.4)
    expect(card).to_be_hidden()
    fall_asleep(hand.page, 2)
    card.get_by_role("button", name="Go on").tap()
    last_kinds(hand.page, run, "paused", "resumed")
    fall_asleep(hand.page, 2)

    expect(card).to_be_hidden()


def test_a_half_typed_weight_left_alone_is_asked_about(hand_at):
    hand, _run, card = hand_at("weigh:fat:olive")
    with_a_clock(hand)
    hand.page.clock.fast_forward(60_000)
    expect(card).to_be_hidden()

    hand.type("31")
    hand.page.clock.fast_forward(40_000)
    expect(card).to_be_visible()
    expect(card).to_contain_text("Is it in already?")


def test_the_batter_is_stirred_and_judged_again(hand_at):
    hand, run, card = hand_at("pour:1")
    with_a_clock(hand)
    fall_asleep(hand.page, 6)
    expect(card).to_contain_text("No place to stop. The batter thickens")
    expect(card).to_contain_text("Lye and fats together")
    card.get_by_role("button", name="Medium").tap()
    last_kinds(hand.page, run, "resumed", "trace-seen")

    state = state_of(run)
    assert (state.trace, state.current) == ("medium", "pour:1")
    assert len(state.pauses) == 1


@pytest.mark.parametrize("key", ["alkali-into-water", "combine", "trace", "pour:1"])
def test_a_point_of_no_pause_says_so(hand_at, key):
    hand, run, card = hand_at(key)

    expect(hand.prompt).to_contain_text("no place to stop")
    hold_on(hand)
    expect(card).to_contain_text("No place to stop.")
    last_kinds(hand.page, run, "paused")


def test_the_pots_are_told_as_they_are_by_now_without_a_network(hand_at):
    hand, run, card = hand_at("cool")
    hand.read("lye", 62)
    hand.read("fats", 48)
    last_kinds(hand.page, run, "read", "read")
    hand.wait_until_saved()
    with_a_clock(hand)
    hand.page.context.set_offline(True)
    hold_on(hand)
    hand.page.clock.fast_forward(20 * 60_000)

    lye = card.locator("[data-resume-lye]")
    expect(lye).to_have_text(re.compile(r"^(3|4|5)\d$"))
    expect(card).to_contain_text("last read: 62 °C")
    hand.page.context.set_offline(False)
    last_kinds(hand.page, run, "paused")


def test_without_a_script_the_card_opens_and_goes(at):
    page, run = at("weigh:fat:olive", java_script_enabled=False)
    page.get_by_role("button", name="Hold on").tap()
    expect(page.locator("#hold-on")).to_be_visible()
    page.locator("#hold-on").get_by_role("button", name="Yes").tap()

    expect(page.locator("#hold-on")).to_be_hidden()
    assert last_kinds(page, run, "paused", "resumed") == ("paused", "resumed")


def test_the_card_works_by_keyboard(hand_at):
    hand, run, card = hand_at("weigh:fat:olive")
    hand.page.get_by_role("button", name="Hold on").focus()
    hand.page.keyboard.press("Enter")
    expect(card.locator("h2")).to_be_focused()
    hand.page.keyboard.press("Tab")
    expect(card.get_by_role("button", name="Yes")).to_be_focused()
    hand.page.keyboard.press("Enter")

    last_kinds(hand.page, run, "paused", "resumed")
    assert run.events.last().payload == {"checked": "it is in"}
