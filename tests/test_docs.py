"""The documents name what there is, and what they tell to type can be typed."""

import re
import shlex
from pathlib import Path

import pytest
from django.core.management import get_commands

from soapbench.bench.kinds import KINDS
from soapbench.bootstrap import manual
from soapbench.bootstrap.places import ROOT

README = Path(ROOT, "README.md").read_text()
DEVELOPERS = Path(ROOT, "DEVELOPERS.md").read_text()


def settings_read():
    """Return the name of every variable that the code reads."""
    settings = Path(ROOT, "soapbench", "settings.py").read_text()
    names = {f"SOAPBENCH_{name}" for name in re.findall(r'\benv\.\w+\(\s*"([A-Z_]+)"', settings)}
    code = [*Path(ROOT, "soapbench").rglob("*.py"), *Path(ROOT, "tests").rglob("conftest.py"), Path(ROOT, ".ci", "run")]
    return sorted(names.union(*(re.findall(r"\bSOAPBENCH_[A-Z_]+[A-Z]", path.read_text()) for path in code)))


def own_commands():
    """Return the name of every management command of ours."""
    return sorted(name for name, app in get_commands().items() if app.startswith("soapbench."))


def command_lines(text):
    """Return what follows manage.py in every line of a shell block."""
    blocks = re.findall(r"```sh\n(.*?)```", text, re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines() if line.startswith("python3 manage.py ")]
    return [shlex.split(line, comments=True)[2:] for line in lines]


@pytest.mark.parametrize("name", settings_read())
def test_every_setting_is_described(name):
    assert f"`{name}`" in DEVELOPERS


@pytest.mark.parametrize("name", own_commands())
def test_every_command_is_described(name):
    assert f"| `{name}` |" in DEVELOPERS


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_event_is_described(kind):
    assert f"| `{kind}` |" in DEVELOPERS


def test_no_setting_is_described_that_nothing_reads():
    described = set(re.findall(r"^\| `(SOAPBENCH_[A-Z_]+)`", DEVELOPERS, re.MULTILINE))

    assert described == set(settings_read())


@pytest.mark.parametrize("words", command_lines(README) + command_lines(DEVELOPERS), ids=" ".join)
def test_every_command_line_is_understood(words):
    name, *options = words

    assert name in get_commands()
    if name in ("serve", "gate"):
        assert manual.PARSERS[name]().parse_known_args(options)[1] == []


def test_the_readme_starts_with_the_job_and_then_the_two_commands():
    job, start, tests = README.index("carries a batch"), README.index("manage.py serve"), README.index("manage.py test")

    assert job < start < tests
    assert "\n## " not in README[:tests]


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_every_file_that_is_linked_is_there(text):
    for link in re.findall(r"\]\((?!https?:|#)([^)#]+)", text):
        assert Path(ROOT, link).exists(), link
