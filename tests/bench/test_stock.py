"""What the runs weighed out of each lot, corrections included."""

from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from soapbench.bench.stock import used_by_lot
from soapbench.shelf.models import Lot
from soapbench.workshop.models import Workshop
from tests.bench.conftest import Bench
from tests.bench.sample import Hand


def used(workshop):
    codes = dict(Lot.objects.values_list("pk", "code"))
    return {codes[lot]: mass for lot, mass in used_by_lot(workshop).items()}


def test_nothing_is_used_before_anything_is_weighed(bench, workshop):
    assert used(workshop) == {}


def test_what_was_weighed_is_used(weighing, workshop):
    assert used(workshop) == {"OL-1": 394.0, "CO-1": 300.0, "PA-1": 300.0}


def test_a_second_weighing_replaces_the_first(weighing, workshop):
    weighing.tap("weighed", "weigh:fat:olive", line="fat:olive", mass_g=401.5)

    assert used(workshop)["OL-1"] == 401.5


def test_a_weight_taken_back_is_not_used(weighing, workshop):
    event = weighing.run.events.filter(kind="weighed").last()
    weighing.tap("took-back", event=str(event.pk))

    assert set(used(workshop)) == {"CO-1", "PA-1"}


def test_a_stand_in_s_lot_is_used_in_place_of_the_planned_one(weighing, workshop):
    lot = Lot.objects.get(code="LA-1").pk
    change = {"what": "substituted", "why": "palm was rancid", "decision": "lard", "line": "fat:palm"}
    weighing.tap("changed", material="lard", lot=lot, mass_g=299, **change)

    assert used(workshop) == {"OL-1": 394.0, "CO-1": 300.0, "LA-1": 299.0}


def test_runs_add_up_in_one_query(weighing, revision, ada, workshop, django_assert_num_queries):
    run = start_run(revision, SizeAsked("fats", 500.0), ada)
    hand = Hand(run.plan).start().until("weigh:water")
    for number, fact in enumerate(hand.facts):
        hand.facts[number] = fact.__class__(**{**fact.__dict__, "id": fact.id.replace("0000-7000", "0001-7000")})
    Bench(run, ada).play(hand.facts)

    with django_assert_num_queries(1):
        found = used_by_lot(workshop)
    assert sum(found.values()) == 994.0 + 497.0


def test_another_workshop_s_runs_do_not_count(weighing):
    assert used_by_lot(Workshop.objects.create(name="Elsewhere")) == {}
