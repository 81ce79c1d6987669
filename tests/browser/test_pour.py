"""Portions, pour, drawing and cut on the phone: with and without a network, and without a script."""

import gzip
import re

import pytest
from playwright.sync_api import expect

from tests.browser.hand import Hand


def prompt(phone, key):
    return phone.locator(f'[data-prompt="{key}"]')


def event(run, kind):
    return run.events.filter(kind=kind).order_by("position").last()


def saved(phone):
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")


def test_a_working_time_shows_whose_it_is(at):
    phone, _run = at("pour:1")
    rows = phone.locator("[data-timers] .timer")

    expect(rows).to_have_count(3)
    for row in rows.all():
        expect(row.locator("svg.swatch")).to_be_visible()
    expect(rows.first).to_contain_text("C · Kelp")


def test_an_overdue_portion_leads_on_to_its_pour_and_then_to_the_spoon(at):
    phone, run = at("pour:1")
    timer = min(
        (one for one in run.plan.prompts if one.timer and one.timer.portion), key=lambda one: one.timer.minutes
    ).timer
    ends = run.events.get(kind="done", prompt__startswith="add:scent:C").happened_at.timestamp() + timer.minutes * 60
    phone.clock.install(time=ends + 5)
    phone.reload()
    act = phone.locator(".timer.is-over .timer-act")
    expect(act).to_have_text("Pour it next")
    phone.clock.fast_forward(int(timer.minutes * 60 * 1000 * 0.3))
    expect(act).to_have_text("Spoon it in")

    phone.locator("#hold-on").evaluate("card => card.matches(':popover-open') && card.hidePopover()")
    act.tap()
    expect(prompt(phone, "pour:2")).to_be_visible()
    expect(prompt(phone, "pour:2").locator('[data-late-of="C"]')).to_have_text("Spoon it in")


def test_a_larger_split_is_reckoned_with_on_the_phone_alone(at):
    phone, run = at("split:B")
    hand = Hand(phone)
    hand.settle()
    phone.context.set_offline(True)
    hand.weigh(600)
    hand.wait_for("split:C")

    planned = next(one.planned_g for one in run.plan.portions if one.letter == "C")
    assert float(hand.figure()) < planned - 20
    hand.until("add:scent:B:shingle_scent")
    expect(hand.prompt.locator("[data-take-short]")).to_be_visible()
    assert int(hand.prompt.locator("[data-take-share]").inner_text()) < 90


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_pour_shows_the_mould_from_the_end_and_from_above(at, scheme):
    phone, _run = at("pour:2", color_scheme=scheme)
    shown = prompt(phone, "pour:2")

    expect(shown.locator("svg.picture")).to_have_count(2)
    expect(shown.locator("svg.picture").first).to_have_attribute(
        "aria-label", re.compile("A are in, .* B and C, side by side")
    )
    expect(shown.locator(".pour-facts")).to_contain_text("60 mm above")
    for picture in shown.locator("svg.picture").all():
        box = picture.bounding_box()
        assert box["x"] >= 0 and box["x"] + box["width"] <= 360


def test_one_stroke_at_a_time_records_nothing(at):
    phone, run = at("draw")
    count = run.events.count()
    turn = phone.get_by_role("button", name="next stroke")
    turn.tap()
    turn.tap()

    expect(phone.locator("[data-prompt=draw] [data-stroke-now]")).to_have_text("2")
    expect(phone.locator("[data-prompt=draw] .is-stroke.is-shown")).to_have_count(1)
    assert run.events.count() == count


def choose(phone, title, tool, why="Wanted to try it"):
    phone.get_by_role("button", name="Drawn differently").tap()
    drawing = phone.locator(".drawing", has_text=title).filter(has_text=tool).first
    drawing.locator("summary").tap()
    drawing.get_by_role("button", name=why).tap()
    expect(prompt(phone, "cover")).to_be_visible()


def test_another_drawing_is_chosen_by_its_picture_and_the_cut_follows(at):
    phone, run = at("draw")
    choose(phone, "Zigzag across", "Skewer")
    saved(phone)

    payload = event(run, "changed").payload
    assert (payload["path"], payload["tool"], payload["why"]) == ("zigzag", "skewer", "Wanted to try it")
    phone.goto(f"/bench/{run.pk}/?at=cut")
    expect(prompt(phone, "cut").locator("[data-title]")).to_have_text("Cut the loaf: blocks on their sides")
    expect(prompt(phone, "cut").locator("[name=way]:checked")).to_have_value("blocks on their sides")


def test_the_pictures_follow_without_a_reload(at):
    phone, _run = at("draw")
    choose(phone, "Zigzag across", "Skewer")
    saved(phone)

    expect(phone.locator('[data-server-drawn="cut"]')).to_contain_text("not as planned", timeout=5000)


def test_thick_batter_is_offered_fewer_drawings(at):
    phone, _run = at("draw")
    hand = Hand(phone)
    hand.settle()
    hand.change("Thickened early", why="Too warm", decision="Stir by hand only", portion="B")
    phone.get_by_role("button", name="Drawn differently").tap()

    expect(phone.locator("[data-trace-now]")).to_have_text("thick")
    expect(phone.locator(".drawing", has_text="spiral")).to_be_hidden()
    expect(phone.locator(".drawing", has_text="One long S").filter(has_text="Skewer")).to_be_visible()
    expect(phone.locator(".not-offered li", has_text="spiral")).to_be_visible()


def test_without_a_script_another_drawing_is_a_plain_form(at):
    phone, run = at("draw", java_script_enabled=False)
    choose(phone, "Zigzag across", "Skewer", "The tool was not at hand")

    assert event(run, "changed").payload["path"] == "zigzag"


def test_the_page_stays_light(at):
    phone, run = at("draw")
    answer = phone.request.get(f"/bench/{run.pk}/")

    assert len(gzip.compress(answer.body())) < 150_000
