"""The main job, end to end: a chosen bar becomes a bench run, and the run becomes a record on paper."""

import io

import pdfplumber

from soapbench.bench.models import Run
from tests.browser.hand import Hand


def text_of(page, run):
    """Return the words of the printed record, cell after cell as they were written."""
    answer = page.request.get(f"/logbook/{run.pk}.pdf")
    assert answer.ok
    with pdfplumber.open(io.BytesIO(answer.body())) as pdf:
        return " ".join(word["text"] for sheet in pdf.pages for word in sheet.extract_words(use_text_flow=True))


def choose_the_bar(page):
    """Go from Bars to the first prompt."""
    page.goto("/bars/")
    page.get_by_role("link", name="Ebb Line").tap()
    page.get_by_role("link", name="Make this bar").tap()
    page.get_by_label("I have read this").check()
    page.get_by_role("button", name="Begin this batch").tap()
    return Hand(page)


def released(hand):
    """Go on to the end and open the record; returns the run and what the paper says."""
    hand.until("release")
    hand.hold()
    hand.page.get_by_role("link", name="Open the record").tap()
    hand.page.wait_for_url("**/logbook/**")
    run = Run.objects.get()
    return run, text_of(hand.page, run)


def test_a_four_portion_bar_goes_from_bars_to_a_printed_record(phone):
    hand = choose_the_bar(phone)

    hand.until("weigh:fat:coconut")
    planned = hand.figure()
    poured = f"{float(planned) + 30:.1f}"
    hand.weigh(poured)
    hand.wait_for("weigh:fat:castor")

    hand.until("settle")
    assert "Coconut oil" in hand.prompt.inner_text()
    hand.prompt.get_by_role("button", name="Recomputed").tap()

    hand.until("weigh:colourant:B:fathom_mica")
    hand.change(
        "Something else instead",
        why="Out of stock",
        decision="Use it in the same amount",
        line="colourant:B:fathom_mica",
        material="charcoal",
    )

    hand.until("draw")
    hand.change(
        "Drawn differently",
        why="The tool was not at hand",
        decision="Keep it and cut to suit",
        path="figure eights",
        tool="skewer",
    )
    run, words = released(hand)
    assert run.status == Run.Status.RELEASED
    assert f"Coconut oil CO-2609 {float(planned):g} g {float(poured):g} g" in words
    assert "Charcoal" in words and "Out of stock" in words and "Use it in the same amount" in words
    assert "figure eights" in words and "The tool was not at hand" in words and "Keep it and cut to suit" in words
    assert "Ada Quillfeather" in words
