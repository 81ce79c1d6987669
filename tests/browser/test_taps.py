"""No tap is lost and none counts twice: without a network, with answers lost on the way, with a nervous finger."""

import re

from playwright.sync_api import expect

from soapbench.bench.models import Event


def kinds_of(run):
    return list(run.events.order_by("position").values_list("kind", flat=True))


def tick(phone, number):
    phone.locator("[data-prompt]:not([hidden]) [data-tick]").nth(number).tap()


def test_taps_made_offline_arrive_once_and_in_order(at):
    phone, run = at("materials")
    phone.context.set_offline(True)
    for number in range(3):
        tick(phone, number)
        expect(phone.locator("[data-sign-words]")).to_have_text(f"{number + 1} waiting")
    assert kinds_of(run) == ["started"]

    phone.context.set_offline(False)
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")

    items = [event.payload["item"] for event in run.events.filter(kind="ticked").order_by("position")]
    assert items == [tick.key for tick in run.plan.prompts[0].ticks[:3]]


def test_a_tap_made_offline_moves_the_screen_at_once(at):
    phone, run = at("melt")
    phone.context.set_offline(True)
    phone.locator("[data-prompt=melt] button.is-main").tap()

    expect(phone.locator("[data-prompt=melt]")).to_be_hidden()
    assert kinds_of(run)[-1] != "done" or run.events.last().prompt != "melt"


def test_a_waiting_tap_outlives_a_closed_page(at):
    phone, run = at("materials")
    phone.context.route("**/events/", lambda route: route.abort())
    tick(phone, 0)
    expect(phone.locator("[data-sign-words]")).to_have_text("1 waiting")
    phone.close()
    assert kinds_of(run) == ["started"]

    context = phone.context
    context.unroute("**/events/")
    again = context.new_page()
    again.goto(f"/bench/{run.pk}/")
    expect(again.locator("[data-sign-words]")).to_have_text("All saved")
    assert kinds_of(run) == ["started", "ticked"]


def test_an_answer_lost_on_the_way_back_counts_once(at):
    phone, run = at("materials")
    lost = []

    def lose_the_first_answer(route):
        answer = route.fetch()
        if lost:
            route.fulfill(response=answer)
        else:
            lost.append(route.request.post_data_json["id"])
            route.abort()

    phone.context.route("**/events/", lose_the_first_answer)
    tick(phone, 0)
    expect(phone.locator("[data-sign-words]")).to_have_text("1 waiting")
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")

    assert [str(event.pk) for event in run.events.filter(kind="ticked")] == lost


def test_a_double_tap_counts_once(at):
    phone, run = at("melt")
    box = phone.locator("[data-prompt=melt] button.is-main").bounding_box()
    for _ in range(2):
        phone.touchscreen.tap(box["x"] + 40, box["y"] + 40)
    expect(phone.locator("[data-prompt=melt]")).to_be_hidden()
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")

    assert run.events.filter(kind="done", prompt="melt").count() == 1
    assert run.events.last().prompt == "melt"


def test_a_double_tap_on_an_item_leaves_it_ticked(at):
    phone, run = at("materials")
    phone.locator("[data-tick]").first.dblclick()
    expect(phone.locator("[data-tick]").first).to_have_attribute("aria-pressed", "true")
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")

    assert run.events.filter(kind="ticked").count() == 1


def test_what_the_server_refuses_is_kept_and_can_be_answered(at):
    phone, run = at("materials")
    refusal = {"status": 422, "json": {"sentence": "The scale carries 5000 g.", "field": "mass_g"}}
    phone.context.route("**/events/", lambda route: route.fulfill(**refusal), times=1)
    tick(phone, 0)

    expect(phone.locator("[data-sign-words]")).to_have_text("Needs you")
    phone.locator("[data-sign]").tap()
    expect(phone.locator("#needs")).to_contain_text("The scale carries 5000 g.")
    phone.get_by_role("button", name="Keep it as a remark").tap()
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")

    text = Event.objects.get(run=run, kind="noted").payload["text"]
    assert "The scale carries 5000 g." in text and run.plan.prompts[0].ticks[0].key in text


def test_take_back_withdraws_the_last_tap_and_says_which(at):
    phone, run = at("materials")
    tick(phone, 0)
    first = run.plan.prompts[0].ticks[0].text
    expect(phone.locator("[data-last-words]")).to_contain_text(re.compile(re.escape(first.split()[0]), re.IGNORECASE))
    phone.locator("[data-take-back]").tap()

    expect(phone.locator("[data-tick]").first).to_have_attribute("aria-pressed", "false")
    expect(phone.locator("[data-sign-words]")).to_have_text("All saved")
    assert kinds_of(run) == ["started", "ticked", "took-back"]
