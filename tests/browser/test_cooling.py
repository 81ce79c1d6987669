"""While cooling, with a gloved hand: two taps a reading, both pots on one screen and one picture, a true trace."""

import re

import pytest
from playwright.sync_api import expect

from soapbench.bench.events import state_of
from tests.browser.hand import Hand

MM = 6.3


def visible_box(hand, selector):
    return hand.prompt.locator(selector).bounding_box()


@pytest.fixture
def cooling(at):
    """A hand at the cooling prompt with both pots read once, and its run."""
    phone, run = at("cool")
    hand = Hand(phone)
    hand.read("lye", 70)
    hand.read("fats", 46)
    hand.wait_until_saved()
    return hand, run


def test_a_first_reading_takes_a_coarse_tile_and_then_the_exact_one(at):
    phone, run = at("read-lye")
    hand = Hand(phone)
    tiles = hand.prompt.locator("[data-tile]")
    tiles.filter(has_text="85").tap()
    expect(tiles).to_have_text(["83", "84", "85", "86", "87"])
    phone.wait_for_timeout(400)
    tiles.nth(1).tap()
    hand.wait_for("weigh:colourant:A:titanium_dioxide")
    hand.wait_until_saved()

    assert state_of(run).readings[-1].temp_c == 84


def test_both_pots_are_read_on_one_screen_with_targets_for_gloves(cooling):
    hand, _run = cooling
    hand.page.evaluate("scrollTo(0, 0)")
    tiles = [tile.bounding_box() for tile in hand.prompt.locator("[data-tile]").all()]
    dock = hand.page.locator(".dock").bounding_box()

    assert len(tiles) == 6
    assert all(tile["width"] >= 15 * MM - 1 and tile["height"] >= 15 * MM - 1 for tile in tiles)
    assert max(tile["y"] for tile in tiles) + 10 * MM <= dock["y"]  # both rows can be hit without scrolling


def test_the_expected_temperature_is_one_tap_and_decimals_can_be_typed(cooling):
    hand, run = cooling
    hand.prompt.locator("[data-reading=lye] [data-tile]").nth(1).tap()
    hand.settle()
    hand.prompt.locator("[data-reading=fats] summary").tap()
    for key in "45.5":
        hand.prompt.locator(f'[data-reading=fats] [data-degree="{key}"]').tap()
    hand.prompt.locator("[data-reading=fats]").get_by_role("button", name="Read", exact=True).tap()
    expect(hand.prompt.locator("[data-last-reading=fats]")).to_contain_text("45.5 °C")
    hand.wait_until_saved()

    assert [reading.temp_c for reading in state_of(run).readings[-2:]] == [70, 45.5]


def test_a_reading_that_cannot_be_is_asked_about_before_it_is_kept(cooling):
    hand, run = cooling
    kept = len(state_of(run).readings)
    section = hand.prompt.locator("[data-reading=lye]")
    section.locator("summary").tap()
    section.locator("details [name=temp_c]").fill("95")
    section.get_by_role("button", name="Read", exact=True).tap()
    box = section.locator("[data-reading-doubt]")
    expect(box).to_contain_text("95 °C is hotter than 70 °C before")
    assert len(state_of(run).readings) == kept

    box.get_by_role("button", name="It is right").tap()
    expect(hand.prompt.locator("[data-last-reading=lye]")).to_contain_text("95 °C")
    hand.wait_until_saved()
    assert len(state_of(run).readings) == kept + 1


def test_the_picture_holds_both_pots_and_a_line_of_now_that_moves(cooling):
    hand, _run = cooling
    picture = hand.prompt.locator("[data-picture]")
    expect(picture.locator(".is-middle")).to_have_count(2)
    expect(picture.locator(".is-band")).to_have_count(2)
    at = picture.locator("[data-now-line]").get_attribute("transform")
    hand.page.wait_for_timeout(6000)

    assert picture.locator("[data-now-line]").get_attribute("transform") != at


def test_without_a_network_the_last_fit_goes_on(cooling):
    hand, _run = cooling
    ends = [timer.get_attribute("datetime") for timer in hand.page.locator("[data-timers] time").all()]
    hand.page.context.set_offline(True)
    hand.read("fats", 45)

    expect(hand.prompt.locator("[data-picture] .is-middle")).to_have_count(2)
    assert [timer.get_attribute("datetime") for timer in hand.page.locator("[data-timers] time").all()] == ends


def test_a_missed_window_offers_ways_and_keeps_the_one_that_was_tapped(cooling):
    hand, run = cooling
    hand.read("fats", 29)
    way = hand.prompt.locator("[data-way]:visible", has_text="Warm the fats")
    hand.settle()
    way.get_by_role("button").tap()
    expect(hand.prompt.locator("[data-cooling-sentence]")).to_have_text(re.compile("Decided: Warm the fats"))
    hand.wait_until_saved()

    assert state_of(run).changes[-1].decision == "Warm the fats"


def test_the_pots_are_one_tap_from_what_is_done_meanwhile_and_back(at):
    phone, _run = at("weigh:colourant:A:titanium_dioxide")
    hand = Hand(phone)
    phone.locator("[data-pots-bar]").tap()
    hand.wait_for("cool")
    expect(phone.locator("[data-meanwhile-bar]")).to_contain_text("to do")
    phone.locator("[data-meanwhile-bar]").tap()

    hand.wait_for("weigh:colourant:A:titanium_dioxide")


def test_the_batter_s_clock_runs_on_without_a_network_until_the_last_pour(at):
    phone, _run = at("combine")
    hand = Hand(phone)
    expect(phone.locator("[data-batter-clock]")).to_be_hidden()
    phone.context.set_offline(True)
    hand.hold()
    hand.wait_for("trace")
    clock = phone.locator("[data-batter-clock] time")
    expect(clock).to_be_visible()
    before = clock.inner_text()

    expect(clock).not_to_have_text(before)


def test_false_trace_leads_back_to_blending_with_what_to_do(at):
    phone, _run = at("rest-test")
    hand = Hand(phone)
    hand.prompt.get_by_role("button", name="Thicker, and cooler").tap()
    hand.wait_for("trace")
    expect(hand.prompt.locator("[data-rest-advice]")).to_contain_text("false trace")

    hand.prompt.get_by_role("button", name="as planned").tap()
    hand.wait_for("rest-test")
    hand.prompt.get_by_role("button", name="Looks right").tap()
    hand.wait_for("split:B")
