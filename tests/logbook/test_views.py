"""The pages of one record, on screen and as PDF, and who may read them."""

from io import BytesIO

import pypdf
import pytest

from soapbench.bench.models import Event
from tests.rack.played import begin, play, write
from tests.unguarded import unguarded


@pytest.mark.parametrize("address", ["/logbook/{}/", "/logbook/{}.pdf"])
def test_a_record_of_another_workshop_is_not_there(client, stranger, made, address):
    client.force_login(stranger)

    assert client.get(address.format(made.pk)).status_code == 404


@pytest.mark.parametrize(
    "address",
    [
        "/logbook/00000000-0000-7000-8000-000000000000/",
        "/logbook/00000000-0000-7000-8000-000000000000.pdf",
        "/logbook/none/",
    ],
)
def test_a_record_that_never_was_is_not_there(as_owner, address):
    assert as_owner.get(address).status_code == 404


@pytest.mark.parametrize("address", ["/logbook/", "/logbook/{}/", "/logbook/{}.pdf"])
def test_nobody_reads_without_signing_in(client, made, address):
    assert client.get(address.format(made.pk)).status_code == 302


def test_the_page_shows_every_section_of_the_record(as_owner, made):
    answer = as_owner.get(f"/logbook/{made.pk}/")
    page = answer.content.decode()

    for section in answer.context["record"].sections:
        assert f'id="{section.key}"' in page
    assert page.count('<svg class="chart"') >= 1


def test_the_page_names_the_bar_the_batch_and_the_digest(as_owner, made):
    page = as_owner.get(f"/logbook/{made.pk}/").content.decode()

    assert "Ebb Line" in page and made.code in page and made.head_digest in page


def test_the_page_says_that_it_does_not_stand_in_for_safety_sheets(as_owner, made):
    assert "does not replace the safety data sheets" in as_owner.get(f"/logbook/{made.pk}/").content.decode()


def test_what_a_maker_wrote_is_shown_as_written_and_never_as_markup(as_owner, ebb_line, owner):
    run, hand = begin(ebb_line, owner)
    hand.start()
    hand.tap("noted", text="<b>bold</b> & <script>alert(1)</script>")
    write(run, hand, owner)

    page = as_owner.get(f"/logbook/{run.pk}/").content.decode()

    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page and "<script>alert" not in page
    assert as_owner.get(f"/logbook/{run.pk}.pdf").status_code == 200


def test_a_record_asks_as_often_for_a_long_run_as_for_a_short_one(
    as_owner, made, ebb_line, owner, django_assert_num_queries
):
    short = play(ebb_line, owner, "weigh:fat:olive")

    for run in (made, short):
        with django_assert_num_queries(8):  # session, person, workshop; run, events, people, chain, lots
            as_owner.get(f"/logbook/{run.pk}/")


@pytest.mark.parametrize("until", ["weigh:water", "combine", "pour:1", "cut", "cure", "test"])
def test_a_run_has_a_record_at_every_moment(as_owner, ebb_line, owner, until):
    run = play(ebb_line, owner, until)

    assert as_owner.get(f"/logbook/{run.pk}/").status_code == 200
    assert as_owner.get(f"/logbook/{run.pk}.pdf").content.startswith(b"%PDF")


def test_a_run_that_nobody_has_touched_yet_has_a_record(as_owner, ebb_line, owner):
    run, _hand = begin(ebb_line, owner)

    assert as_owner.get(f"/logbook/{run.pk}/").status_code == 200
    assert as_owner.get(f"/logbook/{run.pk}.pdf").content.startswith(b"%PDF")


def test_a_log_that_was_tampered_with_is_told(as_owner, made):
    tampered = Event.objects.filter(run=made, kind="weighed").order_by("position")[0]
    with unguarded():
        Event.objects.filter(pk=tampered.pk)._raw_delete("default")

    page = as_owner.get(f"/logbook/{made.pk}/").content.decode()

    assert f"Entry {tampered.position} of {made.code} does not fit" in page


def test_the_browser_shows_the_pdf_under_the_code_of_the_batch(as_owner, made):
    answer = as_owner.get(f"/logbook/{made.pk}.pdf")

    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == f'inline; filename="{made.code.lower()}.pdf"'


@pytest.mark.parametrize(("asked", "width"), [("letter", 612), ("a4", 595.28), ("papyrus", 595.28), ("", 595.28)])
def test_an_unknown_paper_is_a4(as_owner, ebb_line, owner, asked, width):
    run = play(ebb_line, owner, "weigh:water")

    answer = as_owner.get(f"/logbook/{run.pk}.pdf", {"paper": asked})

    page = pypdf.PdfReader(BytesIO(answer.content)).pages[0]
    assert float(page.mediabox.width) == pytest.approx(width, abs=0.1)
