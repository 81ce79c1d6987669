"""The science is light: what it imports, and what that costs."""

import subprocess
import sys

import pytest

EVERYTHING = "from soapbench.science.sources import everything; everything()"
OWN = {"soapbench", "numpy"}


def python(code):
    """Return what a fresh interpreter prints."""
    return subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout


def test_all_of_the_science_pulls_in_nothing_heavier_than_numpy():
    loaded = python(
        f"import sys; before = set(sys.modules); {EVERYTHING}; "
        "print(*{name.partition('.')[0] for name in set(sys.modules) - before})"
    ).split()

    assert {name for name in loaded if name not in sys.stdlib_module_names and not name.startswith("_")} == OWN


def test_the_package_alone_pulls_in_nothing_at_all():
    loaded = python("import sys; import soapbench.science; print('numpy' in sys.modules, 'django' in sys.modules)")

    assert loaded.split() == ["False", "False"]


@pytest.mark.parametrize(
    "name", ["alkali", "superfat", "profile", "doses", "restricted", "weighing", "remedy", "units"]
)
def test_the_alkali_side_needs_no_numpy(name):
    loaded = python(f"import sys, soapbench.science.{name}; print('numpy' in sys.modules, 'django' in sys.modules)")

    assert loaded.split() == ["False", "False"]


def cost(statement):
    """Return the least of three costs in seconds of the processor: the first run may have to compile."""
    code = f"import time; began = time.process_time(); {statement}; print(time.process_time() - began)"
    return min(float(python(code)) for _ in range(3))


def test_importing_all_of_the_science_costs_little_more_than_numpy_does():
    # As a ratio, so that no slow machine fails it; tests/benchmarks/science_import.py prints the seconds.
    assert cost(EVERYTHING) < 4 * cost("import numpy")
