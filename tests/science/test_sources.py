import subprocess
import sys
from importlib import import_module
from inspect import getmembers, isfunction
from pkgutil import iter_modules, resolve_name

import pytest

import soapbench.science
from soapbench.science.sources import everything

MODULES = sorted(module.name for module in iter_modules(soapbench.science.__path__))
# No formula in them: the checks that raise, the page of sources itself, and words for sentences.
WITHOUT_A_FORMULA = {"errors", "sources", "remedy_answer"}
# Plain arithmetic under the relations that call it, which name its source.
PLUMBING = {"draws", "interpolate", "model", "polynomial", "quantiles", "student_t"}


def public_functions(name):
    module = import_module(f"soapbench.science.{name}")
    own = (function for _, function in getmembers(module, isfunction) if function.__module__ == module.__name__)
    return {function.__name__ for function in own if not function.__name__.startswith("_")}


def test_every_constant_says_where_it_comes_from():
    constants, _ = everything()

    assert len(constants) > 40
    assert all(constant.source.title and constant.name and constant.used_in for constant in constants)


def test_every_relation_names_a_function_that_exists():
    for relation in everything()[1]:
        assert resolve_name(relation.function) is not None


@pytest.mark.parametrize("name", [name for name in MODULES if name not in WITHOUT_A_FORMULA])
def test_every_public_function_is_on_the_page_of_sources(name):
    shown = {relation.function for relation in everything()[1]}

    missing = {one for one in public_functions(name) if f"soapbench.science.{name}.{one}" not in shown}

    assert not {one for one in missing - PLUMBING if not one.startswith("check_")}


@pytest.mark.parametrize("name", ["alkali", "superfat", "profile", "doses", "restricted", "weighing", "remedy"])
def test_the_alkali_side_needs_no_numpy(name):
    code = f"import sys, soapbench.science.{name}; sys.exit('numpy' in sys.modules or 'django' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
