"""A log that was changed behind the app's back is found out, at the entry that was changed."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction

from soapbench.bench.integrity import digest_of, verify
from soapbench.bench.models import Event, Run
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from tests.unguarded import unguarded

COLUMNS = (
    "id, run_id, position, kind, prompt, payload, happened_at, device_at, received_at, device, person_id, "
    "previous_digest, digest"
)


def sql(statement, *values):
    with connection.cursor() as cursor:
        cursor.execute(statement, values)


def tamper(statement, *values):
    with unguarded():
        sql(statement, *values)


def fresh(bench):
    return Run.objects.get(pk=bench.run.pk)


def test_an_untouched_log_fits(weighing):
    assert verify(fresh(weighing)) is None


def test_a_run_without_events_fits(bench):
    assert verify(fresh(bench)) is None


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("kind", "noted"),
        ("prompt", "melt"),
        ("payload", '{"text": "nothing happened"}'),
        ("happened_at", "2026-01-01 00:00:00"),
        ("received_at", "2026-01-01 00:00:00"),
        ("device", "another"),
        ("previous_digest", "0" * 64),
        ("digest", "0" * 64),
    ],
)
def test_a_changed_column_is_found_at_its_entry(weighing, column, value):
    tamper(f"UPDATE bench_event SET {column} = %s WHERE position = 3", value)

    assert verify(fresh(weighing)).position == 3


def test_another_person_under_an_entry_is_found(weighing, workshop):
    from soapbench.workshop.models import Person

    eve = Person.objects.create_user("eve", workshop=workshop)
    tamper("UPDATE bench_event SET person_id = %s WHERE position = 5", eve.pk)

    assert verify(fresh(weighing)).position == 5


@pytest.mark.parametrize("statement", ["UPDATE bench_event SET device = 'x'", "DELETE FROM bench_event"])
def test_the_database_itself_refuses_to_change_an_entry(weighing, statement):
    with (
        pytest.raises(DatabaseError, match=r"Events are never .*\. Append a correction instead\."),
        transaction.atomic(),
    ):
        sql(f"{statement} WHERE position = 3")

    assert verify(fresh(weighing)) is None


def test_an_entry_put_in_between_is_found(weighing):
    last = weighing.run.events.count()
    for position in range(last, 3, -1):
        tamper("UPDATE bench_event SET position = %s WHERE position = %s", position + 1, position)
    copied = COLUMNS.replace("id, run_id, position", "%s, run_id, 4", 1)
    sql(f"INSERT INTO bench_event ({COLUMNS}) SELECT {copied} FROM bench_event WHERE position = 3", "f" * 32)

    found = verify(fresh(weighing))
    assert found.position == 4 and "does not follow the entry before it" in found.sentence


def test_an_entry_added_at_the_end_without_the_app_is_found(weighing):
    last = weighing.run.events.count()
    copied = COLUMNS.replace("id, run_id, position", "%s, run_id, position + 1", 1)
    sql(f"INSERT INTO bench_event ({COLUMNS}) SELECT {copied} FROM bench_event WHERE position = %s", "f" * 32, last)

    assert verify(fresh(weighing)).position == last + 1


def test_two_entries_that_changed_places_are_found(weighing):
    for before, after in ((3, 1_003), (4, 3), (1_003, 4)):
        tamper("UPDATE bench_event SET position = %s WHERE position = %s", after, before)

    assert verify(fresh(weighing)).position == 3


def test_an_entry_moved_to_another_batch_is_found_in_both(weighing, ada):
    other = start_run(weighing.run.revision, SizeAsked("mould"), ada)
    last = weighing.run.events.count()
    tamper("UPDATE bench_event SET run_id = %s, position = 1 WHERE position = %s", other.pk.hex, last)

    assert verify(fresh(weighing)).position == last
    assert verify(Run.objects.get(pk=other.pk)).position == 1


def test_a_plan_that_was_changed_after_it_was_frozen_is_found(weighing):
    plan = fresh(weighing).plan_document
    plan["prompts"][0]["title"] = "Skip the goggles"
    Run.objects.filter(pk=weighing.run.pk).update(plan_document=plan)

    found = verify(fresh(weighing))
    assert found.position == 1 and "its plan, its code or its bar was changed after it was begun" in found.sentence


def test_a_log_from_before_plans_had_a_digest_still_fits(weighing):
    previous = ""
    for event in weighing.run.events.order_by("position"):
        event.previous_digest = previous
        previous = digest_of(event)
        tamper(
            "UPDATE bench_event SET previous_digest = %s, digest = %s WHERE position = %s",
            event.previous_digest, previous, event.position,
        )  # fmt: skip
    Run.objects.filter(pk=weighing.run.pk).update(head_digest=previous)

    assert Event.objects.get(position=1).previous_digest == "" and verify(fresh(weighing)) is None


def test_a_missing_entry_is_found(weighing):
    tamper("DELETE FROM bench_event WHERE position = 4")

    assert verify(fresh(weighing)).position == 4


def test_a_log_cut_off_at_its_end_is_found(weighing):
    last = weighing.run.events.count()
    tamper("DELETE FROM bench_event WHERE position = %s", last)

    found = verify(fresh(weighing))
    assert found.position == last
    assert "ends too early" in found.sentence


def test_the_command_says_that_every_log_fits(weighing):
    said = StringIO()
    call_command("check_log", stdout=said)

    assert said.getvalue() == "1 logs checked, every entry fits.\n"


def test_the_command_names_the_first_entry_that_does_not_fit(weighing):
    tamper("UPDATE bench_event SET device = 'x' WHERE position >= 6")

    said = StringIO()
    with pytest.raises(CommandError, match="1 of 1"):
        call_command("check_log", weighing.run.code, stdout=said)
    assert f"Entry 6 of {weighing.run.code}" in said.getvalue()


@pytest.mark.parametrize("command", ["check_log", "rebuild_runs"])
@pytest.mark.django_db
def test_a_batch_code_that_nobody_has_is_an_error(command):
    with pytest.raises(CommandError, match="No run has"):
        call_command(command, "20200101-X-1", stdout=StringIO())


def test_a_run_s_columns_can_be_remade_from_its_log(weighing):
    before = Run.objects.filter(pk=weighing.run.pk).values().get()
    lots = sorted(weighing.run.lots_used.values_list("lot_id", "mass_g"))
    Run.objects.update(status="curing", prompt="", event_count=0, head_digest="", deviations=9)
    weighing.run.lots_used.all().delete()

    said = StringIO()
    call_command("rebuild_runs", stdout=said)

    assert Run.objects.filter(pk=weighing.run.pk).values().get() == before
    assert sorted(weighing.run.lots_used.values_list("lot_id", "mass_g")) == lots
    assert said.getvalue() == "1 runs folded anew, 1 were out of step.\n"


def test_remaking_what_is_right_changes_nothing(weighing):
    said = StringIO()
    call_command("rebuild_runs", weighing.run.code, stdout=said)

    assert said.getvalue() == "1 runs folded anew, 0 were out of step.\n"
