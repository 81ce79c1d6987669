"""What a script sends: taken once, or refused in a plain sentence with its field; never an error page."""

import json
import uuid
from dataclasses import MISSING, fields

import pytest
from django.utils import timezone

from soapbench.bench.events import state_of
from soapbench.bench.forms import MOST_BYTES, NUMBERS, WHOLE_NUMBERS
from soapbench.bench.ids import new_id
from soapbench.bench.kinds import KINDS
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from soapbench.workshop.models import Person
from tests.bench.asking import GOOD, envelope, post, send
from tests.bench.conftest import Bench
from tests.bench.sample import Hand

EVERY_KIND = pytest.mark.parametrize("kind", KINDS)


def refusals(client, run, kind, payloads):
    """Send each payload; return {name: field} of what was refused in a sentence, and check that nothing was kept."""
    before = run.events.count()
    found = {}
    for name, payload in payloads.items():
        answer = send(client, run, kind, payload)
        assert answer.status_code == 422, (name, answer.content)
        body = answer.json()
        assert body["sentence"].endswith(".") and len(body["sentence"]) > 10
        found[name] = body["field"]
    assert run.events.count() == before
    return found


def needed(kind):
    return [field.name for field in fields(KINDS[kind]) if field.default is MISSING]


def numbers(kind):
    return [field.name for field in fields(KINDS[kind]) if field.name in (*NUMBERS, *WHOLE_NUMBERS)]


@EVERY_KIND
def test_a_part_that_is_missing_is_named(maker, begun, kind):
    payloads = {name: {key: value for key, value in GOOD[kind].items() if key != name} for name in needed(kind)}

    assert refusals(maker, begun, kind, payloads) == {name: name for name in payloads}


@EVERY_KIND
@pytest.mark.parametrize("wrong", [{"a": 1}, [[]], 1.5e300], ids=["object", "list", "huge number"])
def test_a_part_of_the_wrong_type_is_named(maker, begun, kind, wrong):
    payloads = {each.name: {**GOOD[kind], each.name: wrong} for each in fields(KINDS[kind])}

    assert refusals(maker, begun, kind, payloads) == {name: name for name in payloads}


@EVERY_KIND
@pytest.mark.parametrize("wrong", [-1000, 10**9, 10**40, "twelve", "12 oz", True], ids=str)
def test_a_number_that_cannot_be_is_named(maker, begun, kind, wrong):
    payloads = {
        name: {**GOOD[kind], name: wrong} for name in numbers(kind) if name != "lot" or not isinstance(wrong, int)
    }

    assert refusals(maker, begun, kind, payloads) == {name: name for name in payloads}


@EVERY_KIND
def test_a_part_that_nobody_knows_is_named(maker, begun, kind):
    assert refusals(maker, begun, kind, {"extra": {**GOOD[kind], "extra": 1}}) == {"extra": "extra"}


@EVERY_KIND
@pytest.mark.parametrize("payload", [None, [], "grams", 5], ids=["nothing", "list", "words", "number"])
def test_a_payload_of_another_shape_is_refused(maker, begun, kind, payload):
    answer = post(maker, begun, json.dumps({**envelope(kind, {}), "payload": payload}))

    assert answer.status_code == 422 and answer.json()["sentence"].endswith(".")
    assert begun.events.count() == 1


@pytest.mark.parametrize("text", ["a\x00b", "\ud800"], ids=["nought byte", "half a letter"])
def test_letters_that_no_database_keeps_are_refused_at_their_field(maker, begun, text):
    answer = send(maker, begun, "noted", {"text": text})

    assert answer.status_code in (400, 422) and answer.json()["sentence"].endswith(".")
    assert begun.events.count() == 1


REPLACED = {"what": "substituted", "why": "none", "decision": "use it", "line": "fat:palm"}
ALIEN = [
    ("ticked", {"item": "tool:flying-carpet"}, "item"),
    ("weighed", {"line": "fat:unicorn", "mass_g": 10}, "line"),
    ("weighed", {"line": "fat:palm", "mass_g": 300, "lot": 10**12}, "lot"),
    ("weighed", {"line": "fat:palm", "mass_g": 300, "lot": -1}, "lot"),
    ("split", {"portion": "Z", "mass_g": 10}, "portion"),
    ("changed", {"what": "left out", "why": "none", "decision": "none", "line": "fat:unicorn"}, "line"),
    ("changed", {"what": "substituted", "why": "none", "decision": "x", "line": "fat:palm"}, "decision"),
    ("changed", {**REPLACED, "material": "gold"}, "material"),
    ("changed", {"what": "left out", "why": "none", "decision": "none", "portion": "Z"}, "portion"),
    ("changed", {"what": "exploded", "why": "none", "decision": "none"}, "what"),
    ("took-back", {"event": str(uuid.uuid4())}, "event"),
    ("took-back", {"event": "short"}, "event"),
    ("trace-seen", {"trace": "solid"}, "trace"),
    ("tested", {"method": "tasting", "value": 1, "passed": True}, "method"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "payload", "field"), ALIEN)
def test_what_this_run_does_not_have_is_named(maker, begun, kind, payload, field):
    assert refusals(maker, begun, kind, {"alien": payload}) == {"alien": field}


def test_a_lot_of_another_material_is_refused(maker, begun):
    other = next(lot.lot for lot in begun.plan.lots if lot.material == "olive")

    assert refusals(maker, begun, "weighed", {"lot": {"line": "fat:palm", "mass_g": 300, "lot": other}}) == {
        "lot": "lot"
    }


@pytest.fixture
def other_run(revision, ada):
    other = start_run(revision, SizeAsked("fats", 500.0), ada)
    Bench(other, ada).tap("started", cautions_read=True)
    return other


