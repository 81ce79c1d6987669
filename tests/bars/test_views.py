"""The pages of the bars."""

import pytest
from django.urls import reverse
from django.utils.html import escape

from soapbench.bars.demo import EBB_LINE
from soapbench.bars.models import Bar
from soapbench.bars.offers import offers_for
from soapbench.bars.revising import make_bar, revise
from tests.bars.plain import plain
from tests.bars.typed import typed

pytestmark = pytest.mark.django_db


@pytest.fixture
def maker(client, owner):
    client.force_login(owner)
    return client


@pytest.fixture
def bar(world):
    return world.bars["ebb-line"]


@pytest.fixture
def fields(workshop):
    offers = offers_for(workshop)
    return lambda formula=EBB_LINE, **changes: typed(formula, offers, **changes)


def address(name, *parts):
    return reverse(f"bars:{name}", args=parts)


def words(response):
    return response.content.decode()


def test_the_line_shows_each_bar(maker, world):
    page = words(maker.get(address("home")))

    assert all(escape(bar.name) in page for bar in world.bars.values())


def test_a_bar_no_longer_made_stands_apart(maker, bar):
    Bar.objects.filter(pk=bar.pk).update(is_retired=True)

    assert "No longer made" in words(maker.get(address("home")))


def test_a_workshop_without_bars_is_told_how_to_begin(client, stranger):
    client.force_login(stranger)

    assert "No bar is written down yet" in words(client.get(address("home")))


@pytest.mark.parametrize("name", ["bar", "edit"])
def test_another_workshops_bar_is_not_there(client, stranger, bar, name):
    client.force_login(stranger)

    assert client.get(address(name, bar.slug)).status_code == 404


def test_another_workshop_cannot_write_to_a_bar(client, stranger, bar, fields):
    client.force_login(stranger)

    assert client.post(address("edit", bar.slug), fields()).status_code == 404


@pytest.mark.parametrize("path", ["home", "new"])
def test_nobody_enters_unsigned(client, path):
    assert client.get(address(path)).status_code == 302


def test_a_bar_shows_what_is_in_it_and_offers_to_make_it(maker, bar):
    page = words(maker.get(address("bar", bar.slug)))

    assert all(text in page for text in ("Fathom", "Castor oil", "lifted loops", "Make this bar"))


def test_a_bar_that_may_not_be_made_says_why_and_offers_nothing(maker, workshop, owner):
    made = make_bar(workshop=workshop, name="Broken", formula=plain(superfat=0.05, mould="", portions=()), by=owner)

    page = words(maker.get(address("bar", made.slug)))
    assert "This bar cannot be made yet" in page
    assert "Make this bar" not in page


def test_revisions_are_told_in_words(maker, bar, owner):
    bar.revisions.update(is_pinned=True)
    revise(bar=bar, formula=EBB_LINE.__class__(**{**vars(EBB_LINE), "superfat": 0.08}), by=owner, why="Milder")

    page = words(maker.get(address("bar", bar.slug)))
    assert "Milder" in page
    assert "Superfat: 8 %, was 5 %." in page


def test_an_old_revision_can_be_read_but_not_made(maker, bar, owner):
    bar.revisions.update(is_pinned=True)
    revise(bar=bar, formula=plain(), by=owner, why="Other fats")

    page = words(maker.get(address("revision", bar.slug, 1)))
    assert "not the current one" in page
    assert "Make this bar" not in page


def test_a_revision_that_never_was_leads_to_the_current_one(maker, bar):
    assert maker.get(address("revision", bar.slug, 99)).headers["Location"] == address("bar", bar.slug)


def test_a_new_bar_is_written_down(maker, workshop, fields):
    answer = maker.post(address("new"), fields(name="Dusk"))

    assert answer.headers["Location"] == address("bar", "dusk")
    assert workshop.bars.get(slug="dusk").revisions.get().formula == EBB_LINE


def test_an_unused_formula_is_changed_in_place(maker, bar, fields):
    maker.post(address("edit", bar.slug), fields(name=bar.name, alkali__superfat="6,5"))

    assert bar.revisions.get().formula.superfat == pytest.approx(0.065)


def test_the_maker_chooses_how_the_share_of_an_alkali_is_counted(maker, bar, fields):
    typed = fields(name=bar.name, alkali__naoh_percent="60", alkali__shares_by="mass")

    maker.post(address("edit", bar.slug), typed)

    alkali = bar.revisions.get().formula.alkali
    assert (alkali.naoh_share, alkali.shares_by) == (0.6, "mass")
    assert "60 % by mass sodium hydroxide" in words(maker.get(address("bar", bar.slug)))


def test_a_used_formula_needs_a_reason_to_change(maker, bar, fields):
    bar.revisions.update(is_pinned=True)

    answer = maker.post(address("edit", bar.slug), fields(name=bar.name, alkali__superfat="8"))

    assert answer.status_code == 422
    assert bar.revisions.count() == 1


