"""Slips of a gloved hand: each does nothing, or is asked about, or is taken back; and each says what to do."""

import pytest
from playwright.sync_api import expect

from soapbench.bench.events import facts_of, state_of
from tests.bench.conftest import Bench
from tests.browser.hand import Hand

LYE = "alkali-into-water"


@pytest.fixture
def hand_at(at):
    """The hand at a prompt that takes taps, the run, and its number of events so far."""

    def opened(key):
        page, run = at(key)
        hand = Hand(page)
        hand.wait_for(key)
        return hand, run, len(facts_of(run))

    return opened


@pytest.fixture
def weighing(hand_at):
    """The hand at the first fat, the run, its line, and its number of events so far."""
    hand, run, before = hand_at("weigh:fat:coconut")
    return hand, run, run.plan.line("fat:coconut"), before


def since(run, number):
    return [(fact.kind, fact.prompt) for fact in facts_of(run)[number:]]


def press(hand, milliseconds, drift=0):
    button = hand.prompt.locator("[data-hold-button]")
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    hand.page.mouse.move(x, y)
    hand.page.mouse.down()
    hand.page.mouse.move(x, y + drift)
    hand.page.wait_for_timeout(milliseconds)
    hand.page.mouse.up()


def weighed(hand, line):
    expect(hand.page.locator(f'[data-prompt="weigh:{line.key}"]')).to_be_hidden()
    hand.wait_until_saved()


def test_a_touch_too_short_says_how_to_go_on(hand_at):
    hand, run, before = hand_at(LYE)
    press(hand, 300)

    expect(hand.prompt.locator("[data-hold-why]")).to_have_text("Hold for one second, or answer below.")
    assert since(run, before) == []


def test_a_finger_that_moves_is_told_to_hold_still(hand_at):
    hand, run, before = hand_at(LYE)
    press(hand, 1200, drift=40)

    expect(hand.prompt.locator("[data-hold-why]")).to_have_text("The finger moved. Hold still.")
    assert hand.key == LYE and since(run, before) == []


def test_who_cannot_hold_presses_and_then_answers(hand_at):
    hand, run, before = hand_at(LYE)
    expect(hand.prompt.locator("[data-hold-second]")).to_be_hidden()
    press(hand, 100)
    hand.prompt.get_by_role("button", name="Yes, it is done").tap()
    hand.wait_for("read-lye")
    hand.wait_until_saved()

    assert since(run, before) == [("done", LYE)]


def test_the_second_button_goes_away_after_five_seconds(hand_at):
    hand, _, _ = hand_at(LYE)
    press(hand, 100)
    second = hand.prompt.locator("[data-hold-second]")

    expect(second).to_be_visible()
    expect(second).to_be_hidden(timeout=6000)


def test_a_keyboard_alone_is_enough_for_a_weight(weighing):
    hand, run, line, _ = weighing
    hand.prompt.locator("[name=mass_g]").first.focus()
    hand.page.keyboard.type(str(line.planned_g))
    hand.page.keyboard.press("Enter")
    weighed(hand, line)

    assert state_of(run).weights[line.key].mass_g == line.planned_g


def test_a_blocked_key_says_why_and_leaves_the_number(weighing):
    hand, _, _, _ = weighing
    hand.type("12.34")

    expect(hand.prompt.locator("[data-blocked]")).to_have_text("The scale shows 1 decimal.")
    expect(hand.prompt.locator("[data-entry] input")).to_have_value("12.3")


def test_an_empty_weight_is_asked_for_in_words(weighing):
    hand, run, _, before = weighing
    hand.prompt.locator("[data-entry] input").evaluate("input => input.removeAttribute('required')")
    hand.prompt.locator("[data-send]").tap()

    expect(hand.prompt.locator("[data-blocked]")).to_have_text("Type a number: digits and one decimal mark.")
    assert since(run, before) == []


def test_read_again_empties_the_field(weighing):
    hand, run, line, before = weighing
    hand.weigh(f"{line.planned_g / 10:.1f}")
    hand.prompt.get_by_role("button", name="Read again").tap()

    expect(hand.prompt.locator("[data-doubt]")).to_be_hidden()
    expect(hand.prompt.locator("[data-entry] input")).to_have_value("")
    assert since(run, before) == []


