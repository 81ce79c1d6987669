"""A run begins with a frozen plan, a pinned revision and a code of its own, or it does not begin."""

from dataclasses import replace

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from soapbench.bars.formula import Additive, to_document
from soapbench.bars.models import Revision
from soapbench.bench.models import Run
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.refusal import Refused
from soapbench.bench.start import initials, start_run
from soapbench.shelf.models import Lot, Material
from soapbench.workshop.models import Mould, Scale
from tests.bench.sample import SWIRLED

KILO = SizeAsked("fats", 1000.0)


def test_a_started_run_pins_its_revision(revision, ada):
    run = start_run(revision, KILO, ada)

    revision.refresh_from_db()
    assert revision.is_pinned
    assert (run.revision, run.bar, run.made_by) == (revision, revision.bar, ada)


def test_a_later_lot_or_formula_does_not_move_the_plan(run, revision, shelf):
    before = run.plan
    Lot.objects.update(saponification_value=150)
    Material.objects.filter(key="olive").update(sv_low=100, sv_high=101)
    Revision.objects.filter(pk=revision.pk).update(document=to_document(replace(SWIRLED, superfat=0.2)))

    assert Run.objects.get(pk=run.pk).plan == before


def test_a_run_waits_at_its_first_prompt(run):
    assert (run.status, run.prompt, run.prompt_title) == ("bench", "materials", "Set out the fats")


def test_the_plan_knows_the_lots_and_stand_ins_of_the_shelf(run, shelf):
    plan = run.plan

    assert plan.line("fat:olive").lot_code == "OL-1"
    assert {lot.code for lot in plan.lots} >= {"OL-1", "CO-1", "LA-1"}
    assert "lard" in plan.stand_ins


def test_a_supplier_s_value_of_the_lot_wins(revision, ada, shelf):
    Lot.objects.filter(code="CO-1").update(saponification_value=240)

    plan = start_run(revision, KILO, ada).plan
    assert plan.materials["coconut"].sv_own == 240
    assert plan.line("alkali:naoh").planned_g < 143.6


def test_no_run_begins_without_emergency_numbers(revision, ada, workshop):
    workshop.poison_centre_number = ""
    workshop.save()

    with pytest.raises(Refused, match="emergency and poison centre"):
        start_run(Revision.objects.get(pk=revision.pk), KILO, ada)
    assert not Run.objects.exists()


def test_no_run_begins_that_the_check_stops(revision, ada):
    stopped = replace(SWIRLED, additives=(Additive("cedar", 3, "percent of fats", "A"),))
    revision.document = to_document(stopped)
    revision.save()

    with pytest.raises(Refused, match="Cedar"):
        start_run(revision, KILO, ada)
    revision.refresh_from_db()
    assert not revision.is_pinned


@pytest.mark.parametrize("size", [SizeAsked("fats", 0.0), SizeAsked("fats", -5.0), SizeAsked("bars", bars=0)])
def test_a_size_of_nothing_is_refused(revision, ada, size):
    with pytest.raises(Refused):
        start_run(revision, size, ada)


def test_a_mould_that_is_not_here_is_refused(revision, ada, workshop):
    with pytest.raises(Refused) as refusal:
        start_run(revision, KILO, ada, mould="slab")
    assert refusal.value.field == "mould"

    Mould.objects.update(is_here=False)
    with pytest.raises(Refused, match="mould"):
        start_run(revision, KILO, ada)


def test_the_finest_scale_that_carries_the_batch_is_taken(revision, ada, workshop):
    Scale.objects.create(workshop=workshop, key="fine", name="Fine scale", resolution_g=0.01, capacity_g=200)

    assert start_run(revision, KILO, ada).plan.scale == "Bench scale"
    assert start_run(revision, KILO, ada, scale="fine").plan.resolution_g == 0.01


def test_a_workshop_without_a_scale_is_told_so(revision, ada):
    Scale.objects.update(is_here=False)

    with pytest.raises(Refused) as refusal:
        start_run(revision, KILO, ada)
    assert refusal.value.field == "scale"


@pytest.mark.parametrize(
    ("name", "letters"), [("Winter Lane", "WL"), ("plain", "P"), ("A b c d", "ABC"), ("— !", "X"), ("Été", "É")]
)
def test_the_batch_code_carries_the_bar_s_initials(name, letters):
    assert initials(name) == letters


def test_starting_asks_the_database_no_more_often_for_a_fuller_shelf(revision, ada, workshop, shelf):
    def queries():
        fetched = Revision.objects.select_related("bar__workshop").get(pk=revision.pk)
        with CaptureQueriesContext(connection) as asked:
            start_run(fetched, KILO, ada)
        return len(asked)

    few = queries()
    for number in range(20):
        Lot.objects.create(workshop=workshop, material=shelf["olive"], code=f"X-{number}", received_g=10)

    assert queries() == few
