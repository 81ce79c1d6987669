"""How much to make: the preview, what is refused at its field, and the beginning of a run."""

from dataclasses import replace

import pytest

from soapbench.bars.formula import to_document
from soapbench.bars.models import Bar, Revision
from soapbench.bench import views
from soapbench.bench.models import Run
from soapbench.bench.refusal import Refused
from tests.bench.asking import words_of
from tests.bench.sample import SWIRLED

PATH = "/bench/new/winter-lane/"
USUAL = {"by": "mould", "mould": "loaf", "scale": "bench-scale"}
START = {"start": "1", "cautions_read": "on"}


@pytest.fixture
def desk(maker, revision):
    return maker


def ask(client, **changes):
    return client.post(PATH, {**USUAL, **changes})


def errors_of(response):
    return {name: " ".join(words) for name, words in response.context["form"].errors.items()}


def test_the_page_shows_at_once_what_fills_the_mould(desk):
    page = desk.get(PATH)
    seen = page.context["seen"]

    assert page.status_code == 200 and seen.plan.size.by == "mould"
    assert f"{seen.plan.size.bars}" in words_of(page) and "Lye can blind and burn" in words_of(page)


def test_looking_begins_nothing(desk):
    ask(desk, by="fats", fats_g="1000")

    assert not Run.objects.exists()


def test_grams_of_fats_are_the_fats_of_the_plan(desk):
    assert ask(desk, by="fats", fats_g="1000").context["seen"].plan.size.fats_g == 1000


def test_a_number_of_bars_gives_just_those_bars_their_trimmings_and_what_stays_in_the_pots(desk):
    seen = ask(desk, by="bars", bars="8", bar_g="110").context["seen"]

    assert seen.plan.size.bars == 8
    assert "110 g each" in seen.bars
    assert 895 < seen.plan.size.batter_g < 920


def test_a_decimal_comma_is_read_as_a_point(desk):
    assert ask(desk, by="fats", fats_g="1000,5").context["seen"].plan.size.fats_g == 1000.5


def test_a_script_gets_the_preview_alone(desk):
    page = desk.post(PATH, {**USUAL, "by": "fats", "fats_g": "1000"}, headers={"HX-Request": "true"})
    text = page.content.decode()

    assert 'id="preview"' in text and "<html" not in text and "Lye can blind" not in text


BAD = [
    ("fats", {"fats_g": ""}, "fats_g", "Write a number here."),
    ("fats", {"fats_g": "-5"}, "fats_g", "1 or more"),
    ("fats", {"fats_g": "0"}, "fats_g", "1 or more"),
    ("fats", {"fats_g": "99999999999"}, "fats_g", "is too much"),
    ("fats", {"fats_g": "lots"}, "fats_g", "not a plain number"),
    ("fats", {"fats_g": "12 oz"}, "fats_g", "it is in g"),
    ("fats", {"fats_g": "nan"}, "fats_g", "not a plain number"),
    ("bars", {"bars": ""}, "bars", "Write a number here."),
    ("bars", {"bars": "-2"}, "bars", "1 or more"),
    ("bars", {"bars": "2.5"}, "bars", "whole number of bars"),
    ("bars", {"bars": "1e9"}, "bars", "is too much"),
    ("bars", {"bars": "a dozen"}, "bars", "not a plain number"),
    ("bars", {"bars": "8", "bar_g": "heavy"}, "bar_g", "not a plain number"),
    ("mould", {"mould": "bucket"}, "mould", "This mould is not in the workshop. Choose another."),
    ("mould", {"scale": "lever"}, "scale", "This scale is not in the workshop. Choose another."),
    ("handful", {}, "by", "handful"),
]


@pytest.mark.parametrize(("way", "typed", "field", "sentence"), BAD)
@pytest.mark.parametrize("more", [{}, START], ids=["looking", "starting"])
def test_what_cannot_be_made_is_said_at_its_field_and_stays_typed(desk, way, typed, field, sentence, more):
    page = ask(desk, by=way, **typed, **more)

    assert page.status_code == 422
    assert sentence in errors_of(page)[field]
    assert all(page.context["form"].data[name] == value for name, value in typed.items())
    assert not Run.objects.exists()


def test_what_was_typed_stands_in_its_field_again(desk):
    text = ask(desk, by="fats", fats_g="12 oz").content.decode()

    assert 'value="12 oz"' in text


def test_a_size_that_the_way_does_not_need_is_not_complained_of(desk):
    assert ask(desk, by="mould", fats_g="lots").status_code == 200


def test_a_mould_too_small_says_so(desk):
    page = ask(desk, by="bars", bars="900")

    assert page.status_code == 422
    assert page.context["seen"].trouble or page.context["seen"].check.stops


