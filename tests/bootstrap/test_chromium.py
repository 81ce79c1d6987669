import shutil
import subprocess

import pytest

from soapbench.bootstrap import chromium


@pytest.fixture(autouse=True)
def bare(monkeypatch, tmp_path):
    """A machine without any browser."""
    monkeypatch.delenv(chromium.VARIABLE, raising=False)
    monkeypatch.setattr(chromium, "usual_places", list)
    monkeypatch.setenv("PATH", str(tmp_path))


def put(folder, name):
    """Put a program on the path and return its place."""
    program = folder / name
    program.touch(mode=0o755)
    return str(program)


@pytest.mark.parametrize("name", chromium.NAMES)
def test_a_browser_on_the_path_is_found_under_each_of_its_names(tmp_path, name):
    assert chromium.find() is None

    assert put(tmp_path, name) == chromium.find()


def test_a_browser_in_a_usual_place_is_found(tmp_path, monkeypatch):
    monkeypatch.setattr(chromium, "usual_places", lambda: [str(tmp_path / "missing"), put(tmp_path, "Google Chrome")])

    assert chromium.find() == str(tmp_path / "Google Chrome")


def test_the_one_that_was_chosen_goes_before_all(tmp_path, monkeypatch):
    put(tmp_path, "chromium")
    monkeypatch.setenv(chromium.VARIABLE, put(tmp_path, "mine"))

    assert chromium.find() == str(tmp_path / "mine")


def test_a_chosen_one_that_is_not_there_is_told_by_its_name(monkeypatch):
    monkeypatch.setenv(chromium.VARIABLE, "/nowhere/chrome")

    assert chromium.find() is None
    assert "/nowhere/chrome, and there is no such program" in chromium.why_none()


def test_none_means_none_and_installs_nothing(tmp_path, monkeypatch):
    put(tmp_path, "chromium")
    monkeypatch.setenv(chromium.VARIABLE, "none")
    monkeypatch.setattr(chromium, "can_install", lambda: True)

    assert chromium.find_or_install() is None


def test_where_nothing_may_be_installed_the_way_to_it_is_told(monkeypatch):
    monkeypatch.setattr(chromium, "can_install", lambda: False)

    assert chromium.find_or_install() is None
    assert "sudo apt install chromium" in chromium.why_none()


def test_root_on_debian_gets_it_installed(tmp_path, monkeypatch):
    asked = []

    def install(command, **kwargs):
        asked.append(command[2:])
        if "chromium" in command:
            put(tmp_path, "chromium")
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(chromium, "can_install", lambda: True)
    monkeypatch.setattr(subprocess, "run", install)

    assert chromium.find_or_install() == shutil.which("chromium")
    assert [words[0] for words in asked] == ["update", "install"]


def test_an_install_that_fails_says_why_and_leaves_the_tests_to_be_skipped(monkeypatch, capsys):
    refused = subprocess.CompletedProcess([], 100, "", "E: Unable to locate package chromium\n")
    monkeypatch.setattr(chromium, "can_install", lambda: True)
    monkeypatch.setattr(subprocess, "run", lambda *args, **kwargs: refused)

    assert chromium.find_or_install() is None
    assert "Unable to locate package chromium" in capsys.readouterr().out
