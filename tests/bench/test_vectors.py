"""The server's fold gives what the phone's must give: the same files are read by both."""

import json

import pytest

from tests.bench.vector_cases import CASES
from tests.bench.vectors import FOLDER, expected_of, path_of, vector


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.json")), ids=lambda path: path.stem)
def test_the_fold_gives_what_the_vector_expects(path):
    document = json.loads(path.read_text())

    assert json.loads(json.dumps(expected_of(document))) == document["expect"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.__name__)
def test_the_vectors_on_disk_are_those_of_today_s_plan(case):
    assert json.loads(path_of(case).read_text()) == json.loads(json.dumps(vector(case)))


def test_every_vector_has_its_case():
    assert {path.name for path in FOLDER.glob("*.json")} == {path_of(case).name for case in CASES}