def test_a_start_without_the_tick_is_refused_and_keeps_the_size(desk):
    page = ask(desk, by="fats", fats_g="1000", start="1")

    assert page.status_code == 422 and not Run.objects.exists()
    assert errors_of(page) == {"cautions_read": "Read the cautions and tick them first."}
    assert 'value="1000"' in page.content.decode() and page.context["seen"].plan


def test_a_start_begins_the_run_with_the_caution_read(desk):
    answer = ask(desk, by="fats", fats_g="1000", **START)
    run = Run.objects.get()

    assert answer.status_code == 302 and answer.url == f"/bench/{run.pk}/"
    assert [(event.kind, event.person.username) for event in run.events.all()] == [("started", "ada")]
    assert run.plan.size.fats_g == 1000 and run.plan.mould == "Loaf" and run.plan.scale == "Bench scale"


def test_a_chosen_mould_is_the_one_that_is_made(desk, workshop):
    mould = workshop.moulds.get()
    mould.pk, mould.key, mould.name, mould.length_mm = None, "short", "Short loaf", 200
    mould.save()
    ask(desk, mould="short", **START)

    assert Run.objects.get().plan.mould == "Short loaf"


@pytest.mark.parametrize("more", [{}, START], ids=["looking", "starting"])
@pytest.mark.parametrize("name", ["emergency_number", "poison_centre_number"])
def test_a_workshop_without_its_numbers_begins_nothing_and_is_led_there(desk, workshop, name, more):
    setattr(workshop, name, "")
    workshop.save()
    page = ask(desk, **more)

    assert page.status_code == 422 and not Run.objects.exists()
    assert "Enter the emergency and poison centre numbers" in words_of(page)
    assert "Write them down" in words_of(page) and 'href="/workshop/' in page.content.decode()


@pytest.mark.parametrize("more", [{}, START], ids=["looking", "starting"])
def test_a_formula_that_the_check_stops_begins_nothing(desk, revision, more):
    stopped = replace(SWIRLED, additives=(replace(SWIRLED.additives[1], dose=9.0),))
    Revision.objects.create(bar=revision.bar, number=2, document=to_document(stopped))
    page = ask(desk, **more)

    assert page.status_code == 422 and not Run.objects.exists()
    assert page.context["seen"].check.stops[0].sentence in words_of(page)


def test_a_shelf_that_changed_since_the_preview_is_told_and_nothing_is_lost(desk, monkeypatch):
    def too_late(*args, **more):
        raise Refused("The mould is gone.")

    monkeypatch.setattr(views, "start_run", too_late)
    page = ask(desk, by="fats", fats_g="1000", **START)

    assert page.status_code == 422 and "The mould is gone." in words_of(page)
    assert 'value="1000"' in page.content.decode()


def test_a_bar_without_a_formula_leads_to_writing_one(desk, workshop):
    Bar.objects.create(workshop=workshop, slug="empty", name="Empty")

    assert desk.get("/bench/new/empty/").url == "/bars/empty/edit/"


def test_a_bar_of_another_workshop_is_not_there(client, stranger, revision):
    client.force_login(stranger)

    assert client.get(PATH).status_code == 404


def test_a_bar_no_longer_made_is_not_there(desk):
    Bar.objects.update(is_retired=True)

    assert desk.get(PATH).status_code == 404


@pytest.fixture
def taught(run):
    """An earlier batch of the bar, finished, that left 40 g behind."""
    Run.objects.filter(pk=run.pk).update(lesson={"bar": run.bar.slug, "made_g": 1500.0, "cut_g": 1460.0})
    return run


def test_what_earlier_batches_taught_is_shown_with_their_number(desk, taught):
    assert "of batter stays in pots and cups; that much more is made. from 1 batch" in words_of(desk.get(PATH))


def test_what_was_taught_can_be_left_out_and_stays_to_be_taken_up_again(desk, taught):
    reckoned, refused = ask(desk).context["seen"], ask(desk, refused="pot loss").context["seen"]

    assert [offer.is_refused for offer in refused.offers] == [True]
    assert refused.plan.learnt == () and reckoned.plan.learnt
    assert refused.plan.loss_g < reckoned.plan.loss_g


def test_a_batch_begun_reckons_with_what_was_not_left_out(desk, taught):
    ask(desk, **START, refused="pot loss")
    ask(desk, **START)

    reckoned, refused = Run.objects.exclude(pk=taught.pk).order_by("-made_at")
    assert [teaching.key for teaching in reckoned.plan.learnt] == ["pot loss"]
    assert refused.plan.learnt == ()


def test_a_lesson_that_nobody_taught_cannot_be_left_out(desk, taught):
    assert ask(desk, refused="the moon").status_code == 200
