"""One sensible call of every public function of the science, as data that a test can spoil piece by piece."""

from collections.abc import Callable
from importlib import import_module
from inspect import getmembers, isfunction
from pkgutil import walk_packages
from typing import Any

import soapbench.science
from tests.science import calls_first, calls_pattern, calls_second
from tests.science.ingredients import Choice, Made

__all__ = ["CALLS", "DRAWN", "WITHOUT_SUMS", "Choice", "Made", "module_names", "public_functions"]

# No sums of the bench: the checks that raise, the page of sources, sentences, and the arithmetic under the sums, the
# fits and the lines of a drawing.
WITHOUT_SUMS = {"arithmetic", "cooling_grid", "errors", "posterior", "pour_bump", "sources", "stroke_shapes", "words"}
# The geometry of pours, drawings and cuts is held against other sums in tests of its own, with every shape it knows.
DRAWN = {
    "late_pour",
    "cut_advice",
    "cut_planes",
    "drawing_fit",
    "landing",
    "pour",
    "pour_bump",
    "stroke_shapes",
    "strokes",
}


def module_names() -> list[str]:
    """Return every module of the science, such as "alkali" and "pattern.draw"."""
    found = walk_packages(soapbench.science.__path__, "soapbench.science.")
    return sorted(module.name.removeprefix("soapbench.science.") for module in found if not module.ispkg)


def public_functions() -> dict[str, Callable[..., Any]]:
    """Return every public function of the science by its dotted name."""
    found: dict[str, Callable[..., Any]] = {}
    for name in module_names():
        module = import_module(f"soapbench.science.{name}")
        for function_name, function in getmembers(module, isfunction):
            if function.__module__ == module.__name__ and not function_name.startswith("_"):
                found[f"{name}.{function_name}"] = function
    return found


CALLS = {**calls_first.CALLS, **calls_second.CALLS, **calls_pattern.CALLS}
