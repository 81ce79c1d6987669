"""Something is different: told in few taps, worked out before it is written down, and seen again where it matters."""

import re

from playwright.sync_api import expect

from soapbench.bench.events import facts_of, state_of
from tests.browser.hand import Hand

MM = 6.3  # CSS px on a phone
INDIGO = "colourant:B:fathom_mica"


def opened(at, key, **differences):
    page, run = at(key, **differences)
    hand = Hand(page)
    hand.wait_for(key)
    return page, run, hand


def written(page, form, why, decision):
    form.locator(".answers .chip-choice", has_text=why).tap()
    form.locator(".answers .chip-choice", has_text=decision).tap()
    form.get_by_role("button", name="Write it down").tap()
    expect(page.locator("[data-follows]")).to_be_visible()


def test_the_tiles_are_twenty_four_millimetres_wide_in_two_columns_and_at_most_eight(at):
    page, _run, _hand = opened(at, "weigh:fat:olive")
    page.locator(".dock [data-different]").tap()
    boxes = [tile.bounding_box() for tile in page.locator("[data-tile]:visible").all()]

    assert 1 < len(boxes) <= 8
    assert len({round(box["x"]) for box in boxes}) == 2
    assert all(box["width"] >= 24 * MM - 1 and box["height"] >= 15 * MM - 1 for box in boxes)


def test_what_follows_is_shown_before_it_is_written_down(at):
    page, run, hand = opened(at, "weigh:fat:olive")
    before = len(facts_of(run))
    form = hand.open_change("Another amount")
    for key in "510":
        form.locator(f'[data-key="{key}"]').tap()
    form.get_by_role("button", name="Next").tap()

    expect(form.locator("[data-what-if-effect]")).to_contain_text("Olive oil: 510 g counted")
    expect(form.locator("[data-what-if-superfat]")).to_have_text(re.compile(r"Superfat .* %, between .* and .* %\."))
    assert len(facts_of(run)) == before


def test_a_field_that_is_missing_is_asked_for_before_anything_else(at):
    _page, _run, hand = opened(at, "weigh:fat:olive")
    form = hand.open_change("Another amount")
    form.get_by_role("button", name="Next").tap()

    expect(form.locator("[data-fields-trouble]")).to_have_text("Type what is really in, in grams.")
    expect(form.get_by_role("button", name="Write it down")).to_be_hidden()


def test_degrees_and_minutes_are_turned_with_large_keys(at):
    page, run, hand = opened(at, "cool")
    hand.read("lye", 52)
    form = hand.open_change("Too hot or too cold")
    form.locator('[data-turn="10"]').tap()
    form.locator('[data-turn="-1"]').tap()
    expect(form.locator("[name=temp_c]")).to_have_value("61")
    form.get_by_role("button", name="Next").tap()
    written(page, form, "Still too hot", "Wait longer")
    hand.wait_until_saved()

    assert state_of(run).changes[-1].details == {"temp_c": 61}


def test_only_drawings_of_the_chosen_tool_are_offered(at):
    page, _run, hand = opened(at, "draw")
    form = hand.open_change("Drawn differently")
    form.locator("[data-tools] .chip-choice").first.tap()
    made_by = form.locator("[data-tools] input:checked").get_attribute("value")
    offered = form.locator("[data-made-by]:visible").all()

    assert offered and all(made_by in chip.get_attribute("data-made-by").split() for chip in offered)


def test_the_one_who_decided_may_be_another_than_the_one_who_taps(at, world):
    page, run, hand = opened(at, "weigh:fat:olive")
    form = hand.open_change("Interrupted")
    form.locator('[data-set="10"]').tap()
    form.get_by_role("button", name="Next").tap()
    form.locator(".chip-choice", has_text=world.helper.name).tap()
    written(page, form, "Called away", "Go on")
    hand.wait_until_saved()

    change = state_of(run).changes[-1]
    assert (change.person, change.decided_by) == (world.owner.name, world.helper.name)


def test_what_was_written_down_is_undone_with_one_tap(at):
    page, run, hand = opened(at, "weigh:fat:olive")
    hand.change("Left out", why="Not wanted", decision="Go on without it", line="fat:olive")
    follows = page.locator("[data-follows]")
    expect(follows).to_contain_text("Olive oil is left out")
    hand.settle()
    follows.get_by_role("button", name="Undo").tap()
    hand.wait_for("weigh:fat:olive")
    hand.wait_until_saved()

    expect(follows).to_be_hidden()
    assert state_of(run).changes == ()


def test_without_a_network_it_says_that_what_follows_comes_later_and_then_it_comes(at):
    page, run, hand = opened(at, "weigh:fat:olive")
    page.context.set_offline(True)
    form = hand.open_change("Another amount")
    for key in "510":
        form.locator(f'[data-key="{key}"]').tap()
    form.get_by_role("button", name="Next").tap()
    expect(form.locator("[data-what-if-effect]")).to_contain_text("No network: what follows is worked out")
    written(page, form, "Poured too much", "Keep it and reckon")
    expect(page.locator("[data-follows]")).to_contain_text("Written down.")
    page.context.set_offline(False)
    hand.wait_until_saved()

    expect(page.locator("[data-follows]")).to_contain_text("Olive oil: 510 g counted")


def test_a_change_to_a_later_prompt_is_there_when_it_comes_even_without_a_network(at):
    page, run, hand = opened(at, "materials")
    page.context.set_offline(True)
    form = hand.open_change("Something else instead")
    hand.fill(form, "line", INDIGO)
    hand.fill(form, "material", "charcoal")
    form.get_by_role("button", name="Next").tap()
    written(page, form, "Out of stock", "Use it in the same amount")
    page.locator('.dock [popovertarget="steps"]').tap()
    page.locator(f'#steps [data-step-of="weigh:{INDIGO}"]').tap()
    notice = page.locator("[data-prompt]:not([hidden]) [data-notices] li")

    expect(notice).to_have_text(re.compile(r"^\d\d:\d\d .*charcoal.* goes in for .*: weigh [\d.]+ g\.$", re.I))


def test_a_stand_in_is_of_the_kind_of_what_it_stands_in_for(at):
    _page, _run, hand = opened(at, f"weigh:{INDIGO}")
    form = hand.open_change("Something else instead")
    kinds = {chip.get_attribute("data-kind") for chip in form.locator("[data-materials] [data-kind]:visible").all()}

    assert kinds == {"colourant"}
