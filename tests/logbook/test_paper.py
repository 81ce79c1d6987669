"""The record as PDF, read back: what stands on the pages, and how the file is made."""

from dataclasses import replace
from functools import cache
from io import BytesIO

import pdfplumber
import pypdf
import pytest

from soapbench.logbook.blocks import Section, Words
from soapbench.logbook.paper import as_pdf
from tests.logbook.batch import NOTE, played_record

POINTS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}


@cache
def record():
    return played_record()


@cache
def content(paper="a4"):
    return as_pdf(record(), paper)


@pytest.fixture
def reader():
    return pypdf.PdfReader(BytesIO(content()))


@cache
def words(paper="a4"):
    """Return the text of each page."""
    with pdfplumber.open(BytesIO(content(paper))) as document:
        return [page.extract_text() for page in document.pages]


def test_the_pdf_has_every_section_in_the_order_of_the_record():
    text = "\n".join(words())

    places = [text.index(f"\n{section.title}\n") for section in record().sections]

    assert places == sorted(places)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_is_of_the_paper_that_was_asked_for(paper):
    pages = pypdf.PdfReader(BytesIO(content(paper))).pages

    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(POINTS[paper], abs=0.1)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_word_runs_over_the_edge_or_into_the_foot(paper):
    with pdfplumber.open(BytesIO(content(paper))) as document:
        for page in document.pages:
            found = page.extract_words()
            assert min(word["x0"] for word in found) >= 44
            assert max(word["x1"] for word in found) <= float(page.width) - 44
            feet = [word for word in found if word["bottom"] > float(page.height) - 19 * 72 / 25.4 + 1]
            assert {word["text"] for word in feet} >= {"Page", "of"}
            assert len({round(word["bottom"]) for word in feet}) == 1


def test_pages_are_numbered_n_of_m():
    for number, text in enumerate(words(), start=1):
        assert text.endswith(f"Page {number} of {len(words())}")


def test_every_page_says_which_batch_it_is_of_and_that_it_is_invented():
    for text in words():
        assert "20261125-IB-1 · Invented Bar · Invented Works · invented for the demo" in text


def test_title_author_subject_and_language_are_set(reader):
    assert reader.metadata.title == "Batch record 20261125-IB-1, Invented Bar"
    assert reader.metadata.author == "Ada"
    assert reader.metadata.subject == "Batch record of Invented Works"
    assert reader.trailer["/Root"]["/Lang"] == "en"


def test_every_section_has_a_bookmark(reader):
    titles = [entry.title for entry in reader.outline]

    assert titles == [*(section.title for section in record().sections), "Signatures"]


def test_every_font_is_embedded(reader):
    fonts = {}
    for page in reader.pages:
        fonts.update(page["/Resources"]["/Font"])

    assert fonts
    for font in fonts.values():
        assert "/FontFile2" in font.get_object()["/FontDescriptor"]


def test_greek_cyrillic_and_accents_are_readable():
    assert NOTE in "\n".join(words())


def test_there_are_lines_to_sign_with_their_meaning():
    last = words()[-1]

    for meaning in ("Made as written here", "Checked by a second person", "Read in full before the decision"):
        assert meaning in last


def test_the_cautions_stand_on_the_first_page():
    first = " ".join(words()[0].split())

    assert "does not replace the safety data sheets of your materials" in first


def test_curves_are_drawn_as_lines_not_as_pictures(reader):
    images = [image for page in reader.pages for image in page.images]

    assert images == []


@pytest.mark.parametrize("lines", range(0, 36, 4))
def test_no_heading_stands_alone_at_the_foot_of_a_page(lines):
    first = Section("more", "More", tuple(Words("A line that moves all that follows.") for _ in range(lines)))
    moved = replace(record(), sections=(first, *record().sections))
    titles = {section.title for section in moved.sections}

    with pdfplumber.open(BytesIO(as_pdf(moved, "letter"))) as pdf:
        lowest = [page.extract_text().splitlines()[-2] for page in pdf.pages]  # above the foot

    assert not titles.intersection(lowest)


def test_the_seal_is_a_square_of_vectors_for_a_camera():
    with pdfplumber.open(BytesIO(content())) as document:
        page = next(
            each for each in document.pages if "to hold against the record on the screen" in each.extract_text()
        )
        modules = [rect for rect in page.rects if rect["width"] < 3 and abs(rect["width"] - rect["height"]) < 0.1]

    assert len(modules) > 200
    across = max(rect["x1"] for rect in modules) - min(rect["x0"] for rect in modules)
    down = max(rect["bottom"] for rect in modules) - min(rect["top"] for rect in modules)
    assert across == pytest.approx(down, abs=1)
