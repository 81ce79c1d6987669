"""The record as PDF, read back: what stands on the pages, and how the file is made."""

import time
from io import BytesIO

import pdfplumber
import pypdf
import pytest

POINTS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}


@pytest.fixture
def fetch(as_owner, made):
    return lambda paper="a4": as_owner.get(f"/logbook/{made.pk}.pdf", {"paper": paper})


@pytest.fixture
def reader(fetch):
    return pypdf.PdfReader(BytesIO(fetch().content))


def words_of(content):
    with pdfplumber.open(BytesIO(content)) as document:
        return [page.extract_text() for page in document.pages]


def test_the_pdf_has_every_section_in_the_order_of_the_record(as_owner, made, fetch):
    record = as_owner.get(f"/logbook/{made.pk}/").context["record"]
    text = "\n".join(words_of(fetch().content))

    places = [text.index(f"\n{section.title}\n") for section in record.sections]

    assert places == sorted(places)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_is_of_the_paper_that_was_asked_for(fetch, paper):
    pages = pypdf.PdfReader(BytesIO(fetch(paper).content)).pages

    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(POINTS[paper], abs=0.1)


def test_an_unknown_paper_is_a4(fetch):
    page = pypdf.PdfReader(BytesIO(fetch("papyrus").content)).pages[0]

    assert float(page.mediabox.width) == pytest.approx(595.28, abs=0.1)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_word_runs_over_the_edge_or_into_the_foot(fetch, paper):
    with pdfplumber.open(BytesIO(fetch(paper).content)) as document:
        for page in document.pages:
            words = page.extract_words()
            assert min(word["x0"] for word in words) >= 44
            assert max(word["x1"] for word in words) <= float(page.width) - 44
            feet = [word for word in words if word["bottom"] > float(page.height) - 19 * 72 / 25.4 + 1]
            assert {word["text"] for word in feet} >= {"Page", "of"}
            assert len({round(word["bottom"]) for word in feet}) == 1


def test_pages_are_numbered_n_of_m(fetch):
    pages = words_of(fetch().content)

    for number, text in enumerate(pages, start=1):
        assert text.endswith(f"Page {number} of {len(pages)}")


def test_every_page_says_which_batch_it_is_of_and_that_it_is_invented(fetch, made):
    for text in words_of(fetch().content):
        assert f"{made.code} · Ebb Line · Kettlemoth Yard · invented for the demo" in text


def test_title_author_subject_and_language_are_set(reader, made):
    assert reader.metadata.title == f"Batch record {made.code}, Ebb Line"
    assert reader.metadata.author == "Ada Quillfeather"
    assert reader.metadata.subject == "Batch record of Kettlemoth Yard"
    assert reader.trailer["/Root"]["/Lang"] == "en"


def test_every_section_has_a_bookmark(reader, as_owner, made):
    record = as_owner.get(f"/logbook/{made.pk}/").context["record"]

    titles = [entry.title for entry in reader.outline]

    assert titles == [*(section.title for section in record.sections), "Signatures"]


def test_every_font_is_embedded(reader):
    fonts = {}
    for page in reader.pages:
        fonts.update(page["/Resources"]["/Font"])

    assert fonts
    for font in fonts.values():
        assert "/FontFile2" in font.get_object()["/FontDescriptor"]


def test_greek_cyrillic_and_accents_are_readable(fetch):
    assert "Ёлка, ελιά, naïve: the room smelt of olives." in "\n".join(words_of(fetch().content))


def test_there_are_lines_to_sign_with_their_meaning(fetch):
    last = words_of(fetch().content)[-1]

    for meaning in ("Made as written here", "Checked by a second person", "Read in full before the decision"):
        assert meaning in last


def test_the_cautions_stand_on_the_first_page(fetch):
    first = " ".join(words_of(fetch().content)[0].split())

    assert "does not replace the safety data sheets of your materials" in first


def test_curves_are_drawn_as_lines_not_as_pictures(reader):
    images = [image for page in reader.pages for image in page.images]

    assert images == []


def test_the_browser_shows_it_under_the_code_of_the_batch(fetch, made):
    answer = fetch()

    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == f'inline; filename="{made.code.lower()}.pdf"'


def test_a_run_of_over_a_hundred_events_becomes_a_pdf_in_half_a_second(fetch, made):
    fetch()  # the fonts are read once in the life of the process
    began = time.perf_counter()

    fetch()

    assert made.event_count > 100
    assert time.perf_counter() - began < 0.5
