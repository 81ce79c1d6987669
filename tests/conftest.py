"""For every test: the browser that browser tests drive, and plain words about what was skipped."""

import os
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import settings

from soapbench.bootstrap import chromium

# Speed is measured by benchmarks alone: a busy machine must not fail a test.
settings.register_profile("soapbench", deadline=None)
settings.load_profile("soapbench")

BROWSER_TESTS = Path(__file__).parent / "browser"
REQUIRED = bool(os.environ.get("SOAPBENCH_BROWSER_REQUIRED"))
# Without these, Chromium cannot run as root, and asks the outside for updates all the time.
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-quic",
    "--disable-sync",
    "--no-first-run",
    "--use-fake-device-for-media-stream",  # a microphone that beeps; whether a page may use it is still asked
]


def pytest_collection_modifyitems(items):
    """Mark what drives a browser by its folder, and skip it where there is none."""
    in_browser = [item for item in items if BROWSER_TESTS in item.path.parents]
    missing = chromium.find() is None
    if missing and REQUIRED and in_browser:
        raise pytest.UsageError(f"Browser tests must run here, but {chromium.why_none()}.")
    for item in in_browser:
        item.add_marker(pytest.mark.browser)
        if missing:
            item.add_marker(pytest.mark.skip(reason=f"browser test: {chromium.why_none()}"))


def skip_reason(report):
    """Return why a test was skipped."""
    reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
    return reason.removeprefix("Skipped: ")


def pytest_terminal_summary(terminalreporter):
    """Say plainly what was skipped and why."""
    reasons = Counter(skip_reason(report) for report in terminalreporter.stats.get("skipped", []))
    for reason, count in sorted(reasons.items()):
        terminalreporter.write_line(f"Skipped {count} {'test' if count == 1 else 'tests'}: {reason}.", yellow=True)


def pytest_sessionfinish(session):
    """Fail when a browser test was skipped for any reason, where they must run."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    skipped = [report for report in reporter.stats.get("skipped", []) if "browser" in report.keywords]
    if REQUIRED and skipped and session.exitstatus == 0:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
        reporter.write_line(f"{len(skipped)} browser tests were skipped, and they must run here.", red=True)


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    """Drive the machine's own browser; downloading another one may be forbidden."""
    return {**browser_type_launch_args, "executable_path": chromium.find(), "args": ARGUMENTS}


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup):
    """Let the tables be emptied between tests, which the database itself refuses for events."""
    from django.db import connection

    from tests.unguarded import unguarded

    operations = type(connection.ops)  # the class, because a test may open a connection of its own
    flush = operations.execute_sql_flush

    def flush_unguarded(self, statements):
        with unguarded():
            flush(self, statements)

    operations.execute_sql_flush = flush_unguarded


@pytest.fixture
def world(db):
    from tests.world import build  # only now: it needs Django's apps

    return build()


@pytest.fixture
def workshop(world):
    return world.workshop


@pytest.fixture
def owner(world):
    return world.owner


@pytest.fixture
def helper(world):
    return world.helper


@pytest.fixture
def stranger(world):
    return world.stranger


@pytest.fixture
def as_owner(client, owner):
    """A browser in which the owner is signed in."""
    client.force_login(owner)
    return client
