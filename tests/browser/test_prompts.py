"""Prompts as the gloved hand meets them: holding, weighing, timers, and the same without a script."""

import re
from datetime import timedelta

from playwright.sync_api import expect

from tests.browser.hand import Hand

LYE = "alkali-into-water"


def middle(locator):
    locator.scroll_into_view_if_needed()
    box = locator.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def press_for(phone, milliseconds, drift=0):
    x, y = middle(phone.locator(f'[data-prompt="{LYE}"] [data-hold-button]'))
    phone.mouse.move(x, y)
    phone.mouse.down()
    phone.mouse.move(x + drift, y)
    phone.wait_for_timeout(milliseconds)
    phone.mouse.up()


def is_made(run):
    return run.events.filter(kind="done", prompt=LYE).exists()


def test_holding_for_a_second_confirms(at):
    phone, run = at(LYE)
    press_for(phone, 1200)

    expect(phone.locator("[data-prompt=read-lye]")).to_be_visible()
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")
    assert is_made(run)


def test_a_short_touch_and_a_drifting_finger_confirm_nothing(at):
    phone, run = at(LYE)
    press_for(phone, 300)
    press_for(phone, 1200, drift=60)

    expect(phone.locator(f'[data-prompt="{LYE}"]')).to_be_visible()
    expect(phone.locator(f'[data-prompt="{LYE}"] [data-hold-why]')).not_to_be_empty()
    assert not is_made(run)


def test_the_way_without_holding_works_by_keyboard(at):
    phone, run = at(LYE)
    phone.locator(f'[data-prompt="{LYE}"] [data-hold-button]').focus()
    phone.keyboard.press("Enter")
    second = phone.locator(f'[data-prompt="{LYE}"] [data-hold-second]')
    expect(second).to_be_visible()
    second.focus()
    phone.keyboard.press("Enter")

    expect(phone.locator("[data-prompt=read-lye]")).to_be_visible()
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")
    assert is_made(run)


def test_the_second_button_stands_thirty_millimetres_away(at):
    phone, _run = at(LYE)
    press_for(phone, 200)
    first = phone.locator(f'[data-prompt="{LYE}"] [data-hold-button]').bounding_box()
    second = phone.locator(f'[data-prompt="{LYE}"] [data-hold-second]').bounding_box()

    assert second["y"] - (first["y"] + first["height"]) >= 30 * 6.3 - 1


def test_a_weight_ten_times_too_large_is_asked_about_first(at):
    phone, run = at("weigh:fat:olive")
    prompt = phone.locator('[data-prompt="weigh:fat:olive"]')
    target = run.plan.line("fat:olive").planned_g
    prompt.locator("[name=mass_g]").fill(f"{target * 10:.0f}")
    prompt.locator("[data-send]").tap()

    expect(prompt.locator("[data-doubt]")).to_contain_text("decimal mark")
    assert not run.events.filter(kind="weighed", payload__line="fat:olive").exists()
    prompt.locator("[data-doubt-again]").tap()
    expect(prompt.locator("[name=mass_g]")).to_have_value("")


def test_an_oil_weighed_over_counts_in_the_pot_and_in_the_alkali(at):
    phone, run = at("weigh:fat:coconut")
    before = run.plan.line("fat:coconut").planned_g
    prompt = phone.locator('[data-prompt="weigh:fat:coconut"]')
    pot = float(prompt.locator("[data-pot]").inner_text().replace("\u202f", ""))
    phone.context.set_offline(True)
    prompt.locator("[name=mass_g]").fill(f"{before + 40:.1f}")
    prompt.locator("[data-send]").tap()

    shown = phone.locator("[data-prompt]:not([hidden]) [data-pot]")
    expect(shown).to_have_text(re.compile(rf"^{pot + before + 40:.1f}$"))


def test_a_half_typed_weight_survives_a_reload(at):
    phone, _run = at("weigh:fat:olive")
    for key in "39":
        phone.locator(f'[data-prompt="weigh:fat:olive"] [data-key="{key}"]').tap()
    phone.reload()

    expect(phone.locator('[data-prompt="weigh:fat:olive"] [name=mass_g]')).to_have_value("39")


