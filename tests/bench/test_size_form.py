"""The form for how much to make."""

from dataclasses import replace

import pytest

from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.size_form import SizeForm
from soapbench.workshop.models import Mould, Scale
from tests.bench.sample import PLAIN

USUAL = {"by": "mould", "mould": "loaf", "scale": "bench-scale"}


@pytest.fixture
def form(workshop):
    def made(typed=None, formula=PLAIN, is_starting=False):
        data = None if typed is None else {**USUAL, **typed}
        return SizeForm(data, workshop=workshop, formula=formula, is_starting=is_starting)

    return made


def test_untouched_it_stands_for_a_full_mould(form):
    assert (form().size, form().chosen_mould, form().chosen_scale) == (SizeAsked("mould"), "loaf", "bench-scale")


def test_the_formula_s_own_mould_is_the_usual_one(form, workshop):
    Mould.objects.create(
        workshop=workshop, key="slab", name="Slab", shape="box", length_mm=300, width_mm=200, height_mm=50
    )

    assert form(formula=replace(PLAIN, mould="slab")).chosen_mould == "slab"
    assert form(formula=replace(PLAIN, mould="gone")).chosen_mould == "loaf"


def test_the_finest_scale_is_the_usual_one_and_one_that_is_away_is_not_offered(form, workshop):
    Scale.objects.create(workshop=workshop, key="fine", name="Fine", resolution_g=0.01, capacity_g=200)
    assert form().chosen_scale == "fine"

    workshop.scales.filter(key="fine").update(is_here=False)
    assert form().chosen_scale == "bench-scale"
    assert "scale" in form({"scale": "fine"}).errors


@pytest.mark.parametrize(
    ("typed", "size"),
    [
        ({"by": "fats", "fats_g": "1000,5"}, SizeAsked("fats", fats_g=1000.5)),
        ({"by": "bars", "bars": "12"}, SizeAsked("bars", bars=12)),
        ({"by": "bars", "bars": "12", "bar_g": "110"}, SizeAsked("bars", bars=12, bar_g=110.0)),
        ({"by": "mould", "bars": "many", "bar_g": "-1", "fats_g": "lots"}, SizeAsked("mould")),
        ({"by": "fats", "fats_g": "500", "bars": "12"}, SizeAsked("fats", fats_g=500.0)),
    ],
)
def test_only_what_the_way_asks_for_counts(form, typed, size):
    asked = form(typed)

    assert asked.is_valid() and asked.size == size


def test_the_tick_is_asked_for_at_the_start_alone(form):
    assert form({}).is_valid()
    assert form({}, is_starting=True).errors == {"cautions_read": ["Read the cautions and tick them first."]}
    assert form({"cautions_read": "on"}, is_starting=True).is_valid()


def test_a_workshop_without_a_mould_or_a_scale_can_be_asked(form, workshop):
    workshop.moulds.all().delete()
    workshop.scales.all().delete()

    assert (form().chosen_mould, form().chosen_scale) == ("", "")
