from importlib import import_module
from inspect import getmembers, isfunction
from pkgutil import resolve_name

import pytest

from soapbench.science.sources import chapters, everything
from tests.science.calls import DRAWN, module_names

MODULES = module_names()
# No formula in them: the checks that raise, the page of sources itself, and words for sentences.
WITHOUT_A_FORMULA = {"errors", "sources", "remedy_answer", "words"}
# Plain arithmetic under the relations that call it, which name its source.
PLUMBING = {"draws", "interpolate", "model", "polynomial", "quantiles", "rows", "student_t"}


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


def test_every_number_of_our_own_choice_says_why():
    own = [one for chapter in chapters() if chapter.key not in DRAWN for one in chapter.constants]

    assert [one.name for one in own if one.source.confidence == "own choice" and not one.why.endswith(".")] == []


def test_no_constant_and_no_relation_stands_on_the_page_twice():
    constants, relations = everything()

    assert len(set(constants)) == len(constants)
    assert len({(relation.name, relation.formula) for relation in relations}) == len(relations)


def test_the_chapters_hold_everything_under_a_title_of_their_own():
    constants, relations = everything()
    found = chapters()

    assert sum(len(chapter.constants) for chapter in found) == len(constants)
    assert sum(len(chapter.relations) for chapter in found) == len(relations)
    assert all(chapter.title and chapter.size for chapter in found)
    assert len({chapter.title for chapter in found}) == len(found)


def test_every_table_has_a_source_and_no_row_longer_than_its_head():
    tables = [table for chapter in chapters() for table in chapter.tables]

    assert len(tables) > 10
    assert all(table.source.title and table.used_in for table in tables)
    assert all(len(row) <= len(table.columns) for table in tables for row in table.rows)


# The geometry of pours, drawings and cuts names its sources once for each module, in its relations.
@pytest.mark.parametrize("name", [name for name in MODULES if name not in WITHOUT_A_FORMULA | DRAWN])
def test_every_public_function_says_its_source(name):
    module = import_module(f"soapbench.science.{name}")

    silent = [
        one
        for one in public_functions(name) - PLUMBING
        if not one.startswith("check_") and "Source:" not in (getattr(module, one).__doc__ or "")
    ]

    assert silent == []