def test_a_used_formula_gives_the_next_revision(maker, bar, fields):
    bar.revisions.update(is_pinned=True)

    maker.post(address("edit", bar.slug), fields(name=bar.name, alkali__superfat="8", why__why="Milder"))

    assert [(one.number, one.why) for one in bar.revisions.all()] == [(2, "Milder"), (1, "")]


def test_a_bar_can_be_taken_out_of_the_line_without_touching_its_formula(maker, bar, fields):
    bar.revisions.update(is_pinned=True)

    maker.post(address("edit", bar.slug), fields(name=bar.name, is_retired="on", why__why="No longer asked for"))

    bar.refresh_from_db()
    assert bar.is_retired
    assert bar.revisions.count() == 1


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"fats__0__amount": ""}, "Write a number here."),
        ({"fats__0__amount": "-4"}, "Write more than 0 here."),
        ({"fats__0__amount": "99999999"}, "is too much"),
        ({"fats__0__amount": "12 oz"}, "“12 oz” is not a plain number"),
        ({"fats__0__material": "walrus"}, "This is not in your workshop."),
        ({"portions__0__colour": "red"}, "Choose a colour."),
        ({"portions__0__name": "x" * 200}, "Make this shorter"),
        ({"pour__0__portions": "A Z"}, "Write the letters of portions"),
        ({"fats__TOTAL_FORMS": "0"}, "Choose at least one fat"),
        ({"name": ""}, "Give the bar a name."),
        ({"drawing__passes": "-2"}, "greater than or equal to 0"),
        ({"cut__mould": "moon"}, "This is not in your workshop."),
        ({"alkali__shares_by": "spoon"}, "Choose one from the list."),
    ],
)
def test_bad_input_is_answered_in_words_and_nothing_typed_is_lost(maker, bar, fields, changes, sentence):
    answer = maker.post(address("edit", bar.slug), fields(**{"name": "Half typed", **changes}))

    assert answer.status_code == 422
    assert escape(sentence) in words(answer)
    assert 'value="24"' in words(answer)  # the coconut, in the row below
    assert bar.revisions.get().formula == EBB_LINE


def test_nothing_at_all_is_refused_and_does_not_raise(maker):
    assert maker.post(address("new"), {}).status_code == 422


def test_adding_a_row_saves_nothing_and_keeps_what_was_typed(maker, bar, fields):
    answer = maker.post(address("edit", bar.slug), fields(name=bar.name, fats__0__amount="12 oz", row="add-fats"))

    assert answer.status_code == 200
    assert "12 oz" in words(answer)
    assert 'name="fats-5-amount"' in words(answer)
    assert answer.headers["HX-Trigger-After-Settle"] == "rows-changed"


def test_the_numbers_follow_what_is_typed(maker, fields):
    page = words(maker.post(address("check"), fields(alkali__superfat="7"), headers={"HX-Request": "true"}))

    assert "Superfat 7.0 %" in page
    assert "<html" not in page
    assert 'id="told-water"' in page


def test_without_scripts_the_numbers_are_a_page_that_says_nothing_is_saved(maker, fields):
    assert "Nothing is saved yet" in words(maker.post(address("check"), fields()))


def test_the_numbers_say_what_stops_a_run(maker, fields):
    page = words(maker.post(address("check"), fields(fats__0__amount="30")))

    assert "The fats make 88 %, not 100 %" in page


@pytest.mark.parametrize("changes", [{"water__value": "x"}, {"fats__TOTAL_FORMS": "0"}, {"water__by": "guess"}])
def test_numbers_wait_for_what_can_be_read(maker, fields, changes):
    assert maker.post(address("check"), fields(**changes)).status_code == 422


def test_the_check_of_an_impossible_lye_is_a_sentence(maker, fields):
    answer = maker.post(address("check"), fields(water__value="80"))

    assert answer.status_code == 200
    assert "would not all dissolve" in words(answer)


@pytest.mark.parametrize(("name", "queries"), [("home", 4), ("new", 6), ("bar", 16), ("edit", 9)])
def test_the_number_of_queries_is_known(maker, bar, django_assert_num_queries, name, queries):
    parts = (bar.slug,) if name in ("bar", "edit") else ()
    maker.get(address(name, *parts))  # once, so that nothing is counted that is asked but once

    with django_assert_num_queries(queries):
        maker.get(address(name, *parts))


def test_more_bars_ask_no_more_of_the_line(maker, workshop, owner, django_assert_num_queries):
    for number in range(5):
        make_bar(workshop=workshop, name=f"Bar {number}", formula=plain(), by=owner)

    with django_assert_num_queries(4):
        maker.get(address("home"))
