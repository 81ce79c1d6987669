"""What comes from outside is refused with a plain sentence at its field."""

import math

import pytest

from soapbench.bench.kinds import KINDS
from soapbench.bench.payloads import SENTENCES, parse, stored
from soapbench.bench.refusal import Refused

GOOD: dict[str, dict[str, object]] = {
    "started": {"cautions_read": True},
    "ticked": {"item": "goggles"},
    "done": {},
    "scale-checked": {"known_g": 200, "read_g": 200.1},
    "postponed": {"why": "No spatula."},
    "weighed": {"line": "fat:olive", "mass_g": 400},
    "part-weighed": {"line": "fat:olive", "mass_g": 200},
    "remedied": {"code": "C7", "decision": "make it larger"},
    "settled": {"choice": "planned"},
    "read": {"pot": "lye", "temp_c": 40},
    "pot-checked": {"mass_g": 1000},
    "trace-seen": {"trace": "thin"},
    "rest-tested": {"oil_film": False, "thickens_as_it_cools": True},
    "split": {"portion": "B", "mass_g": 300},
    "drawn": {"path": "zigzag", "passes": 4},
    "changed": {"what": "other", "why": "a draught", "decision": "shut the window", "mass_g": 3, "minutes": 2},
    "noted": {"text": "All well."},
    "attached": {"what": "photo", "sha256": "0f" * 32, "media": "image/jpeg", "size": 5},
    "took-back": {"event": "00000000-0000-7000-8000-000000000001"},
    "cut": {"bars": 10, "mass_g": 1200, "offcuts_g": 30},
    "cure-weighed": {"bars": 2, "mass_g": 240},
    "tested": {"method": "pH of a 1 % solution", "value": 9.5, "passed": True},
    "released": {"bars": 10},
    "rejected": {"reason": "lye pockets"},
    "looked": {"gel": "yes"},
    "firmness-checked": {"is_firm": False, "crumbles": True, "note": "at the ends"},
    "paused": {"why": "the door"},
    "resumed": {"checked": "it is in"},
    "rinsed": {"is_running": True, "where": "eye"},
    "taken-in-hand": {"to": "Tobit"},
    "given-back": {},
    "credited": {"event": "00000000-0000-7000-8000-000000000001", "by": "Tobit"},
    "decided": {
        "events": ("00000000-0000-7000-8000-000000000001", "00000000-0000-7000-8000-000000000002"),
        "counts": ("00000000-0000-7000-8000-000000000001",),
    },
    "stopped": {"reason": "no water", "made_safe": "lye diluted and kept"},
}
NUMBERS: dict[str, tuple[object, ...]] = {
    "known_g": (-1, 100_001, math.nan, "x", None),
    "read_g": (-1, 100_001, math.nan, "x", None),
    "mass_g": (-0.1, 100_001, 1e300, math.nan, math.inf, "12", "twelve", [], None, True),
    "temp_c": (-31, 151, math.nan, "40", {}, None),
    "bars": (-1, 10_001, 1.5, "ten", None),
    "passes": (-1, 501, 2.5, "x", None),
    "value": (-1, 101, math.inf, "9", None),
    "offcuts_g": (-1, 1e9, "x"),
    "minutes": (-1, 1e9, "x"),
}
# Optional masses of a change may be left empty.
FREE = {("changed", "mass_g"), ("changed", "minutes")}
BAD_NUMBERS = [
    (kind, field, value)
    for kind, payload in GOOD.items()
    for field in payload
    for value in NUMBERS.get(field, ())
    if not (value is None and (kind, field) in FREE)
]
REQUIRED = [(kind, field) for kind, payload in GOOD.items() for field in payload if (kind, field) not in (
    ("drawn", "passes"), ("cut", "offcuts_g"), ("changed", "mass_g"), ("changed", "minutes"),
    ("paused", "why"), ("resumed", "checked"), ("rinsed", "where"), ("stopped", "made_safe"),
    ("taken-in-hand", "to"), ("firmness-checked", "crumbles"), ("firmness-checked", "note"))]  # fmt: skip
BAD_TEXTS = [
    ("attached", "sha256", "0F" * 32),
    ("attached", "media", "text/html"),
    ("attached", "size", 0),
    ("noted", "text", ""),
    ("noted", "text", "x" * 2001),
    ("noted", "text", 5),
    ("noted", "text", "a\x00b"),
    ("noted", "text", "a\ud800b"),
    ("stopped", "made_safe", "x" * 2001),
    ("stopped", "reason", "   "),
    ("looked", "gel", "perhaps"),
    ("firmness-checked", "is_firm", "yes"),
    ("stopped", "lye", "under the sink"),
    ("ticked", "item", ""),
    ("weighed", "line", "x" * 121),
    ("split", "portion", "AB"),
    ("split", "portion", ""),
    ("settled", "choice", "neither"),
    ("read", "pot", "kettle"),
    ("trace-seen", "trace", "thickish"),
    ("changed", "what", "magic"),
    ("tested", "method", "tongue"),
    ("tested", "passed", "yes"),
    ("took-back", "event", "1"),
    ("started", "cautions_read", False),
]


def test_there_is_a_good_example_of_every_kind():
    assert set(GOOD) == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_a_good_payload_is_read_and_kept(kind):
    kept = stored(parse(kind, GOOD[kind]))

    assert GOOD[kind].items() <= kept.items()
    assert stored(parse(kind, kept)) == kept


@pytest.mark.parametrize(("kind", "field", "value"), BAD_NUMBERS)
def test_a_bad_number_is_refused_at_its_field(kind, field, value):
    with pytest.raises(Refused) as refusal:
        parse(kind, {**GOOD[kind], field: value})

    assert refusal.value.field == field
    assert refusal.value.sentence == SENTENCES[field]


@pytest.mark.parametrize(("kind", "field"), REQUIRED)
def test_a_missing_field_is_refused_by_its_name(kind, field):
    payload = {name: value for name, value in GOOD[kind].items() if name != field}

    with pytest.raises(Refused) as refusal:
        parse(kind, payload)
    assert (refusal.value.field, refusal.value.sentence) == (field, SENTENCES[field])


@pytest.mark.parametrize(("kind", "field", "value"), BAD_TEXTS)
def test_a_bad_text_is_refused_at_its_field(kind, field, value):
    with pytest.raises(Refused) as refusal:
        parse(kind, {**GOOD[kind], field: value})

    assert refusal.value.field == field


@pytest.mark.parametrize("kind", ["", "pour", "Weighed", None, 7, []])
def test_an_unknown_kind_is_refused(kind):
    with pytest.raises(Refused, match="does not know"):
        parse(kind, {})


@pytest.mark.parametrize("payload", [None, [], "x", 5])
def test_a_payload_that_is_no_object_is_refused(payload):
    with pytest.raises(Refused, match="could not be read"):
        parse("done", payload)


def test_a_field_that_does_not_belong_is_refused():
    with pytest.raises(Refused, match="does not belong") as refusal:
        parse("done", {"mass_g": 4})

    assert refusal.value.field == "mass_g"


def test_every_field_of_every_kind_has_its_sentence():
    fields = {field for kind in KINDS.values() for field in kind.__dataclass_fields__}

    assert fields == set(SENTENCES)
    assert all(sentence.endswith(".") for sentence in SENTENCES.values())
