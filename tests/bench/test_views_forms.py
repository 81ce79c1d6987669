"""Plain forms, as a page without a script sends them: taken, or shown again with the sentence and what was typed."""

import html
import re
import uuid

import pytest

from soapbench.bench.events import facts_of, state_of
from soapbench.bench.ids import new_id
from soapbench.bench.kinds import KINDS
from tests.bench.asking import GOOD, address, shown_key, submit, words_of
from tests.bench.sample import Hand


@pytest.fixture(scope="module")
def shown_at():
    """At which prompt of the sample each kind's form stands."""
    return {
        "weighed": "weigh:fat:palm",
        "part-weighed": "weigh:fat:palm",
        "remedied": "weigh:alkali:naoh",
        "settled": "settle",
        "read": "read-lye",
        "pot-checked": "pot-check",
        "trace-seen": "trace",
        "split": "split:B",
        "drawn": "draw",
        "cut": "cut",
        "cure-weighed": "cure",
        "tested": "test",
        "released": "release",
        "rejected": "release",
    }


def prompt_of(response):
    """Return the marks of the prompt that the page shows."""
    text = response.content.decode()
    return next(
        part for part in text.split('<section class="prompt')[1:] if re.match(r'[^>]*data-prompt="[^"]+" *>', part)
    )


def field_of(response, name):
    """Return what stands in a field of the prompt that the page shows, for each field of that name."""
    fields = re.findall(rf'<input[^>]*name="{name}"[^>]*>', prompt_of(response))
    values = [re.search(r'value="([^"]*)"', field) for field in fields if 'type="hidden"' not in field]
    return [html.unescape(value.group(1)) for value in values if value]


def test_a_taken_form_leads_back_to_the_run(maker, begun):
    answer = submit(maker, begun, "ticked", "materials", item="material:palm", is_here="true")

    assert (answer.status_code, answer.url) == (302, f"/bench/{begun.pk}/")
    assert state_of(begun).ticked == {"material:palm": True}


def test_the_same_form_twice_is_one_event(maker, begun):
    fields = {"id": new_id(), "kind": "noted", "prompt": "", "text": "a remark"}
    answers = [maker.post(address(begun), fields) for _ in range(2)]

    assert [answer.status_code for answer in answers] == [302, 302]
    assert begun.events.count() == 2


@pytest.mark.parametrize("known", ["", "seven", "0" * 36])
def test_a_form_that_has_lost_its_id_is_refused_and_keeps_what_was_typed(maker, begun, known):
    page = submit(maker, begun, "weighed", "weigh:fat:palm", id=known, line="fat:palm", mass_g="299.5")

    assert page.status_code == 400 and "This form has lost its number." in words_of(page)
    assert "299.5" in field_of(page, "mass_g")


WRONG_NUMBERS = {
    "": "Type the weight in grams",
    "-5": "Type the weight in grams",
    "999999999": "Type the weight in grams",
    "twelve": "“twelve” is not a number",
    "12 oz": "“12 oz” is not a number",
    "nan": "“nan” is not a number",
    "1e999": "“1e999” is not a number",
    "1.2.3": "“1.2.3” is not a number",
    "0": "0 g is nothing",
}


@pytest.mark.parametrize(("text", "sentence"), WRONG_NUMBERS.items())
def test_a_weight_that_cannot_be_is_told_at_its_prompt_and_stays_typed(maker, begun, text, sentence):
    page = submit(maker, begun, "weighed", "weigh:fat:palm", line="fat:palm", mass_g=text)

    assert (page.status_code, shown_key(page)) == (422, "weigh:fat:palm")
    assert sentence in words_of(page) and sentence in html.unescape(prompt_of(page))
    assert field_of(page, "mass_g") == [text]
    assert begun.events.count() == 1


