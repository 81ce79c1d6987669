"""A log that was changed behind the app's back is found out, at the entry that was changed."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.db import connection

from soapbench.bench.integrity import verify
from soapbench.bench.models import Run


def tamper(statement, *values):
    with connection.cursor() as cursor:
        cursor.execute(statement, values)


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
