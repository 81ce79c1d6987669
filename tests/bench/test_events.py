"""The one writer of the log: once each, in order, chained, never changed."""

import uuid
from datetime import datetime, timedelta

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from soapbench.bars.models import Bar, Revision
from soapbench.bench.events import append, facts_of, state_of
from soapbench.bench.ids import new_id
from soapbench.bench.integrity import root_of
from soapbench.bench.models import AppendOnly, Event, Run
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.refusal import Refused
from soapbench.bench.start import start_run
from tests.bench.sample import Hand


def test_the_first_event_begins_the_run(bench):
    answer = bench.tap("started", cautions_read=True)

    assert answer.was_new
    assert answer.event.position == 1
    assert answer.state.started_at == answer.event.happened_at


def test_the_same_id_twice_is_one_event_with_one_answer(bench):
    id = new_id()
    first = bench.tap("started", id=id, cautions_read=True)
    second = bench.tap("started", id=id, cautions_read=True)

    assert not second.was_new
    assert second.event.pk == first.event.pk
    assert second.state == first.state
    assert bench.run.events.count() == 1


def test_an_id_written_as_text_is_the_same_id(bench):
    id = new_id()
    bench.tap("started", id=id, cautions_read=True)

    assert not bench.tap("started", id=str(id), cautions_read=True).was_new


def test_an_id_of_another_run_is_refused(bench, revision, ada):
    id = new_id()
    bench.tap("started", id=id, cautions_read=True)
    other = start_run(revision, SizeAsked("fats", 1000.0), ada)

    with pytest.raises(Refused, match="another batch") as refusal:
        bench.tap("started", id=id, run=other, cautions_read=True)
    assert refusal.value.field == "id"
    assert other.events.count() == 0


@pytest.mark.parametrize("id", ["", "abc", "0", 7, None])
def test_an_id_that_is_none_is_refused(bench, id):
    with pytest.raises(Refused, match="proper id"):
        append(
            bench.run, id=id, kind="started", prompt="", payload={"cautions_read": True}, happened_at=timezone.now(),
            device="phone", by=bench.person,
        )  # fmt: skip


def test_each_event_carries_the_digest_of_the_one_before(weighing):
    events = list(weighing.run.events.order_by("position"))

    assert [event.position for event in events] == list(range(1, len(events) + 1))
    root = root_of(weighing.run)
    assert [event.previous_digest for event in events] == [root, *[event.digest for event in events[:-1]]]


def test_the_payload_is_kept_with_every_field(bench):
    bench.tap("started", cautions_read=True)

    event = bench.tap("noted", text="The window sticks.").event
    assert Event.objects.get(pk=event.pk).payload == {"text": "The window sticks."}
    ticked = bench.tap("ticked", "tools", item="tool:scale").event
    assert Event.objects.get(pk=ticked.pk).payload == {"item": "tool:scale", "is_here": True, "note": ""}


def test_the_run_s_columns_repeat_its_state(weighing):
    run = Run.objects.get(pk=weighing.run.pk)

    assert (run.status, run.prompt, run.prompt_title) == ("bench", "weigh:water", "Weigh Water")
    assert run.event_count == run.events.count()
    assert run.head_digest == run.events.last().digest
    assert run.started_at is not None


def test_the_plan_never_changes(bench):
    before = Run.objects.get(pk=bench.run.pk).plan_document
    bench.play(Hand(bench.run.plan).start().until("").facts)

    assert Run.objects.get(pk=bench.run.pk).plan_document == before


def test_the_log_gives_the_state_of_the_answer(weighing):
    answer = weighing.tap("noted", text="All well.")

    assert state_of(weighing.run) == answer.state
    assert len(facts_of(weighing.run)) == answer.event.position


def test_a_naive_time_is_refused(bench):
    with pytest.raises(Refused, match="time zone"):
        bench.tap("started", at=datetime(2026, 11, 25, 8, 0), cautions_read=True)


@pytest.mark.parametrize("ahead", [timedelta(days=1, minutes=1), timedelta(days=4000)])
def test_a_time_more_than_a_day_ahead_is_refused(bench, ahead):
    with pytest.raises(Refused, match="a day ahead") as refusal:
        bench.tap("started", at=timezone.now() + ahead, cautions_read=True)
    assert refusal.value.field == "happened_at"


def test_a_clock_that_runs_an_hour_fast_is_believed(bench):
    assert bench.tap("started", at=timezone.now() + timedelta(hours=1), cautions_read=True).was_new


def test_a_time_long_before_the_run_is_refused(bench):
    with pytest.raises(Refused, match="before the batch"):
        bench.tap("started", at=timezone.now() - timedelta(days=3), cautions_read=True)


@pytest.mark.parametrize("device", ["", "x" * 65, "a\x00b"])
def test_a_device_without_a_proper_name_is_refused(bench, device):
    with pytest.raises(Refused, match="device"):
        bench.tap("started", device=device, cautions_read=True)


def test_a_refused_event_leaves_nothing_behind(bench):
    with pytest.raises(Refused):
        bench.tap("noted", text="Too early.")

    assert bench.run.events.count() == 0
    assert Run.objects.get(pk=bench.run.pk).event_count == 0


def test_an_event_is_never_saved_again_nor_deleted(bench):
    event = bench.tap("started", cautions_read=True).event

    for act in (event.save, event.delete):
        with pytest.raises(AppendOnly):
            act()


@pytest.mark.parametrize(
    "act",
    [
        lambda events: events.update(kind="noted"),
        lambda events: events.delete(),
        lambda events: events.filter(position=1).delete(),
        lambda events: events.bulk_create([Event()]),
        lambda events: events.bulk_update([], ["kind"]),
        lambda events: events.update_or_create(position=1),
    ],
)
def test_the_log_cannot_be_changed_through_a_query(bench, act):
    bench.tap("started", cautions_read=True)

    with pytest.raises(AppendOnly):
        act(bench.run.events.all())


def test_a_row_under_a_taken_position_is_refused_by_the_database(bench):
    event = bench.tap("started", cautions_read=True).event
    copy = Event.objects.get(pk=event.pk)
    copy.pk, copy._state.adding = uuid.uuid4(), True

    with pytest.raises(IntegrityError), transaction.atomic():
        copy.save()


def test_an_append_asks_the_database_a_fixed_number_of_times(weighing, django_assert_num_queries):
    # Savepoint twice, the run, the log, its people, the event, the run's columns.
    with django_assert_num_queries(7):
        weighing.tap("noted", text="All well.")


def test_two_bars_of_one_day_have_codes_of_their_own(revision, ada):
    codes = [start_run(revision, SizeAsked("fats", 1000.0), ada).code for _ in range(3)]
    other = Bar.objects.create(workshop=revision.bar.workshop, slug="wet-leaf", name="Wet Leaf")
    second = Revision.objects.create(bar=other, number=1, document=revision.document)

    codes.append(start_run(second, SizeAsked("fats", 1000.0), ada).code)
    assert len(set(codes)) == 4
    assert codes[0].split("-")[1:] == ["WL", "1"]
