"""What the server works out stands on the phone: the real superfat, the ways out, the time to the window."""

import re

from playwright.sync_api import expect

from tests.browser.hand import Hand


def test_too_much_alkali_says_at_once_what_the_soap_would_be_and_what_can_still_be_done(at):
    phone, run = at("weigh:alkali:naoh")
    hand = Hand(phone)

    hand.weigh(f"{run.plan.line('alkali:naoh').planned_g + 15:.1f}")

    box = phone.locator('[data-prompt="alkali-into-water"] [data-remedies]')
    expect(box).to_be_visible()
    expect(box).to_contain_text("Lye-heavy: superfat −")
    expect(box).to_have_class("notice remedies is-stop")
    box.get_by_role("button", name="What can be done").tap()
    expect(phone.locator("#outs")).to_contain_text("Weigh the alkali again")
    expect(phone.locator("#outs .out.is-stop")).to_contain_text("lye-heavy")


def test_as_planned_nothing_has_to_be_done_and_nothing_is_said(at):
    phone, _ = at("weigh:alkali:naoh")
    hand = Hand(phone)

    hand.weigh()
    hand.wait_until_saved()

    expect(phone.locator('[data-prompt="alkali-into-water"] [data-remedies]')).to_be_hidden()


def test_readings_of_both_pots_bring_the_time_to_the_window(at):
    phone, _ = at("cool")
    hand = Hand(phone)
    expect(phone.locator("[data-cooling-sentence]")).to_be_hidden()

    hand.read("lye", 70)
    hand.read("fats", 42)

    expect(phone.locator("[data-cooling-sentence]")).to_have_text(re.compile(r"at about \d\d:\d\d \(\d\d:\d\d to"))
    assert float(phone.locator("[data-curve-window]").get_attribute("height")) > 0


def test_taking_back_what_cannot_be_undone_is_told_what_to_mind(at):
    phone, _ = at("read-lye")

    phone.locator("[data-take-back]").tap()

    expect(phone.locator("[data-prompt]:not([hidden]) [data-effect]")).to_be_visible()
