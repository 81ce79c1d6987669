"""What would follow is worked out with the same sums as what follows, and nothing of it is kept."""

import json

import pytest

from soapbench.bench.events import facts_of
from soapbench.bench.ids import new_id
from soapbench.bench.refusal import Refused
from soapbench.bench.what_if import what_if
from tests.bench.sample import PLAIN, START, SWIRLED, Hand, plan_of


def ahead(hand, prompt, **payload):
    """Return what would follow from a change at this prompt."""
    return what_if(
        hand.plan,
        tuple(hand.facts),
        kind="changed",
        prompt=prompt,
        payload=payload,
        happened_at=hand.now,
        person="Ada",
    )


@pytest.fixture
def weighing():
    return Hand(plan_of(PLAIN)).start().until("weigh:fat:olive")


def test_the_effect_is_the_one_that_is_written_down_later(weighing):
    found = ahead(weighing, "weigh:fat:olive", what="amount off", line="fat:olive", mass_g=450)
    weighing.change("amount off", "weigh:fat:olive", line="fat:olive", mass_g=450)

    assert found.effect == weighing.state.changes[-1].effect


def test_before_the_lye_it_says_what_the_planned_alkali_would_leave_and_how_sure_that_is(weighing):
    found = ahead(weighing, "weigh:fat:olive", what="left out", line="fat:coconut")

    assert found.superfat.startswith("With the planned 143.6 g of alkali: Lye-heavy: superfat −")
    assert "between −" in found.superfat


def test_after_the_lye_it_says_the_new_superfat_with_its_interval():
    hand = Hand(plan_of(PLAIN)).start().until("combine")
    found = ahead(hand, "combine", what="lost or spilt", line="fat:olive", mass_g=100)
    hand.change("lost or spilt", "combine", line="fat:olive", mass_g=100)

    assert found.superfat == hand.state.superfat_sentence != ""


def test_weights_still_to_come_are_told_with_both_figures():
    hand = Hand(plan_of(SWIRLED)).start().until("weigh:fat:coconut")
    found = ahead(hand, "weigh:fat:coconut", what="amount off", line="fat:coconut", mass_g=600)
    moved = {each.name: (each.before_g, each.after_g) for each in found.moved}
    hand.change("amount off", "weigh:fat:coconut", line="fat:coconut", mass_g=600)

    assert moved["Rosemary"] == (hand.plan.line("scent:A:rosemary").planned_g, hand.state.targets["scent:A:rosemary"])
    assert "Coconut" not in moved


def test_a_change_that_moves_no_weight_lists_none(weighing):
    found = ahead(weighing, "weigh:fat:olive", what="interrupted", minutes=5)

    assert (found.moved, found.superfat) == ((), "")


def test_what_could_not_be_written_down_is_refused_beforehand(weighing):
    with pytest.raises(Refused, match="Type what is really in"):
        ahead(weighing, "weigh:fat:olive", what="amount off", line="fat:olive")


def test_why_and_what_was_decided_may_come_later(weighing):
    assert ahead(weighing, "weigh:fat:olive", what="other").effect == "Nothing that was weighed changes."


def question(run, **payload):
    event = {"id": str(new_id()), "kind": "changed", "prompt": "materials", "happened_at": START.isoformat()}
    return {"path": f"/bench/{run.pk}/what-if/", "data": json.dumps({**event, "payload": payload})}


def test_a_script_is_answered_with_data_and_nothing_is_stored(maker, begun):
    before = len(facts_of(begun))
    answer = maker.post(
        **question(begun, what="left out", line="fat:coconut"), content_type="application/json"
    )  # fmt: skip

    assert answer.json()["effect"].startswith("Coconut is left out")
    assert len(facts_of(begun)) == before


def test_a_script_is_told_what_is_missing(maker, begun):
    answer = maker.post(**question(begun, what="left out"), content_type="application/json")

    assert answer.status_code == 422
    assert answer.json() == {"sentence": "Say which material or portion is left out.", "field": "line"}


def form(run, **fields):
    event = {"id": str(new_id()), "kind": "changed", "prompt": "materials", "what": "left out"}
    return {"path": f"/bench/{run.pk}/what-if/", "data": {**event, **fields}}


def test_a_plain_form_is_shown_again_with_what_would_follow(maker, begun):
    before = len(facts_of(begun))
    page = maker.post(**form(begun, line="fat:coconut", why_words="none left"))
    panel = page.content.decode().split('id="different"')[1]

    assert page.status_code == 200
    assert "Coconut is left out (300 g planned)." in panel
    assert 'value="none left"' in panel
    assert len(facts_of(begun)) == before


def test_a_plain_form_is_told_what_is_missing(maker, begun):
    page = maker.post(**form(begun))

    assert page.status_code == 422
    assert "Say which material or portion is left out." in page.content.decode()


def test_another_workshop_asks_in_vain(client, begun, stranger):
    client.force_login(stranger)

    assert client.post(**form(begun, line="fat:coconut")).status_code == 404
