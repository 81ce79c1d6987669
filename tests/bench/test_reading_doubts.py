"""The question about a temperature that the phone is tested with is the one that the server asks, before it is kept."""

import json

from soapbench.bench.events import state_of
from tests.bench.asking import send, submit, words_of
from tests.bench.reading_doubts import PATH, document
from tests.bench.sample import Hand


def cooling(bench):
    played = Hand(bench.run.plan).start().until("cool")
    bench.play(played.facts)
    return bench.run


def test_the_cases_on_disk_are_those_of_today():
    assert json.loads(PATH.read_text()) == json.loads(json.dumps(document()))


def test_some_cases_ask_and_some_do_not():
    assert {bool(case["expect"]) for case in document()} == {True, False}


def test_a_plain_page_asks_before_a_doubtful_reading_is_kept(maker, bench):
    run = cooling(bench)
    asked = submit(maker, run, "read", "cool", pot="lye", temp_c="95")

    assert asked.status_code == 422
    assert "95 °C is hotter than 80 °C before" in words_of(asked)
    assert state_of(run).readings[-1].temp_c == 80
    assert 'name="doubts_answered" value="reading"' in asked.content.decode()


def test_it_is_kept_when_it_comes_once_more_with_the_answer(maker, bench):
    run = cooling(bench)

    assert submit(maker, run, "read", "cool", pot="lye", temp_c="95", doubts_answered="reading").status_code == 302
    assert state_of(run).readings[-1].temp_c == 95


def test_a_reading_that_can_be_is_kept_at_once(maker, bench):
    run = cooling(bench)

    assert submit(maker, run, "read", "cool", pot="lye", temp_c="71,5").status_code == 302
    assert state_of(run).readings[-1].temp_c == 71.5


def test_a_script_gets_the_picture_as_data(maker, bench):
    run = cooling(bench)
    answer = send(maker, run, "read", {"pot": "fats", "temp_c": 45}, prompt="cool").json()["state"]

    assert {curve["pot"] for curve in answer["cooling"]["picture"]["curves"]} == {"lye", "fats"}
    assert {timer["key"] for timer in answer["timers"]} == {"lye-cooling", "window-closes"}
    assert answer["cooling"]["mixing"]["sentence"].startswith("Lye 80, fats 45: together about")
