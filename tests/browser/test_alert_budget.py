"""How often the bench interrupts, over a whole batch with a maker who is called away again and again."""

from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest

from tests.browser.hand import Hand

WATCH = Path(__file__).with_name("interruptions.js").read_text()
BUDGET_MS = 10 * 60_000
# How long each kind of prompt keeps the maker, min; what is not named takes one.
TAKES = {"tick": 0.3, "weigh": 1.5, "act": 4, "hold": 2, "read": 5, "cool": 25, "trace": 6, "pour": 1.5, "draw": 3}
LAST = "rest"


def hidden(page, is_hidden):
    page.evaluate(
        "state => {Object.defineProperty(document, 'hidden', {configurable: true, get: () => state});"
        " document.dispatchEvent(new Event('visibilitychange'))}",
        is_hidden,
    )


def pass_time(page, minutes):
    page.clock.fast_forward(timedelta(minutes=minutes) / timedelta(milliseconds=1))


def be_called_away(page, minutes):
    hidden(page, True)
    pass_time(page, minutes)
    hidden(page, False)


def go_on(page):
    """Answer the card of hold on if it stands there."""
    card = page.locator("#hold-on")
    page.wait_for_timeout(100)
    if card.is_visible():
        card.get_by_role("button", name="Go on", exact=True).tap()
        card.wait_for(state="hidden")


@pytest.fixture
def watched(open_phone, world):
    """A phone whose clock can be moved, whose server tells no other time, and on which interruptions are counted."""
    page = open_phone()
    page.clock.install(time=datetime.now().astimezone() - timedelta(hours=20))
    page.add_init_script(WATCH)

    def without_the_time(route):
        answer = route.fetch()
        headers = {name: value for name, value in answer.headers.items() if name != "x-soapbench-now"}
        route.fulfill(response=answer, headers=headers)

    page.context.route("**/events/", without_the_time)
    return page


def begin(page):
    page.goto("/bench/new/ebb-line/")
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    return Hand(page)


def leave_half_typed(hand):
    """Type a digit, be called away from the bench with the phone lying open, and clear it on return."""
    hand.type("1")
    pass_time(hand.page, 1)
    go_on(hand.page)
    hand.prompt.locator('[data-key="delete"]').tap()


def test_the_bench_interrupts_at_most_once_in_ten_minutes_and_never_says_the_same_twice(watched):
    hand = begin(watched)
    hand.settle()
    began, number = watched.evaluate("Date.now()"), 0
    while hand.key != LAST:
        number += 1
        pass_time(watched, TAKES.get(hand.kind, 1))
        if number % 3 == 0:
            be_called_away(watched, 0.75)
        if number % 7 == 0:
            be_called_away(watched, 6)
        go_on(watched)
        if hand.kind == "weigh" and number % 4 == 0:
            leave_half_typed(hand)
        hand.do_as_planned()
    came = watched.evaluate("interruptions")
    minutes = (watched.evaluate("Date.now()") - began) / 60_000

    assert minutes > 120 and number > 40  # a real batch: long, with many prompts
    assert came, "nobody was ever told where they were"
    gaps = [later["at"] - earlier["at"] for earlier, later in pairwise(came)]
    assert min(gaps, default=BUDGET_MS) >= BUDGET_MS, came
    assert len({each["words"] for each in came}) == len(came), came


def test_the_counter_counts_what_opens_by_itself_and_not_what_a_tap_opens(watched):
    hand = begin(watched)
    hand.settle()
    watched.get_by_role("button", name="Hold on").tap()
    watched.locator("#hold-on").wait_for()
    assert watched.evaluate("interruptions") == []

    pass_time(watched, 1)
    watched.evaluate("document.querySelector('#first-aid').showPopover()")
    watched.evaluate(
        "() => {const one = document.createElement('p'); one.role = 'alert'; one.textContent = 'Look!';"
        " document.querySelector('#first-aid').append(one)}"
    )
    watched.wait_for_timeout(200)

    assert [each["words"][:9] for each in watched.evaluate("interruptions")] == ["First aid", "Look!"]
