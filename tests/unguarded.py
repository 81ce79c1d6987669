"""Take the database's own guard over the events away for a moment, as somebody with the right to do so could."""

from contextlib import contextmanager
from importlib import import_module

from django.db import connection

guards = import_module("soapbench.bench.migrations.0007_events_are_append_only")


class Editor:
    """What the migration asks of a schema editor; Django's own may not be opened inside a transaction."""

    connection = connection

    def execute(self, statement, params=()):
        with connection.cursor() as cursor:
            cursor.execute(statement)


@contextmanager
def unguarded():
    """Let events be changed and deleted by SQL inside the block."""
    guards.unguard(None, Editor())
    try:
        yield
    finally:
        guards.guard(None, Editor())
