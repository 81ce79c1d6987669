"""A run keeps its lesson once it has left the bench, and the next plan of its workshop reads it."""

import pytest
from django.utils import timezone

from soapbench.bench.learning.records import learnt_for
from soapbench.bench.models import Run
from soapbench.bench.rebuild import rebuild
from tests.bench.conftest import workshop_named
from tests.bench.sample import START, Hand


@pytest.fixture
def played(bench):
    """Return a hand that plays up to a prompt, a minute a tap, into the log."""
    hand, begun = Hand(bench.run.plan).start(), timezone.now()

    def until(key):
        hand.until(key)
        for fact in hand.facts:
            at = begun + (fact.happened_at - START)
            bench.tap(fact.kind, fact.prompt, id=fact.id, at=at, **fact.payload)

    return until


def test_a_run_at_the_bench_teaches_nothing_yet(played, run):
    played("trace")
    run.refresh_from_db()
    assert run.lesson is None


def test_a_run_that_left_the_bench_teaches(played, run):
    played("cut")
    run.refresh_from_db()
    assert run.lesson["trace"] == "thin"
    assert learnt_for(run.bar, run.revision.formula).trace_minutes.runs == 1


def test_a_lesson_is_the_workshop_s_own(played, run):
    played("cut")
    Run.objects.filter(pk=run.pk).update(workshop=workshop_named("Elsewhere"))
    assert learnt_for(run.bar, run.revision.formula).trace_minutes is None


def test_rebuilding_brings_a_lost_lesson_back(played, run):
    played("cut")
    Run.objects.filter(pk=run.pk).update(lesson=None)
    assert rebuild([run]) == 1
    run.refresh_from_db()
    assert run.lesson is not None
