"""Before lye, with wet gloves: lists, what is not here, the scale, the jar, and what a pour asks for."""

import pytest
from playwright.sync_api import expect

from soapbench.bench.events import state_of
from tests.bench.conftest import Bench
from tests.browser.hand import Hand

MM = 6.3  # CSS px on a phone


def not_here(hand, item):
    hand.prompt.locator(f'[data-missing="{item}"] button').tap()
    hand.page.locator("#missing .help-way").first.wait_for()
    return hand.page.locator("#missing")


def test_one_tap_confirms_a_list_and_what_is_ticked_by_itself_stays_open(hand_at):
    hand, run = hand_at("room")
    hand.prompt.locator("[data-event=done] button").tap()
    expect(hand.prompt.locator("[data-form-trouble]")).to_contain_text("Still open")

    hand.do_as_planned()
    hand.wait_until_saved()
    assert {"time", "rinse", "gear", "bench", "numbers"} <= {key for key, here in state_of(run).ticked.items() if here}


def test_what_is_not_here_shows_what_each_way_does_before_it_is_chosen(hand_at):
    hand, run = hand_at("materials")
    panel = not_here(hand, "material:castor")
    first = panel.locator(".help-way").first
    expect(first).to_contain_text("goes in for Castor")
    expect(first).to_contain_text("of alkali, not")
    shown = first.locator("p").inner_text()

    first.get_by_role("button").tap()
    hand.wait_until_saved()
    expect(panel).to_be_hidden()
    expect(hand.prompt.locator('[data-item="material:castor"]')).to_have_class("item is-dealt")
    hand.wait_until_saved()
    assert state_of(run).changes[-1].effect in shown
    hand.do_as_planned()


def test_without_a_network_the_plain_choices_still_work(hand_at):
    hand, run = hand_at("tools-shape")
    hand.page.context.set_offline(True)
    hand.prompt.locator('[data-missing="tool:drawing"] button').tap()
    panel = hand.page.locator("#missing")
    expect(panel.get_by_role("button", name="Something else instead, or leave it out")).to_be_visible()

    panel.get_by_role("button", name="Tomorrow").tap()
    hand.page.context.set_offline(False)
    hand.page.wait_for_url("**/")
    expect(hand.page.get_by_text("Put off: Hanger – tomorrow")).to_be_visible()
    assert state_of(run).put_off.until == "tomorrow"


def test_a_drawing_is_changed_to_one_whose_tool_is_here(hand_at):
    hand, run = hand_at("tools-shape")
    panel = not_here(hand, "tool:drawing")
    panel.locator(".help-way", has_text="Zigzag with comb").first.get_by_role("button").tap()
    # The page is made anew for it: its words come from the server.
    hand.page.locator('[data-prompt="draw"]', has_text="Draw: zigzag, with Comb").wait_for(state="attached")
    hand.settle()

    assert state_of(run).drawing_ahead["path"] == "zigzag"
    hand.do_as_planned()


def test_a_scale_that_is_off_stays_at_its_prompt_and_says_why(hand_at):
    hand, run = hand_at("scale-check")
    hand.type("203.4")
    hand.prompt.locator("[data-send]").tap()
    hand.wait_until_saved()
    expect(hand.prompt.locator("[data-effect]")).to_contain_text("3.4 g over")
    assert hand.key == "scale-check"

    hand.do_as_planned()
    hand.wait_until_saved()
    assert state_of(run).scale_tried.is_good


def test_another_scale_shows_every_weight_in_its_own_steps(hand_at):
    hand, run = hand_at("scale-check")
    hand.prompt.locator("[data-helps]").tap()
    hand.page.locator("#missing .help-way", has_text="Kitchen scale").get_by_role("button").tap()
    hand.page.wait_for_selector("[data-run][data-live=true]")
    hand.page.wait_for_function("() => document.querySelector('[data-entry]').dataset.decimals === '0'")

    assert state_of(run).scale == "Kitchen scale"


def test_the_keypad_of_the_alkali_comes_with_the_right_jar_only(hand_at):
    hand, _run = hand_at("weigh:alkali:naoh")
    keys = hand.prompt.locator("[data-keypad]").locator("button").first
    expect(keys).to_be_hidden()

    hand.prompt.locator(".tile", has_text="KOH").tap()
    expect(hand.prompt.locator(".wrong-jar")).to_contain_text("potassium hydroxide: shut it, put it back")
    expect(keys).to_be_hidden()

    hand.prompt.locator(".tile", has_text="NaOH").tap()
    expect(hand.prompt.locator(".wrong-jar")).to_be_hidden()
    expect(keys).to_be_visible()


def test_without_a_script_the_other_jar_is_refused(at):
    page, run = at("weigh:alkali:naoh", java_script_enabled=False)
    before = run.events.count()
    expect(page.locator("[data-prompt]:not([hidden]) [name=mass_g]")).to_be_hidden()
    page.locator("[data-prompt]:not([hidden]) .tile", has_text="KOH").tap()

    expect(page.locator("[data-prompt]:not([hidden]) .wrong-jar")).to_be_visible()
    assert run.events.count() == before


def test_a_pour_asks_for_the_scent_that_nobody_wrote_down(at, world):
    page, run = at("pour:1")
    scent = next(event for event in run.events.filter(prompt__startswith="add:scent:A"))
    Bench(run, world.owner).tap("took-back", event=str(scent.pk))
    page.goto(f"/bench/{run.pk}/?at=pour:1")
    hand = Hand(page)
    hand.settle()
    row = hand.prompt.locator("[data-not-in]:visible")
    expect(row).to_contain_text("Not in yet: Shingle for A")
    expect(hand.prompt.locator("[data-hold-button]")).to_be_hidden()

    page.context.set_offline(True)
    row.get_by_role("button", name="It is in").tap()
    expect(row).to_have_count(0)
    page.context.set_offline(False)
    hand.wait_for("pour:1")
    expect(hand.prompt.locator("[data-hold-button]")).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("key", ["materials", "scale-check", "room", "protection", "weigh:alkali:naoh", "before-pour"])
def test_every_answer_before_lye_is_large_enough_and_in_reach(hand_at, key, scheme):
    hand, _run = hand_at(key, color_scheme=scheme)
    for button in hand.prompt.locator("button:visible, a.big:visible, .jars .tile:visible").all():
        box = button.bounding_box()
        assert min(box["width"], box["height"]) >= 10 * MM - 1, button.inner_text()
    assert hand.page.evaluate("document.documentElement.scrollWidth") <= 360


def test_the_five_fats_and_their_button_fit_a_phone_without_scrolling(hand_at):
    hand, _run = hand_at("materials")
    rows = [row.bounding_box() for row in hand.prompt.locator("[data-item]").all()]
    button = hand.prompt.locator("[data-event=done] button").bounding_box()

    assert len(rows) == 5
    assert rows[-1]["y"] + rows[-1]["height"] <= button["y"]
    assert button["y"] + button["height"] <= 740
