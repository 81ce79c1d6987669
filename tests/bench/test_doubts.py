"""The questions on a typed weight that the phone is tested with are those that the server asks."""

import json

from soapbench.science import doubts
from tests.bench import pot_gaps
from tests.bench.doubts import PATH, document


def test_the_cases_on_disk_are_those_of_today():
    assert json.loads(PATH.read_text()) == json.loads(json.dumps(document()))


def test_the_readings_of_the_pot_on_disk_are_those_of_today():
    assert json.loads(pot_gaps.PATH.read_text()) == json.loads(json.dumps(pot_gaps.document()))


def test_every_question_is_asked_by_some_case():
    asked = {doubt["code"] for case in document() for doubt in case["expect"]}

    assert asked == {code for code, _ in doubts._TESTS} | {"far"}


def test_some_weights_raise_no_question():
    assert sum(not case["expect"] for case in document()) > 5