def test_a_timer_shows_the_same_remainder_after_a_reload_and_counts_up_when_overdue(at):
    phone, run = at("read-lye")
    made = run.events.get(kind="done", prompt=LYE).happened_at
    minutes = next(prompt.timer.minutes for prompt in run.plan.prompts if prompt.key == LYE)
    ends = made + timedelta(minutes=minutes)
    phone.clock.install(time=ends - timedelta(minutes=5))
    phone.reload()
    expect(phone.locator(".timer time")).to_have_text(re.compile(r"^0[45]:\d\d$"))
    phone.clock.fast_forward("04:00")
    phone.reload()
    expect(phone.locator(".timer time")).to_have_text(re.compile(r"^0[01]:\d\d$"))

    phone.clock.fast_forward("05:00")
    expect(phone.locator(".timer.is-over time")).to_have_text(re.compile(r"^\+0[34]:\d\d$"))
    phone.get_by_role("button", name="Heard").tap()
    expect(phone.get_by_role("button", name="Heard")).to_be_hidden()
    expect(phone.locator(".timer.is-over")).to_be_visible()


def test_without_a_script_the_first_prompts_work_with_plain_forms(at):
    page, run = at("scale-check", java_script_enabled=False)
    page.locator("[data-prompt]:not([hidden]) [name=read_g]").fill("200.1")
    page.get_by_role("button", name="It shows this").tap()
    page.locator("[data-tick=time]").tap()
    page.get_by_role("button", name="All of these are here").tap()
    first = run.plan.in_group("fat")[0]
    page.locator("[data-prompt]:not([hidden]) [name=mass_g]").fill(f"{first.planned_g * 10:.0f}")
    page.get_by_role("button", name="Weighed").tap()
    expect(page.get_by_role("alert")).to_contain_text("decimal mark")
    page.locator("[data-prompt]:not([hidden]) [name=mass_g]").fill(str(first.planned_g))
    page.get_by_role("button", name="Weighed").tap()

    expect(page.locator(f'[data-prompt="weigh:{first.key}"]')).to_be_hidden()
    assert run.events.last().payload["mass_g"] == first.planned_g


def test_without_a_script_what_cannot_be_undone_is_ticked_and_sent(at):
    page, run = at(LYE, java_script_enabled=False)
    page.locator(f'[data-prompt="{LYE}"] input[type=checkbox]').check()
    page.get_by_role("button", name="It is done").tap()

    expect(page.locator("[data-prompt=read-lye]")).to_be_visible()
    assert is_made(run)


def test_first_aid_is_one_tap_away_and_its_timer_counts_on(at):
    phone, run = at(LYE)
    phone.locator(".dock .is-aid").tap()
    expect(phone.locator("#first-aid")).to_contain_text(run.workshop.emergency_number)
    phone.get_by_role("button", name="Start the rinse timer").tap()
    expect(phone.locator("[data-rinse-left]")).to_have_text(re.compile(r"^29:5\d$"))
    phone.reload()
    phone.locator(".dock .is-aid").tap()
    expect(phone.locator("[data-rinse-left]")).to_have_text(re.compile(r"^29:\d\d$"))


def test_without_its_gear_ticked_nobody_goes_on_to_the_lye(at):
    phone, run = at("protection")
    phone.context.set_offline(True)
    for button in phone.locator('[data-prompt="protection"] [data-tick][aria-pressed=true]').all():
        button.tap()
        phone.wait_for_timeout(400)

    phone.locator('[data-prompt="protection"]').get_by_role("button", name="All of it is so").tap()

    expect(phone.locator('[data-prompt="protection"] [data-form-trouble]')).to_contain_text("Still open")
    expect(phone.locator('[data-prompt="protection"]')).to_be_visible()


def test_a_reason_of_one_kind_of_change_is_not_sent_with_another(at):
    phone, run = at("weigh:fat:olive")
    hand = Hand(phone)
    hand.settle()
    form = hand.open_change("Something else")
    form.locator(".answers .chip-choice").first.tap()
    form.get_by_role("link", name="Back").tap()

    phone.locator("#different [data-tile]:visible", has_text="Interrupted").tap()
    form = phone.locator("#different form.change:visible")
    form.get_by_role("button", name="Next").tap()
    form.get_by_role("button", name="Write it down").tap()

    expect(form.locator("[data-form-trouble]")).to_contain_text("Tap why")
