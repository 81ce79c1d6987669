"""A phone at the bench: real Chromium at 360×740 with touch, the demo workshop behind it."""

import os
from dataclasses import replace

import pytest

from soapbench.bench.ids import new_id
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from tests.bench.conftest import Bench
from tests.bench.sample import Hand as Plan
from tests.browser.hand import Hand

# Playwright keeps an event loop in this thread, and Django would refuse the database beside it.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}
TAKES_TAPS_MS = 100


def played_to(world, key):
    """Return a run of the four-portion bar that was done as planned up to this prompt."""
    run = start_run(world.bars["ebb-line"].revisions.first(), SizeAsked("mould"), world.owner)
    plan = Plan(run.plan)
    plan.tap("started", cautions_read=True)
    while (now := plan.state.current) != key:
        plan.answer(run.plan.prompt(now), plan.state)
    Bench(run, world.owner).play([replace(fact, id=new_id()) for fact in plan.facts])
    run.refresh_from_db()
    return run


@pytest.fixture
def server(live_server, world, settings):
    """The app with the demo in it; whoever comes from this machine is the owner."""
    settings.TRUST_THIS_MACHINE = True
    return live_server


@pytest.fixture
def open_phone(browser, server):
    """Open one more phone; what differs from the usual one may be given."""
    contexts = []

    def opened(**differences):
        context = browser.new_context(base_url=server.url, **{**PHONE, **differences})
        context.set_default_timeout(10_000)
        contexts.append(context)
        return context.new_page()

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def phone(open_phone):
    return open_phone()


@pytest.fixture
def begin(phone):
    """Begin a batch of a bar as the maker does, and return the hand that goes on."""

    def begun(slug):
        phone.goto(f"/bench/new/{slug}/")
        phone.get_by_label("I have read this").check()
        phone.get_by_role("button", name="Begin this batch").tap()
        return Hand(phone)

    return begun


@pytest.fixture
def at(open_phone, world):
    """Open the page of a run that was played, as planned, up to a prompt; returns the page and the run."""

    def opened(key, **differences):
        run = played_to(world, key)
        page = open_phone(**differences)
        page.goto(f"/bench/{run.pk}/")
        if differences.get("java_script_enabled", True):
            page.wait_for_selector("[data-run][data-live=true]")
            page.wait_for_timeout(TAKES_TAPS_MS)
        return page, run

    return opened


@pytest.fixture
def hand_at(at):
    """Open a run at a prompt that takes taps; returns the hand and the run."""

    def opened(key, **differences):
        page, run = at(key, **differences)
        hand = Hand(page)
        hand.wait_for(key)
        return hand, run

    return opened
