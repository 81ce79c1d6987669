"""What the bench says of an address that is not secure: once, where it is asked whether everything is saved."""

import pytest
from playwright.sync_api import expect

PLAIN = "Object.defineProperty(window, 'isSecureContext', { value: false })"


@pytest.mark.parametrize("is_plain", [True, False])
def test_what_a_plain_address_cannot_do_is_said_in_the_panel_there_alone(at, is_plain):
    page, _run = at("rest")
    if is_plain:
        page.add_init_script(PLAIN)
        page.reload()
        page.wait_for_selector("[data-run][data-live=true]")
    note = page.locator("[data-plain-address]")
    expect(note).to_be_hidden()

    page.locator("[data-sign]").tap()

    expect(page.locator("#needs")).to_be_visible()
    expect(note).to_be_visible(visible=is_plain)


def test_the_way_to_a_secure_address_is_one_tap_from_there(at):
    page, _run = at("rest")
    page.add_init_script(PLAIN)
    page.reload()
    page.wait_for_selector("[data-run][data-live=true]")
    page.locator("[data-sign]").tap()

    page.get_by_role("link", name="How to get one").tap()

    expect(page.get_by_text("python3 manage.py serve --secure")).to_be_visible()
