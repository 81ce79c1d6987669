import re
from pathlib import Path

import pytest

from soapbench.bootstrap.places import LOCK, ROOT, TEST_LOCK

PIN = re.compile(
    r"^([a-z0-9-]+)==(\S+)(?: ; ([^\\]+?))? \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", re.MULTILINE
)


def pins(lock):
    """Return name, version and condition of each pin, with its hashes."""
    return {match.groups()[:3]: match[4].split() for match in PIN.finditer(Path(lock).read_text())}


@pytest.mark.parametrize("lock", [LOCK, TEST_LOCK])
def test_every_pin_has_hashes(lock):
    named = re.findall(r"^[a-z0-9].*", Path(lock).read_text(), re.MULTILINE)

    assert len(named) == len(pins(lock)) > 10


@pytest.mark.parametrize("lock", [LOCK, TEST_LOCK])
def test_a_lock_names_no_host(lock):
    assert not re.search(r"https?:|--(extra-)?index-url|--find-links|@ ", Path(lock).read_text())


def test_the_tests_run_on_exactly_what_the_app_runs_on():
    app, tests = pins(LOCK), pins(TEST_LOCK)

    conditions_aside = {(name, version): hashes for (name, version, _), hashes in tests.items()}
    for (name, version, _), hashes in app.items():
        assert conditions_aside.get((name, version)) == hashes, name


def test_everything_that_the_app_needs_is_pinned():
    project = Path(ROOT, "pyproject.toml").read_text()
    needed = project.split("dependencies = [")[1].split("]")[0]
    names = {line.split('"')[1].split(">")[0] for line in needed.splitlines() if '"' in line}

    assert names
    assert names <= {name for name, _, _ in pins(LOCK)}
