"""Let the database itself refuse to change or delete an event, whoever asks.

A migration that ever remakes the table `bench_event` on SQLite takes its triggers away, and must call `guard` again.
"""

from django.db import migrations

CHANGED = "Events are never changed. Append a correction instead."
DELETED = "Events are never deleted. Append a correction instead."
TRIGGERS = (
    ("bench_event_never_changed", "UPDATE", CHANGED),
    ("bench_event_never_deleted", "DELETE", DELETED),
)


def guard(apps, schema_editor):
    """Put the triggers in place; SQLite and PostgreSQL alone are known."""
    vendor = schema_editor.connection.vendor
    for name, act, sentence in TRIGGERS:
        for statement in STATEMENTS[vendor](name, act, sentence):
            schema_editor.execute(statement, params=None)


def unguard(apps, schema_editor):
    """Take the triggers away again."""
    on_table = " ON bench_event" if schema_editor.connection.vendor == "postgresql" else ""
    for name, _act, _sentence in TRIGGERS:
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {name}{on_table}")
    if on_table:
        schema_editor.execute("DROP FUNCTION IF EXISTS bench_event_append_only")


def on_sqlite(name, act, sentence):
    return [
        f"CREATE TRIGGER IF NOT EXISTS {name} BEFORE {act} ON bench_event "
        f"BEGIN SELECT RAISE(ABORT, '{sentence}'); END"
    ]


def on_postgresql(name, act, sentence):
    acts = f"{act} OR TRUNCATE" if act == "DELETE" else act
    return [
        "CREATE OR REPLACE FUNCTION bench_event_append_only() RETURNS trigger AS "
        "$$ BEGIN RAISE EXCEPTION '%', TG_ARGV[0]; END $$ LANGUAGE plpgsql",
        f"CREATE OR REPLACE TRIGGER {name} BEFORE {acts} ON bench_event "
        f"FOR EACH STATEMENT EXECUTE FUNCTION bench_event_append_only('{sentence}')",
    ]


STATEMENTS = {"sqlite": on_sqlite, "postgresql": on_postgresql}


class Migration(migrations.Migration):
    dependencies = [("bench", "0006_run_hold_and_window")]

    operations = [migrations.RunPython(guard, unguard)]
