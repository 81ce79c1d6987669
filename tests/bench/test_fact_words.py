"""One event in a few words, as a maker would say it."""

import pytest

from soapbench.bench.fact_words import fact_words
from soapbench.bench.kinds import KINDS
from soapbench.bench.payloads import parse, stored
from soapbench.bench.state import Fact
from tests.bench.asking import GOOD
from tests.bench.sample import START, SWIRLED, plan_of

PLAN = plan_of(SWIRLED)


def words(kind, prompt="", **payload):
    return fact_words(PLAN, Fact("1", 1, kind, prompt, payload, START, START, "Ada", "phone"))


@pytest.mark.parametrize(
    ("kind", "payload", "said"),
    [
        ("weighed", {"line": "fat:olive", "mass_g": 394.0}, "Olive 394 g"),
        ("weighed", {"line": "fat:gone", "mass_g": 394.25}, "fat:gone 394.25 g"),
        ("read", {"pot": "lye", "temp_c": 80.0}, "lye 80 °C"),
        ("read", {"pot": "fats", "temp_c": 38.5}, "fats 38.5 °C"),
        ("split", {"portion": "B", "mass_g": 400.5}, "B 400.5 g"),
        ("changed", {"what": "left out", "line": "scent:B:clove"}, "left out: Clove"),
        ("changed", {"what": "interrupted", "line": ""}, "interrupted"),
        ("attached", {"what": "photo", "words": "the jug"}, "photo: the jug"),
        ("attached", {"what": "voice", "words": ""}, "voice note"),
        ("noted", {"text": "x" * 90}, "x" * 60),
        ("pot-checked", {"mass_g": 994.0}, "pot 994 g"),
        ("trace-seen", {"trace": "thin"}, "thin"),
    ],
)
def test_an_event_is_said_with_its_figures(kind, payload, said):
    assert words(kind, **payload) == said


def test_a_tick_is_said_by_its_item():
    tick = PLAN.prompts[0].ticks[0]

    assert words("ticked", item=tick.key) == tick.text
    assert words("ticked", item="gone") == "gone"


def test_what_was_done_is_said_by_its_prompt():
    assert words("done", "melt") == PLAN.prompt("melt").title


def test_an_event_without_a_prompt_is_said_by_its_kind():
    assert words("started", cautions_read=True) == "started"


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_can_be_said(kind):
    said = words(kind, "melt", **stored(parse(kind, GOOD[kind])))

    assert said and "{" not in said
