"""Several phones at once on one SQLite file: no tap is lost, none is doubled, the chain holds."""

import sqlite3
import threading
from contextlib import closing

import pytest
from django.db import connection, connections
from django.utils import timezone

from soapbench.bench.events import append
from soapbench.bench.ids import new_id
from soapbench.bench.integrity import verify
from soapbench.bench.models import Run
from soapbench.bench.refusal import Refused

HANDS = 6


@pytest.fixture(autouse=True)
def file_database(db, tmp_path):
    """Put the app on a database file of its own: the tests' usual one is in memory, where threads share a connection.

    Skipped on other databases, whose tests have real connections anyway.
    """
    if connection.vendor != "sqlite":
        pytest.skip("this is about SQLite on a file")
    usual, settings = connections["default"], connections.settings["default"]
    name, path = settings["NAME"], tmp_path / "bench.sqlite3"
    with usual.cursor() as cursor:
        tables = cursor.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'")
        schema = [sql for (sql,) in tables.fetchall()]
    with closing(sqlite3.connect(path)) as file:
        file.executescript(";".join(schema))
    settings["NAME"] = str(path)
    connections["default"] = connections.create_connection("default")
    try:
        yield
    finally:
        connections["default"].close()
        settings["NAME"] = name
        connections["default"] = usual


def at_once(act, count=HANDS):
    """Run act(n) in so many threads that all begin together; returns what each gave or raised."""
    barrier, found = threading.Barrier(count), [None] * count

    def hand(number):
        barrier.wait()
        try:
            found[number] = act(number)
        except Exception as error:  # whatever it was, the test looks at it
            found[number] = error
        finally:
            connections.close_all()

    threads = [threading.Thread(target=hand, args=(number,)) for number in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def tap(run, person, kind, id=None, device="phone", **payload):
    return append(
        run, id=id or new_id(), kind=kind, prompt="", payload=payload, happened_at=timezone.now(), device=device,
        by=person,
    )  # fmt: skip


@pytest.fixture
def begun(run, ada):
    tap(run, ada, "started", cautions_read=True)
    return run


def test_taps_of_many_phones_all_find_their_place(begun, ada):
    answers = at_once(lambda n: tap(begun, ada, "noted", device=f"phone-{n}", text=f"Remark {n}"))

    assert sorted(answer.event.position for answer in answers) == list(range(2, HANDS + 2))
    assert verify(Run.objects.get(pk=begun.pk)) is None


def test_one_tap_sent_by_many_at_once_is_one_event(begun, ada):
    id = new_id()
    answers = at_once(lambda n: tap(begun, ada, "noted", id=id, text="The same."))

    assert [answer.was_new for answer in answers].count(True) == 1
    assert {answer.event.position for answer in answers} == {2}
    assert begun.events.count() == 2


def test_two_phones_that_begin_a_run_begin_it_once(run, ada):
    answers = at_once(lambda n: tap(run, ada, "started", cautions_read=True))

    refused = [answer for answer in answers if isinstance(answer, Refused)]
    assert len(refused) == HANDS - 1
    assert run.events.count() == 1
