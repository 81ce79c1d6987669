import subprocess
import sys
from pathlib import Path

import pytest

from soapbench.bootstrap import environment
from soapbench.bootstrap.places import LOCK, TEST_LOCK, python_of


@pytest.fixture
def made(tmp_path) -> str:
    """A folder that looks like an environment with the app's packages in it."""
    folder = str(tmp_path / ".venv")
    python = Path(python_of(folder))
    python.parent.mkdir(parents=True)
    python.symlink_to(sys.executable)
    environment.remember(LOCK, folder)
    return folder


def test_an_environment_with_the_pinned_packages_is_ready(made):
    assert environment.is_ready(LOCK, made)


def test_an_environment_of_the_app_is_not_ready_for_the_tests(made):
    assert not environment.is_ready(TEST_LOCK, made)


def test_an_environment_of_the_tests_is_ready_for_the_app_as_well(made):
    environment.remember(TEST_LOCK, made)

    assert environment.is_ready(LOCK, made)
    assert environment.is_ready(TEST_LOCK, made)


def test_an_environment_is_not_ready_when_the_lock_changed(made):
    Path(environment.stamp_of(LOCK, made)).write_text("django==1.0\n")

    assert not environment.is_ready(LOCK, made)


def test_an_environment_is_not_ready_when_its_python_is_gone(made):
    Path(python_of(made)).unlink()

    assert not environment.is_ready(LOCK, made)


def test_an_environment_is_not_ready_when_its_python_became_another(made, tmp_path):
    other = tmp_path / "python3.99"
    other.touch()
    Path(python_of(made)).unlink()
    Path(python_of(made)).symlink_to(other)

    assert not environment.is_ready(LOCK, made)


def test_a_ready_environment_runs_nothing(made, monkeypatch):
    monkeypatch.setattr(subprocess, "run", lambda *args, **kwargs: pytest.fail("ran something"))

    environment.ensure(with_tests=False, environment=made)
