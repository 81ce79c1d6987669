import importlib.util
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from soapbench.bootstrap import environment
from soapbench.bootstrap.places import LOCK, TEST_LOCK, python_of
from soapbench.bootstrap.trouble import Trouble


@pytest.fixture
def made(tmp_path) -> Path:
    """A folder that looks like an environment with the app's packages in it."""
    folder = tmp_path / ".venv"
    python = python_of(folder)
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
    environment.stamp_of(LOCK, made).write_text("django==1.0\n")

    assert not environment.is_ready(LOCK, made)


def test_an_environment_is_not_ready_when_its_python_is_gone(made):
    python_of(made).unlink()

    assert not environment.is_ready(LOCK, made)


def test_an_environment_is_not_ready_when_its_python_became_another(made, tmp_path):
    other = tmp_path / "python3.99"
    other.touch()
    python_of(made).unlink()
    python_of(made).symlink_to(other)

    assert not environment.is_ready(LOCK, made)


def test_a_ready_environment_runs_nothing(made, monkeypatch):
    monkeypatch.setattr(subprocess, "run", lambda *args, **kwargs: pytest.fail("ran something"))

    environment.ensure(with_tests=False, environment=made)


def test_a_folder_that_may_not_be_written_to_is_named(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "access", lambda path, mode: False)

    with pytest.raises(Trouble, match=re.escape(f"may not write to {tmp_path}")):
        environment.check_machine(tmp_path)


def test_a_python_without_ensurepip_names_the_debian_package(tmp_path, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == "ensurepip" else object())

    with pytest.raises(Trouble, match="sudo apt install python3-venv"):
        environment.check_machine(tmp_path)


def test_what_stands_in_the_way_of_an_environment_is_told_with_its_place(tmp_path):
    in_the_way = tmp_path / ".venv"
    in_the_way.write_text("a file, not a folder")

    with pytest.raises(Trouble, match=re.escape(str(in_the_way))):
        environment.make(in_the_way)
