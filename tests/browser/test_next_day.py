"""The day after: gel, window, thumb and cut, on the phone, without a network and on the rack."""

import re

import pytest
from playwright.sync_api import expect

from soapbench.bench.events import state_of
from tests.browser.test_safety import last

MOMENT = re.compile(r"^\d{1,2} \w+, \d\d:\d\d$")


def test_gel_seen_brings_the_loaf_forward_at_once_and_without_a_network(hand_at):
    hand, run = hand_at("rest")
    due = hand.prompt.locator("[data-due]")
    before = due.inner_text()
    hand.page.context.set_offline(True)
    hand.prompt.get_by_role("button", name="Yes, gelled").tap()

    expect(hand.prompt.locator("[data-rest-sentence]")).to_contain_text("Gelled. Usually firm between 12 and 24 h.")
    expect(due).not_to_have_text(before)
    expect(due).to_have_text(MOMENT)
    expect(hand.prompt.get_by_role("button", name="No gel")).to_be_hidden()
    assert hand.key == "rest"
    hand.page.context.set_offline(False)
    last(hand.page, run, "looked", gel="yes")


def test_a_dent_waits_and_a_firm_loaf_goes_on_to_the_cut(hand_at):
    hand, run = hand_at("firm")
    hand.prompt.get_by_role("button", name="It dents").tap()
    expect(hand.prompt).to_contain_text("It dented. Press again from")
    expect(hand.page.locator("[data-timers]")).to_contain_text("Loaf: press again")
    last(hand.page, run, "firmness-checked", is_firm=False)
    assert hand.key == "firm"

    hand.settle()
    hand.prompt.get_by_role("button", name="Firm, no dent").tap()
    hand.wait_for("unmould")
    expect(hand.page.locator("[data-timers]")).not_to_contain_text("press again")
    last(hand.page, run, "firmness-checked", is_firm=True)


def test_what_crumbles_is_cut_and_then_needs_a_test(hand_at):
    hand, run = hand_at("firm")
    hand.prompt.get_by_role("button", name="It crumbles").tap()
    hand.wait_for("unmould")
    last(hand.page, run, "firmness-checked", crumbles=True)

    assert state_of(run).needs_test


def test_the_cut_keeps_bars_mass_and_trimmings(hand_at):
    hand, run = hand_at("cut")
    hand.cut()
    hand.wait_for("cure")
    last(hand.page, run, "cut", mass_g=1430.0, offcuts_g=95.0)
    hand.page.goto(f"/rack/{run.pk}/")

    expect(hand.page.get_by_text("The loaf", exact=True)).to_be_visible()
    expect(hand.page.get_by_role("region", name="The cut")).to_contain_text("95 g")


@pytest.mark.parametrize("key", ["look", "firm"])
def test_every_answer_is_in_sight(hand_at, key):
    hand, _run = hand_at(key)

    for button in hand.prompt.locator("button:visible").all():
        expect(button).to_be_in_viewport(ratio=1)


def test_without_a_script_the_loaf_is_looked_at_and_pressed(at):
    page, run = at("look", java_script_enabled=False)
    page.get_by_role("button", name="Yes, it gels").tap()
    expect(page.locator('[data-prompt="rest"]')).to_be_visible()
    page.get_by_role("button", name="It is ready").tap()
    page.get_by_role("button", name="It dents").tap()

    expect(page.locator('[data-prompt="firm"]')).to_contain_text("It dented. Press again from")
    assert state_of(run).rest.gel == "yes"
