import sys

import pytest

from soapbench.bootstrap import gate
from soapbench.bootstrap.gate import Check

GOOD = Check("good", [sys.executable, "-c", ""])
BAD = Check("bad", [sys.executable, "-c", "import sys; sys.exit('line 7 is wrong')"])
LEFT_OUT = Check("left out", skipped="there is no node")


@pytest.fixture
def said():
    return []


def test_a_gate_whose_checks_pass_has_no_failure(said):
    assert gate.run([GOOD, GOOD], keep_going=False, say=said.append).failed == []
    assert len(said) == 2


def test_the_first_failure_stops_the_gate_and_shows_what_was_said(said):
    outcome = gate.run([BAD, GOOD], keep_going=False, say=said.append)

    assert outcome.failed == ["bad"]
    assert said[-1] == "line 7 is wrong"
    assert not any("good" in line for line in said)


def test_a_gate_that_keeps_going_tells_every_failure(said):
    assert gate.run([BAD, GOOD, BAD], keep_going=True, say=said.append).failed == ["bad", "bad"]


def test_a_check_that_cannot_run_is_skipped_and_kept_to_be_told(said):
    outcome = gate.run([LEFT_OUT, GOOD], keep_going=False, say=said.append)

    assert outcome.skipped == [LEFT_OUT]
    assert outcome.failed == []


def test_without_node_the_checks_of_scripts_say_what_to_install(monkeypatch):
    monkeypatch.setenv("PATH", "")

    assert [check.name for check in gate.scripts() if "install Node.js" in check.skipped] == [
        "script tests",
        "script types",
    ]


def test_the_tests_come_last():
    found = gate.checks(with_tests=True)

    assert found[-1].name == "tests"
    assert "tests" not in [check.name for check in gate.checks(with_tests=False)]
