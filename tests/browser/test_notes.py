"""Notes at a prompt: in words, by voice, as a photo; also without a network, and without leave to record."""

import re
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from soapbench.bench.events import facts_of, state_of
from soapbench.bench.models import Attachment
from tests.bench.pictures import with_place
from tests.browser.hand import Hand

KEY = "weigh:fat:olive"
LISTEN = {"permissions": ["microphone"]}
OGG = b"OggS\x00\x02" + bytes(20) + b"\x01\x13OpusHead" + bytes(200)
# The bytes of the file that waits in the database of the phone, as text.
WAITING = """() => new Promise((resolve) => {
    const request = indexedDB.open("soapbench");
    request.onsuccess = () => {
        const all = request.result.transaction("events").objectStore("events").getAll();
        all.onsuccess = () => resolve(new TextDecoder("latin1").decode(all.result[0].file.bytes));
    };
})"""


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    return tmp_path


@pytest.fixture
def noting(at):
    """The panel of notes at a weighing: page, run and hand."""

    def opened(**differences):
        page, run = at(KEY, **differences)
        hand = Hand(page)
        hand.wait_for(KEY)
        open_notes(page)
        return page, run, hand

    return opened


def open_notes(page):
    page.locator('.dock [popovertarget="steps"]').tap()
    page.locator("#steps").get_by_role("button", name="Note, photo or voice").tap()
    expect(page.locator("#note")).to_be_visible()


def take_photo(page, data=None):
    photo = with_place((2400, 1800)) if data is None else data
    choose(page.locator("[data-photo]"), "IMG_0001.jpg", "image/jpeg", photo)


def choose(field, name, media, data):
    field.set_input_files({"name": name, "mimeType": media, "buffer": data})


def kept(page, count=1):
    """Wait until so many photos and notes stand at the prompt, none of them waiting to be sent."""
    expect(page.locator("[data-prompt]:not([hidden]) [data-attached] li")).to_have_count(count)
    page.locator("[data-sign-words]", has_text="All saved").wait_for()


def test_a_photo_is_made_small_and_kept_without_its_place(noting):
    page, run, _hand = noting()
    take_photo(page)
    kept(page)
    row = Attachment.objects.get(run=run)
    with Image.open(row.file.path) as image:
        assert (row.width, row.height) == image.size == (1600, 1200)
        assert dict(image.getexif()) == {}


def test_the_place_of_a_photo_does_not_even_wait_on_the_phone(noting):
    page, _run, _hand = noting()
    page.context.set_offline(True)
    take_photo(page)
    expect(page.locator("[data-sign-words]")).to_have_text("1 waiting")

    assert b"Exif" in with_place() and "Exif" not in page.evaluate(WAITING)


def test_what_was_written_goes_with_the_photo_as_its_caption(noting):
    page, run, _hand = noting()
    page.locator("[data-note-text]").fill("the chipped jug")
    take_photo(page)
    kept(page)

    assert facts_of(run)[-1].payload["words"] == "the chipped jug"
    expect(page.locator("[data-prompt]:not([hidden]) [data-attached]")).to_contain_text("the chipped jug")
    expect(page.locator("[data-note-text]")).to_have_value("")


def test_a_photo_is_seen_large_over_the_page(noting):
    page, _run, hand = noting()
    take_photo(page)
    kept(page)
    page.locator("[data-prompt]:not([hidden]) .thumb").tap()

    expect(page.locator("#picture img")).to_be_visible()
    page.locator("#picture").get_by_role("button", name="Close").tap()
    assert hand.key == KEY


def test_a_photo_moves_no_step_and_is_counted_in_the_list_of_steps(noting):
    page, _run, hand = noting()
    take_photo(page)
    kept(page)
    page.locator('.dock [popovertarget="steps"]').tap()

    assert hand.key == KEY
    expect(page.locator(f'[data-step-files="{KEY}"]')).to_have_text("+1")


def test_a_file_that_is_no_photo_is_told_and_nothing_is_recorded(noting):
    page, run, _hand = noting()
    before = len(facts_of(run))
    take_photo(page, b"no photo at all")

    expect(page.locator("[data-note-trouble]")).to_have_text(re.compile("This photo cannot be read here"))
    assert len(facts_of(run)) == before


def test_a_photo_taken_without_a_network_outlives_the_page_and_is_sent_in_its_order(noting):
    page, run, hand = noting()
    context, before = page.context, len(facts_of(run))
    context.set_offline(True)
    take_photo(page)
    thumb = page.locator("[data-prompt]:not([hidden]) .thumb img")
    expect(thumb).to_have_attribute("src", re.compile("^blob:"))
    hand.weigh()
    expect(page.locator("[data-sign-words]")).to_have_text("2 waiting")
    page.close()

    context.set_offline(False)
    again = context.new_page()
    again.goto(f"/bench/{run.pk}/?at={KEY}")
    again.locator("[data-sign-words]", has_text="All saved").wait_for()
    kept(again)

    assert [fact.kind for fact in facts_of(run)[before:]] == ["attached", "weighed"]
    assert Path(Attachment.objects.get(run=run).file.path).is_file()


