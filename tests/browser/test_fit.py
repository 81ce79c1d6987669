"""The bench fits the glove and the eye: sizes measured in a real browser, and no accessibility fault found by axe."""

import pytest
from axe_playwright_python.sync_playwright import Axe

MM = 6.3  # CSS px on a phone
PROMPTS = [
    "materials",
    "weigh:fat:olive",
    "weigh:alkali:naoh",
    "alkali-into-water",
    "read-lye",
    "cool",
    "trace",
    "rest-test",
]
LATER = ["pour:1", "draw", "look", "rest", "firm", "cut", "cure", "test", "release"]


def boxes(phone, selector):
    """Return the boxes of what can be seen of these."""
    found = phone.locator(selector)
    return [(found.nth(n).inner_text(), found.nth(n).bounding_box()) for n in range(found.count())]


def faults(page):
    found = Axe().run(page).response["violations"]
    return [(fault["id"], node["target"]) for fault in found for node in fault["nodes"]]


@pytest.mark.parametrize("key", [*PROMPTS, *LATER])
def test_no_fault_at_a_prompt(at, key):
    phone, _run = at(key)

    assert faults(phone) == []


@pytest.mark.parametrize("key", ["weigh:fat:olive", "alkali-into-water", "cool", "pour:1"])
def test_no_fault_at_a_prompt_in_the_dark(at, key):
    phone, _run = at(key, color_scheme="dark")

    assert faults(phone) == []


@pytest.mark.parametrize("panel", ["different", "steps", "first-aid"])
def test_no_fault_in_a_panel(at, panel):
    phone, _run = at("weigh:fat:olive")
    phone.locator(f'[popovertarget="{panel}"]:visible').first.tap()
    phone.locator(f"#{panel}").wait_for()

    assert faults(phone) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("key", ["weigh:fat:olive", "read-lye", "pour:1"])
def test_no_fault_on_the_card_of_hold_on_or_in_what_opens_from_first_aid(at, key, scheme):
    phone, _run = at(key, color_scheme=scheme)
    phone.get_by_role("button", name="Hold on").tap()
    phone.locator("#hold-on").wait_for()
    found = faults(phone)
    for panel in ("spill", "stop-safe"):
        phone.locator("#hold-on").get_by_role("button", name="First aid").tap()
        phone.locator(f'#first-aid [popovertarget="{panel}"]').tap()
        phone.locator(f"#{panel}").wait_for()
        found += faults(phone)
        phone.locator(f"#{panel} .is-close").tap()
        phone.keyboard.press("Escape")

    assert found == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_fault_where_a_note_is_made(at, scheme):
    phone, _run = at("weigh:fat:olive", color_scheme=scheme)
    phone.locator('.dock [popovertarget="steps"]').tap()
    phone.locator('#steps [popovertarget="note"]').tap()
    phone.locator("#note").wait_for()

    assert faults(phone) == []


@pytest.mark.parametrize("kind", ["substituted", "amount off", "lost or spilt", "interrupted", "other"])
def test_no_fault_on_the_screen_of_a_kind_of_change(at, kind):
    phone, _run = at("weigh:fat:olive")
    phone.locator(".dock [data-different]").tap()
    phone.locator(f'.change-tiles [data-tile="{kind}"]').tap()

    assert faults(phone) == []


@pytest.mark.parametrize("kind", ["substituted", "amount off", "interrupted"])
def test_no_key_on_the_screen_of_a_change_is_smaller_than_a_gloved_finger(at, kind):
    phone, _run = at("weigh:fat:olive")
    phone.locator(".dock [data-different]").tap()
    phone.locator(f'.change-tiles [data-tile="{kind}"]').tap()
    keys = "#different form.change:visible :is(button, .chip-choice, summary, a):visible"
    small = [(words, box) for words, box in boxes(phone, keys) if box["height"] < 10 * MM or box["width"] < 10 * MM]

    assert small == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["/", "/bench/new/ebb-line/"])
def test_no_fault_before_the_run(open_phone, path, scheme):
    page = open_phone(color_scheme=scheme)
    page.goto(path)

    assert faults(page) == []


@pytest.mark.parametrize("key", PROMPTS)
def test_no_button_at_a_prompt_is_smaller_than_a_gloved_finger(at, key):
    phone, _run = at(key)
    small = [
        (words, box)
        for words, box in boxes(phone, "[data-prompt]:not([hidden]) button:visible, .dock button:visible")
        if box["height"] < 10 * MM or box["width"] < 10 * MM
    ]

    assert small == []


def test_the_keys_are_fifteen_millimetres_wide_and_three_apart(at):
    phone, _run = at("weigh:fat:olive")
    keys = [box for _words, box in boxes(phone, "[data-prompt]:not([hidden]) [data-key]:visible")]
    row = sorted((box for box in keys if box["y"] == keys[-1]["y"]), key=lambda box: box["x"])

    assert all(box["width"] >= 15 * MM - 1 for box in keys)
    assert all(right["x"] - left["x"] - left["width"] >= 3 * MM - 1 for left, right in zip(row, row[1:], strict=False))


def test_the_figure_is_read_from_a_metre_away(at):
    phone, _run = at("weigh:fat:olive")
    size = "element => parseFloat(getComputedStyle(element).fontSize)"

    assert phone.locator("[data-prompt]:not([hidden]) [data-whole]").evaluate(size) >= 72


def test_figure_and_keypad_fit_a_phone_without_scrolling(at):
    phone, _run = at("weigh:fat:olive")
    send = phone.locator("[data-prompt]:not([hidden]) [data-send]").bounding_box()
    figure = phone.locator("[data-prompt]:not([hidden]) .key-figure").bounding_box()

    assert figure["y"] >= 0 and send["y"] + send["height"] <= 740


@pytest.mark.parametrize("size", [(320, 568), (740, 360), (1280, 800)])
@pytest.mark.parametrize("key", ["weigh:fat:olive", "cool", "release"])
def test_nothing_runs_out_at_the_side(at, key, size):
    phone, _run = at(key, viewport={"width": size[0], "height": size[1]})

    assert phone.evaluate("document.documentElement.scrollWidth") <= size[0]


@pytest.mark.parametrize("path", ["/", "/bench/new/ebb-line/"])
def test_nothing_runs_out_at_the_side_before_the_run(open_phone, path):
    page = open_phone(viewport={"width": 320, "height": 568})
    page.goto(path)

    assert page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("width", [320, 360])
def test_with_letters_twice_as_large_no_prompt_runs_out_at_the_side(at, width):
    phone, _run = at("cool", viewport={"width": width, "height": 740})
    phone.context.new_cdp_session(phone).send("Page.setFontSizes", {"fontSizes": {"standard": 32}})
    wide = phone.evaluate(
        """(width) => [...document.querySelectorAll("[data-prompt]")].filter((section, at, all) => {
            all.forEach((each) => (each.hidden = each !== section));
            return document.documentElement.scrollWidth > width;
        }).map((section) => section.dataset.prompt)""",
        width,
    )

    assert wide == []
