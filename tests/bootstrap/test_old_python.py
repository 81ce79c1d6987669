import ast
import subprocess
import sys
from pathlib import Path

import pytest

import manage
from soapbench.bootstrap.places import ROOT


@pytest.mark.parametrize("version", [(3, 4, 2), (3, 6, 15), (3, 10, 13), (2, 7, 18)])
def test_a_python_that_is_too_old_gets_one_sentence_with_its_version(version):
    sentence = manage.too_old(version)

    assert f"this is Python {version[0]}.{version[1]}:" in sentence
    assert "install a newer one" in sentence
    assert "\n" not in sentence


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 13, 1), (4, 0, 0)])
def test_a_python_that_is_new_enough_gets_no_sentence(version):
    assert manage.too_old(version) == ""


def test_an_old_python_can_read_the_file_that_refuses_it():
    ast.parse(Path(ROOT, "manage.py").read_text(), feature_version=(3, 4))


def test_an_old_python_ends_with_exit_code_1_and_no_traceback():
    pretend = "import sys; sys.version_info = (3, 8, 1); import manage; sys.exit(manage.main())"

    done = subprocess.run([sys.executable, "-c", pretend], cwd=ROOT, capture_output=True, text=True)

    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "Python 3.8" in done.stderr