BAD_FORMS = [
    ("pot-checked", {"mass_g": "a lot"}, "mass_g"),
    ("split", {"portion": "B", "mass_g": "-1"}, "mass_g"),
    ("cut", {"bars": "2.5", "mass_g": "1300"}, "bars"),
    ("cut", {"bars": "10", "mass_g": "12 oz"}, "mass_g"),
    ("cut", {"bars": "10", "mass_g": "1300", "offcuts_g": "crumbs"}, "offcuts_g"),
    ("cut", {"bars": "-3", "mass_g": "1300"}, "bars"),
    ("cure-weighed", {"bars": "1e9", "mass_g": "400"}, "bars"),
    ("cure-weighed", {"bars": "3", "mass_g": ""}, "mass_g"),
    ("tested", {"method": "pH of a 1 % solution", "value": "sour", "passed": "true"}, "value"),
    ("tested", {"method": "pH of a 1 % solution", "value": "900", "passed": "true"}, "value"),
    ("released", {"bars": "all"}, "bars"),
    ("released", {"bars": "-1"}, "bars"),
    ("read", {"pot": "lye", "temp_c": "hot"}, "temp_c"),
    ("read", {"pot": "lye", "temp_c": "9000"}, "temp_c"),
]


@pytest.mark.parametrize(("kind", "typed", "field"), BAD_FORMS)
def test_a_form_that_cannot_be_is_shown_again_as_it_was(maker, begun, shown_at, kind, typed, field):
    page = submit(maker, begun, kind, shown_at[kind], **typed)

    assert (page.status_code, shown_key(page)) == (422, shown_at[kind])
    assert page.context["page"].shown.refusal.field == field
    assert page.context["page"].shown.refusal.sentence in html.unescape(prompt_of(page))
    if typed[field]:
        assert typed[field] in field_of(page, field)
    assert begun.events.count() == 1


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    "wrong", ["", "-9", "9" * 400, "\x00", "ж" * 5000], ids=["empty", "negative", "huge", "nought", "long"]
)
def test_whatever_a_form_holds_it_is_taken_or_told(maker, begun, shown_at, kind, wrong):
    fields = dict.fromkeys((*GOOD[kind], "lot", "note", "extra"), wrong)
    page = submit(maker, begun, kind, shown_at.get(kind, "materials"), **fields)

    if page.status_code == 422:
        assert page.context["page"].shown.refusal.sentence in words_of(page)
    assert (page.status_code, begun.events.count()) in ((422, 1), (302, 2))


@pytest.mark.parametrize("kind", ["", "exploded", "x" * 300])
@pytest.mark.parametrize("prompt", ["", "materials", "no-such-step", "\x00"])
def test_a_form_of_no_known_kind_is_told_on_the_page_of_the_run(maker, begun, kind, prompt):
    page = submit(maker, begun, kind, prompt, text="a remark")

    assert page.status_code == 422 and shown_key(page) == "materials"
    assert "This app does not know that kind of entry." in words_of(page)


FOREIGN = [
    ("weighed", "weigh:fat:palm", {"line": "fat:unicorn", "mass_g": "300"}, "That material is not in this batch."),
    ("weighed", "weigh:fat:palm", {"line": "fat:palm", "lot": "999999", "mass_g": "300"}, "That lot is not one of"),
    ("took-back", "materials", {"event": str(uuid.uuid4())}, "That entry is not one of this batch."),
    ("ticked", "materials", {"item": "tool:unicorn", "is_here": "true"}, "That item is not on this list."),
    ("done", "no-such-step", {}, "This batch has no such step."),
]


@pytest.mark.parametrize(("kind", "prompt", "typed", "sentence"), FOREIGN)
def test_what_this_run_does_not_have_is_told(maker, begun, kind, prompt, typed, sentence):
    page = submit(maker, begun, kind, prompt, **typed)

    assert page.status_code == 422 and sentence in words_of(page)
    assert begun.events.count() == 1


