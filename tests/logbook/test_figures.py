"""Photos and voice notes in the record: on the screen and on paper, with caption, person and time."""

from dataclasses import replace
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from pypdf import PdfReader

from soapbench.bench.ids import new_id
from soapbench.logbook.given import Kept
from soapbench.logbook.paper import as_pdf
from soapbench.logbook.record import make_record
from soapbench.logbook.views import record_of
from tests.bench.pictures import OGG, with_place
from tests.bench.sample import PLAIN
from tests.bench.sample import hand as played
from tests.logbook.reading import given, lines, section

PHOTO = {"what": "photo", "sha256": "ab" * 32, "media": "image/jpeg", "size": 900}


def test_a_photo_is_told_with_its_caption_its_person_and_its_digest():
    hand = played(PLAIN).start()
    hand.tap("attached", "tools", **PHOTO, words="the chipped jug")
    (line,) = lines(make_record(given(hand)), "figures")

    assert line.startswith("the chipped jug (Ada, 25 Nov, ")
    assert line.endswith("SHA-256 abababababababab…)")


def test_without_a_caption_the_prompt_says_what_it_is_about():
    hand = played(PLAIN).start()
    hand.tap("attached", "tools", **PHOTO)

    assert lines(make_record(given(hand)), "figures")[0].startswith("Photo: Set out the tools (")


def test_a_photo_that_was_taken_back_is_no_figure():
    hand = played(PLAIN).start()
    hand.tap("took-back", event=hand.tap("attached", "tools", **PHOTO))

    assert section(make_record(given(hand)), "figures") is None


def test_a_figure_knows_where_its_file_is():
    hand = played(PLAIN).start()
    event = hand.tap("attached", "tools", **PHOTO)
    record = make_record(replace(given(hand), files={event: Kept("/a/", "/b.jpg")}))
    (figure,) = section(record, "figures").blocks

    assert (figure.address, figure.path) == ("/a/", "/b.jpg")


def test_who_decided_stands_before_who_wrote_it_down():
    hand = played(PLAIN).start()
    hand.change("other", "tools", by="Bo")
    (line,) = lines(make_record(given(hand)), "changes")

    assert "| Bo (written by Ada, 25 Nov, " in line


@pytest.fixture
def pictured(made, client, owner, settings, tmp_path):
    """The run of a batch to which a photo and a voice note were added."""
    settings.MEDIA_ROOT = tmp_path
    client.force_login(owner)
    for what, data in (("photo", with_place()), ("voice", OGG)):
        fields = {"id": str(new_id()), "prompt": "tools", "what": what, "words": f"my {what}"}
        answer = client.post(f"/bench/{made.pk}/attachments/", {**fields, "file": SimpleUploadedFile("x", data)})
        assert answer.status_code == 302
    made.refresh_from_db()
    return made


def test_the_page_shows_the_photo_and_plays_the_note(client, pictured):
    page = client.get(f"/logbook/{pictured.pk}/").content.decode()
    photo, voice = (f"/bench/{pictured.pk}/attachments/{row.pk}/" for row in pictured.attachments.order_by("what"))

    assert f'<img src="{photo}" alt="my photo"' in page
    assert f'<audio src="{voice}" controls' in page


def test_paper_carries_the_photo_and_names_the_note(pictured):
    pdf = PdfReader(BytesIO(as_pdf(record_of(pictured), "a4")))
    photos = [image for page in pdf.pages for image in page.images if image.image.size == (400, 300)]

    assert len(photos) == 1
    assert "my voice" in " ".join(page.extract_text() for page in pdf.pages)


def test_a_file_that_is_gone_is_told_and_breaks_no_record(client, pictured, settings):
    for file in settings.MEDIA_ROOT.rglob("*.jpg"):
        file.unlink()
    page = client.get(f"/logbook/{pictured.pk}/").content.decode()

    assert "The file is not there any more." in page
    assert as_pdf(record_of(pictured), "a4").startswith(b"%PDF")