def test_a_voice_note_is_recorded_with_two_taps_while_its_time_runs(noting):
    page, run, _hand = noting(**LISTEN)
    page.locator("[data-voice]").tap()
    expect(page.locator("[data-recording-time]")).to_have_text("0:01")
    page.wait_for_function("document.querySelector('[data-level]').style.transform !== 'scaleX(0.00)'")
    page.locator("[data-voice-stop]").tap()
    kept(page)
    row = Attachment.objects.get(run=run)

    assert (row.what, row.media) == ("voice", "audio/webm")
    assert 0 < row.size < 100_000


def test_a_voice_note_can_be_played_at_its_prompt(noting):
    page, _run, _hand = noting(**LISTEN)
    page.locator("[data-voice]").tap()
    expect(page.locator("[data-recording-time]")).to_have_text("0:01")
    page.locator("[data-voice-stop]").tap()
    kept(page)
    audio = page.locator("[data-prompt]:not([hidden]) audio")

    assert audio.evaluate("audio => audio.play().then(() => !audio.paused)")


def test_a_voice_note_that_was_thrown_away_leaves_nothing(noting):
    page, run, _hand = noting(**LISTEN)
    before = len(facts_of(run))
    page.locator("[data-voice]").tap()
    expect(page.locator("[data-recording]")).to_be_visible()
    page.locator("[data-voice-drop]").tap()

    expect(page.locator("[data-recording]")).to_be_hidden()
    assert len(facts_of(run)) == before


def test_closing_the_panel_keeps_what_was_said(noting):
    page, run, _hand = noting(**LISTEN)
    page.locator("[data-voice]").tap()
    expect(page.locator("[data-recording-time]")).to_have_text("0:01")
    page.locator("#note").get_by_role("button", name="Close").tap()
    kept(page)

    assert state_of(run).attachments[-1].payload["what"] == "voice"


def test_after_a_minute_the_recording_stops_by_itself_and_is_kept(noting):
    page, run, _hand = noting(**LISTEN)
    page.evaluate(
        "() => { const now = performance.now.bind(performance); const began = now();"
        " performance.now = () => began + (now() - began) * 60; }"
    )
    page.locator("[data-voice]").tap()
    kept(page)

    assert state_of(run).attachments[-1].payload["what"] == "voice"


def test_a_microphone_that_is_not_allowed_is_told_and_the_keyboard_stays(noting):
    page, run, _hand = noting()
    page.locator("[data-voice]").tap()

    expect(page.locator("[data-note-trouble]")).to_have_text(re.compile("The microphone is not allowed for this page"))
    page.locator("[data-note-text]").fill("then in words")
    with page.expect_response("**/events/"):
        page.get_by_role("button", name="Keep the remark").tap()
    expect(page.locator("#note")).to_be_hidden()
    assert facts_of(run)[-1].payload["text"] == "then in words"


def test_without_a_microphone_a_recording_can_be_chosen(at):
    page, run = at(KEY)
    page.add_init_script("Object.defineProperty(navigator, 'mediaDevices', { value: undefined })")
    page.reload()
    Hand(page).wait_for(KEY)
    open_notes(page)
    page.locator("[data-voice]").tap()
    expect(page.locator("[data-note-trouble]")).to_contain_text("Without HTTPS this device lends no microphone")
    choose(page.locator("[data-voice-file] [type=file]"), "a.ogg", "audio/ogg", OGG)
    kept(page)

    assert Attachment.objects.get(run=run).media == "audio/ogg"


def test_a_file_that_the_server_refuses_is_explained_and_can_be_saved(noting):
    page, run, _hand = noting()
    page.context.set_offline(True)
    choose(page.locator("[data-voice-file] [type=file]"), "a.webm", "audio/webm", b"no recording")
    expect(page.locator("[data-sign-words]")).to_have_text("1 waiting")
    page.context.set_offline(False)
    sign = page.locator("[data-sign-words]")
    expect(sign).to_have_text("Needs you")
    sign.tap()
    panel = page.locator("#needs")

    expect(panel).to_contain_text("This is no recording that can be played here.")
    expect(panel.get_by_role("link", name="Save the file on this device")).to_have_attribute("download", "voice.webm")
    panel.get_by_role("button", name="Keep it as a remark").tap()
    page.locator("[data-sign-words]", has_text="All saved").wait_for()
    assert "no recording that can be played" in facts_of(run)[-1].payload["text"]


def test_without_a_script_a_photo_is_kept_by_a_plain_form(at):
    page, run = at(KEY, java_script_enabled=False)
    page.goto(f"/bench/{run.pk}/?at={KEY}")
    page.locator('.dock [popovertarget="steps"]').tap()
    page.locator("#steps").get_by_role("button", name="Note, photo or voice").tap()
    form = page.locator("#note form", has_text="Keep the photo")
    form.locator("[type=file]").set_input_files({"name": "x.jpg", "mimeType": "image/jpeg", "buffer": with_place()})
    form.locator("[name=words]").fill("by hand")
    form.get_by_role("button", name="Keep the photo").tap()
    page.wait_for_url(f"**/bench/{run.pk}/")

    fact = state_of(run).attachments[-1]
    assert (fact.prompt, fact.payload["words"]) == (KEY, "by hand")
