"""The pages of the bars."""

import pytest
from django.urls import reverse
from django.utils.html import escape

from soapbench.bars.demo import EBB_LINE
from soapbench.bars.formula import Additive, FatLine, Portion, PourStage
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


def test_a_bar_names_its_superfat_both_ways_its_doubts_and_that_of_each_portion(maker, bar):
    page = words(maker.get(address("bar", bar.slug)))

    assert "5 % superfat by alkali discount is 5.26 % by excess fat" in page
    assert "What makes the superfat doubtful" in page
    assert "Superfat of each portion" in page
    assert "One step of the scale on the alkali is worth" in page


def test_a_bar_holds_its_calculated_values_against_the_published_ones(maker, bar):
    page = words(maker.get(address("bar", bar.slug)))

    assert "saponification value (AOCS Cd 3a-94) agrees" in page
    assert "iodine value (AOCS Cd 1c-85) agrees" in page


def test_a_bar_says_how_a_fat_of_a_wide_range_is_counted(maker, workshop, owner):
    wide = plain(fats=(FatLine("olive", 80), FatLine("neem", 20)), mould="")
    made = make_bar(workshop=workshop, name="Neem", formula=wide, by=owner)

    assert "Neem (margosa) oil varies a lot (175 to 205 mg KOH/g)" in words(maker.get(address("bar", made.slug)))


def test_a_bar_says_how_much_of_its_jar_works(maker, bar):
    page = words(maker.get(address("bar", bar.slug)))

    assert "lot NA-118: 98.6 % works, and counts" in page


def test_a_bar_with_a_portion_that_would_be_lye_heavy_cannot_be_made(maker, workshop, owner):
    portions = (Portion("A", "Plain", 6), Portion("B", "Clay", 4))
    slurry = (Additive("kaolin", 2, "percent of fats", "B", "olive", 5),)
    pour = (PourStage("layer", ("A", "B")),)
    fats = (FatLine("olive", 70), FatLine("coconut", 30))
    formula = plain(fats=fats, portions=portions, additives=slurry, pour=pour, superfat=0.01, mould="")
    made = make_bar(workshop=workshop, name="Harsh", formula=formula, by=owner)

    page = words(maker.get(address("bar", made.slug)))
    assert "Portion A would be lye-heavy" in page
    assert "This bar cannot be made yet" in page


def test_limited_substances_are_added_up_on_the_page(maker, world):
    page = words(maker.get(address("bar", world.bars["byre-gate"].slug)))

    assert "Limited substances, added up over all scents" in page
    assert "geraniol" in page


def test_a_bar_with_citric_acid_says_what_it_takes_and_what_the_other_form_would(maker, world):
    page = words(maker.get(address("bar", world.bars["doorstep"].slug)))

    assert "of sodium citrate" in page
    assert "If the jar says anhydrous" in page


def test_citric_acid_asks_which_form_the_jar_says(maker, bar, fields):
    typed = {
        "additives__0__material": "citric_acid",
        "additives__0__disperse_in": "",
        "additives__0__disperse_ratio": "",
    }

    answer = maker.post(address("edit", bar.slug), fields(name=bar.name, **typed))

    assert answer.status_code == 422
    assert "Anhydrous or monohydrate?" in words(answer)


def test_the_form_of_the_jar_is_what_the_formula_keeps(maker, bar, fields):
    typed = {"additives__0__material": "citric_acid", "additives__0__acid_form": "citric_acid_monohydrate"}

    maker.post(address("edit", bar.slug), fields(name=bar.name, **typed))

    assert bar.revisions.get().formula.additives[0].material == "citric_acid_monohydrate"
    page = words(maker.get(address("edit", bar.slug)))
    assert '<option value="citric_acid" selected>Citric acid</option>' in page
    assert '<option value="citric_acid_monohydrate" selected>Citric acid, monohydrate</option>' in page


def test_the_shelf_that_holds_the_other_form_only_is_told(maker, bar, fields):
    typed = {"additives__0__material": "citric_acid", "additives__0__acid_form": "citric_acid"}
    typed |= {"additives__0__disperse_in": "", "additives__0__disperse_ratio": ""}

    page = words(maker.post(address("check"), fields(**typed)))

    assert "The jar on the shelf is citric acid, monohydrate (lot CI-2607)" in page


def test_the_additions_lead_to_what_a_spoon_weighs(maker, bar):
    page = words(maker.get(address("edit", bar.slug)))

    assert "a spoon is not a weight" in page
    assert 'href="/shelf/?kind=addition" target="_blank"' in page


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
    assert 'value="43"' in words(answer)  # how warm it is mixed at most, far below
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
