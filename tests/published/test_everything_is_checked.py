"""No public sum without a check in this folder: a printed value, a reference library or a sum of another kind."""

import ast
from pathlib import Path

from tests.science.calls import DRAWN, WITHOUT_SUMS, public_functions

FILES = sorted(Path(__file__).parent.glob("*.py"))


def called_here():
    """Return the names of all functions that the checks of this folder call or hand on."""
    names = set()
    for file in FILES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                called = [node.func, *node.args]
                names |= {one.attr if isinstance(one, ast.Attribute) else getattr(one, "id", "") for one in called}
    return names


def test_every_public_sum_is_held_against_something_outside():
    places = {name: name.rpartition(".") for name in public_functions()}
    sums = {name for name, (module, _, _) in places.items() if module not in (WITHOUT_SUMS | DRAWN) - {"arithmetic"}}

    assert {name for name in sums if places[name][2] not in called_here()} == set()


def test_every_check_of_this_folder_names_its_source():
    silent = []
    for file in FILES:
        lines = file.read_text(encoding="utf-8").splitlines()
        comments = sum(line.startswith("#") for line in lines) + lines[0].startswith('"""')
        if file.name.startswith("test_") and not comments:
            silent.append(file.name)

    assert silent == []
