import subprocess
import sys

import pytest

from soapbench.bootstrap import manual
from soapbench.bootstrap.places import ROOT

OWN = ["serve", "test", "gate"]


def without_packages(*words):
    """Run manage.py as on a bare machine: nothing but the standard library can be imported."""
    return subprocess.run(
        [sys.executable, "-E", "-s", "-S", "manage.py", *words], cwd=ROOT, capture_output=True, text=True
    )


@pytest.mark.parametrize("name", OWN)
def test_the_manual_can_be_read_before_anything_is_installed(name):
    done = without_packages(name, "--help")

    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(f"usage: python3 manage.py {name}")


@pytest.mark.parametrize("name", OWN)
@pytest.mark.parametrize("part", ["examples:", "files:", "environment variables:", "exit codes:"])
def test_a_manual_has_every_part(name, part):
    assert f"\n{part}\n" in manual.page(["help", name])


@pytest.mark.parametrize("words", [[], ["help"], ["--help"]])
def test_without_a_command_the_overview_names_each_of_ours(words):
    page = manual.page(words)

    assert all(f"manage.py {name} " in page for name in OWN)


def test_the_help_of_another_command_is_left_to_django():
    assert manual.page(["migrate", "--help"]) is None


@pytest.mark.parametrize("name", OWN)
def test_every_example_is_understood(name):
    parser = manual.PARSERS[name]()
    page = manual.page([name])
    examples = page.split("examples:\n")[1].split("\n\n")[0].splitlines()

    for example in examples:
        words = example.split(f"manage.py {name}")[1].split("   ")[0].split()
        _, unknown = parser.parse_known_args(words)
        assert name == "test" or not unknown