def test_a_doubtful_weight_that_is_right_is_recorded_with_its_answer(weighing):
    hand, run, line, before = weighing
    hand.weigh(f"{line.planned_g / 10:.1f}")
    hand.prompt.get_by_role("button", name="It is right").tap()
    weighed(hand, line)

    assert since(run, before) == [("weighed", f"weigh:{line.key}")]
    assert facts_of(run)[-1].payload["doubts_answered"] == ["decimal"]


def test_a_weight_is_taken_back_and_asked_for_again(weighing):
    hand, run, line, before = weighing
    hand.weigh()
    weighed(hand, line)
    hand.settle()
    take_back = hand.page.locator(".dock [data-take-back]")
    expect(take_back).to_contain_text(f"{line.name} {line.planned_g:g} g")
    take_back.tap()
    hand.wait_for(f"weigh:{line.key}")
    hand.wait_until_saved()

    assert line.key not in state_of(run).weights
    assert [kind for kind, _ in since(run, before)] == ["weighed", "took-back"]


def test_what_waits_on_the_phone_leads_to_the_step_after_it(hand_at):
    hand, run, before = hand_at("cover")
    context = hand.page.context
    context.set_offline(True)
    hand.act()
    hand.wait_for("clean")
    hand.page.close()
    context.set_offline(False)
    again = context.new_page()
    again.goto(f"/bench/{run.pk}/")
    later = Hand(again)
    later.wait_until_saved()

    assert (later.key, since(run, before)) == ("clean", [("done", "cover")])


def test_the_same_step_tapped_on_two_phones_is_done_once(hand_at, open_phone):
    hand, run, _ = hand_at("cover")
    other = open_phone()
    other.goto(f"/bench/{run.pk}/")
    theirs = Hand(other)
    theirs.settle()
    for each in (hand, theirs):
        each.act()
        each.wait_until_saved()
    other.reload()

    assert Hand(other).key == "clean"


def test_a_tap_that_came_too_late_can_be_kept_as_a_remark(hand_at, world):
    hand, run, _ = hand_at("cover")
    hand.page.context.set_offline(True)
    hand.act()
    hand.wait_for("clean")
    Bench(run, world.owner).tap("stopped", reason="the loaf fell", made_safe="wiped up")
    hand.page.context.set_offline(False)
    sign = hand.page.locator("[data-sign-words]")
    expect(sign).to_have_text("Needs you")
    sign.tap()
    panel = hand.page.locator("#needs")
    expect(panel).to_contain_text("This batch is closed.")
    panel.get_by_role("button", name="Keep it as a remark").tap()
    hand.page.get_by_text("This run has ended:").wait_for()

    assert facts_of(run)[-1].kind == "noted" and "This batch is closed." in facts_of(run)[-1].payload["text"]


@pytest.mark.parametrize("at_prompt", ["weigh:alkali:naoh", LYE])
def test_first_aid_at_the_lye_shows_the_numbers_of_the_place(hand_at, at_prompt):
    hand, run, _ = hand_at(at_prompt)
    hand.page.get_by_role("button", name="First aid or spill", exact=True).tap()

    expect(hand.page.locator("#first-aid")).to_contain_text(run.plan.emergency)


def test_a_refused_change_without_a_script_opens_its_panel_again(at):
    page, run = at("weigh:fat:coconut", java_script_enabled=False)
    page.locator(".dock [data-different]").tap()
    page.locator("#different [data-tile]", has_text="Another amount").tap()
    panel = page.locator("#different form.change:visible")
    panel.locator("[name=mass_g]").fill("a lot")
    panel.locator("summary", has_text="In own words").tap()
    panel.locator("[name=why_words]").fill("the jug slipped")
    panel.locator("[name=decision_words]").fill("kept it")
    panel.get_by_role("button", name="Write it down").tap()

    expect(panel).to_contain_text("“a lot” is not a number.")
    expect(panel.locator("[name=mass_g]")).to_have_value("a lot")
    expect(panel.locator("[name=why_words]")).to_have_value("the jug slipped")
    page.locator("#different").get_by_role("link", name="Close").tap()
    expect(page.locator("#different")).to_be_hidden()