def test_a_refused_change_opens_its_panel_with_all_that_was_chosen(maker, begun):
    typed = {"what": "amount off", "line": "fat:olive", "mass_g": "a lot", "why_words": "the jug slipped"}
    page = submit(maker, begun, "changed", "weigh:fat:palm", decision="Keep it and reckon with it", **typed)
    panel = page.content.decode().split('id="different"')[1].split('id="steps"')[0]

    assert "data-opened" in panel.split(">")[0] and "popover" not in panel.split(">")[0]
    assert "“a lot” is not a number" in panel
    assert 'value="a lot"' in panel and 'value="the jug slipped"' in panel
    opened = panel.split('data-change="amount off"')[1].split("</form>")[0]
    assert "hidden" not in opened.split(">")[0]
    assert re.search(r'value="fat:olive" data-name="Olive" data-kind="fat" checked', opened)
    assert re.search(r'value="Keep it and reckon with it" checked', opened)


def test_a_change_in_own_words_wins_over_the_ready_ones(maker, begun):
    words = {"why": "Called away", "why_words": "the bell rang", "decision": "Go on", "decision_words": ""}
    submit(maker, begun, "changed", "materials", what="interrupted", **words)
    change = facts_of(begun)[-1].payload

    assert (change["why"], change["decision"]) == ("the bell rang", "Go on")


@pytest.mark.parametrize(
    ("kind", "panel", "typed"),
    [("noted", "note", {"text": "x" * 2001}), ("stopped", "stop-safe", {"reason_words": "spilt on the floor"})],
)
def test_a_refused_remark_or_stop_opens_its_panel_with_what_was_typed(maker, begun, kind, panel, typed):
    page = submit(maker, begun, kind, "materials", **typed)
    panel = page.content.decode().split(f'id="{panel}"')[1].split('<div class="panel ')[0]

    assert page.status_code == 422 and "data-opened" in panel.split(">")[0]
    assert page.context["page"].shown.refusal.sentence in panel
    assert next(iter(typed.values())) in panel


def test_a_doubtful_weight_is_asked_about_once_and_taken_when_it_comes_again(maker, begun):
    asked = submit(maker, begun, "weighed", "weigh:fat:palm", line="fat:palm", mass_g="30")
    codes = re.findall(r'name="doubts_answered" value="([^"]+)"', prompt_of(asked))

    assert asked.status_code == 422 and codes == ["decimal"]
    assert "Is the decimal mark in its place?" in words_of(asked) and field_of(asked, "mass_g") == ["30"]
    assert begun.events.count() == 1

    answer = submit(maker, begun, "weighed", "weigh:fat:palm", line="fat:palm", mass_g="30", doubts_answered=codes)
    assert answer.status_code == 302
    assert facts_of(begun)[-1].payload["doubts_answered"] == ["decimal"]


def test_an_answer_to_another_question_does_not_answer_this_one(maker, begun):
    fields = {"line": "fat:palm", "mass_g": "30", "doubts_answered": ["tare"]}

    assert submit(maker, begun, "weighed", "weigh:fat:palm", **fields).status_code == 422


def test_a_weight_without_doubt_is_taken_at_once(maker, begun):
    answer = submit(maker, begun, "weighed", "weigh:fat:palm", line="fat:palm", mass_g="300,5", lot="")

    assert answer.status_code == 302 and state_of(begun).weights["fat:palm"].mass_g == 300.5


def test_too_large_a_form_is_refused_in_words(maker, begun):
    page = submit(maker, begun, "noted", "materials", text="x" * 3_000_000)

    assert page.status_code == 400 and "That could not be read" in words_of(page)
    assert begun.events.count() == 1


def test_an_alkali_before_its_time_is_refused_at_its_prompt(maker, begun):
    page = submit(maker, begun, "weighed", "weigh:alkali:naoh", line="alkali:naoh", mass_g="143.6")

    assert page.status_code == 422 and "Nothing caustic yet." in html.unescape(prompt_of(page))
    assert field_of(page, "mass_g") == ["143.6"]


def test_nothing_but_a_remark_is_taken_after_the_end(maker, bench):
    bench.play(Hand(bench.run.plan).start().until("").facts)
    refused = submit(maker, bench.run, "cut", "cut", bars="9", mass_g="1000")

    assert refused.status_code == 422 and "This batch is closed." in words_of(refused)
    assert submit(maker, bench.run, "noted", "", text="sold out").status_code == 302