def test_an_event_of_another_run_cannot_be_taken_back(maker, begun, other_run):
    theirs = str(send(maker, other_run, "noted", {"text": "theirs"}).json()["accepted"][0])

    assert refusals(maker, begun, "took-back", {"event": {"event": theirs}}) == {"event": "event"}
    assert not state_of(other_run).withdrawn


def test_an_id_that_another_run_has_used_is_refused(maker, begun, other_run):
    known = new_id()
    send(maker, other_run, "noted", {"text": "theirs"}, id=known)
    answer = send(maker, begun, "noted", {"text": "ours"}, id=known)

    assert answer.status_code == 422 and answer.json()["field"] == "id"
    assert begun.events.count() == 1


@pytest.mark.parametrize("prompt", ["weigh:fat:unicorn", "\x00", "x" * 120])
def test_a_step_that_is_not_there_is_refused(maker, begun, prompt):
    answer = send(maker, begun, "done", {}, prompt=prompt)

    assert answer.status_code == 422 and answer.json()["field"] == "prompt"


def test_an_answer_to_another_kind_of_step_is_refused(maker, begun):
    answer = send(maker, begun, "trace-seen", {"trace": "thin"}, prompt="weigh:fat:palm")

    assert answer.status_code == 422 and answer.json()["field"] == "prompt"


ENVELOPES = {
    "no id": {"id": None},
    "bad id": {"id": "seven"},
    "number as id": {"id": 7},
    "no kind": {"kind": None},
    "unknown kind": {"kind": "exploded"},
    "empty kind": {"kind": ""},
    "long kind": {"kind": "k" * 500},
    "number as kind": {"kind": 3},
    "no payload": {"payload": None},
    "number as prompt": {"prompt": 4},
    "long prompt": {"prompt": "p" * 500},
    "no time": {"happened_at": None},
    "time without zone": {"happened_at": timezone.now().replace(tzinfo=None).isoformat()},
    "no moment": {"happened_at": "yesterday"},
    "number as time": {"happened_at": 12},
    "time before the run": {"happened_at": "2001-01-01T00:00:00Z"},
    "time far ahead": {"happened_at": "2999-01-01T00:00:00Z"},
    "no device": {"device": ""},
    "long device": {"device": "d" * 500},
    "words as count": {"have": "all"},
}


@pytest.mark.parametrize("changes", ENVELOPES.values(), ids=ENVELOPES)
def test_an_envelope_that_cannot_be_is_refused_in_a_sentence(maker, begun, changes):
    event = {**envelope("noted", {"text": "a remark"}), **changes}
    answer = post(maker, begun, json.dumps({name: value for name, value in event.items() if value is not None}))

    assert answer.status_code == 422
    assert answer.json()["sentence"].endswith(".") and "field" in answer.json()
    assert begun.events.count() == 1


@pytest.mark.parametrize(
    "body", [" ", "{", "null", "[]", "3", '"words"', '{"id": NaN}', "\x00", b"\xff\xfe", "[" * 5000]
)
def test_what_is_no_event_is_refused_in_a_sentence(maker, begun, body):
    answer = post(maker, begun, body)

    assert answer.status_code in (400, 422)
    assert answer.json()["sentence"].endswith(".")


@pytest.mark.parametrize("size", [MOST_BYTES, 5_000_000], ids=["64 KB", "5 MB"])
def test_too_much_for_one_tap_is_refused_in_a_sentence(maker, begun, size):
    answer = send(maker, begun, "noted", {"text": "x" * size})

    assert (answer.status_code, answer.json()["field"]) == (400, "")
    assert answer.json()["sentence"] == "This is too much for one tap. Nothing was recorded."


@pytest.mark.parametrize("content_type", ["text/plain", "application/xml", "application/octet-stream", ""])
def test_a_body_of_another_type_is_taken_for_no_event(maker, begun, content_type):
    answer = post(maker, begun, json.dumps(envelope("noted", {"text": "a remark"})), content_type)

    assert answer.status_code == 400 and "This form has lost its number." in answer.content.decode()
    assert begun.events.count() == 1


def test_a_good_event_is_answered_with_its_place_and_the_state(maker, begun):
    event = envelope("noted", {"text": "a remark"})
    answer = post(maker, begun, json.dumps(event)).json()

    assert (answer["position"], answer["accepted"]) == (2, [event["id"]])
    assert answer["state"]["current"] == "materials" and answer["remark"] == ""


def test_only_the_facts_that_the_phone_lacks_come_back(maker, begun):
    answer = send(maker, begun, "noted", {"text": "a remark"}, have=1).json()

    assert [fact["position"] for fact in answer["facts"]] == [2]


def test_the_same_id_twice_is_one_event_at_one_place(maker, begun):
    event = json.dumps(envelope("noted", {"text": "a remark"}))
    first, second = post(maker, begun, event).json(), post(maker, begun, event).json()

    assert first["position"] == second["position"] == 2
    assert second["accepted"] == first["accepted"]
    assert begun.events.count() == 2


def test_a_helper_may_tap_too_and_is_named(client, begun, workshop, ada):
    client.force_login(Person.objects.create_user("tobit", password="x", workshop=workshop, first_name="Tobit"))
    send(client, begun, "noted", {"text": "mine"})

    assert [event.person.username for event in begun.events.order_by("position")] == ["ada", "tobit"]


@pytest.mark.parametrize("key", ["melt", "combine", "pour:1", "cut", "release"])
def test_every_good_tap_of_a_run_is_taken_by_the_address(maker, bench, key):
    hand = Hand(bench.run.plan).start().until(key)
    bench.play(hand.facts[:-1])
    last = hand.facts[-1]
    answer = send(maker, bench.run, last.kind, last.payload, prompt=last.prompt)

    assert answer.status_code == 200 and answer.json()["state"]["current"] == key
