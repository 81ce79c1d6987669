"""A phone at the bench: real Chromium at 360×740 with touch, the demo workshop behind it."""

import os

import pytest

from tests.browser.hand import Hand

# Playwright keeps an event loop in this thread, and Django would refuse the database beside it.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


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
