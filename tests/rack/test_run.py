"""One batch on the rack: its page, its acts, and what is refused."""

from datetime import timedelta

import pytest
from django.urls import reverse

from soapbench.bench.events import facts_of, state_of
from soapbench.bench.ids import new_id
from tests.bench.sample import START
from tests.rack.played import begin, play, write


def page_of(client, run):
    return client.get(f"/rack/{run.pk}/").content.decode()


def send(client, run, act, **typed):
    """Post one act as its form would; returns the answer."""
    fields = {f"{act}-{name}": value for name, value in {"id": new_id(), **typed}.items()}
    return client.post(f"/rack/{run.pk}/", {"act": act, **fields})


def errors_of(response, act):
    form = next(each.form for each in response.context["page"].acts if each.name == act)
    return {name: " ".join(words) for name, words in form.errors.items()}


@pytest.mark.parametrize("method", ["get", "post"])
def test_a_run_of_another_workshop_is_not_there(client, stranger, resting, method):
    client.force_login(stranger)

    assert getattr(client, method)(f"/rack/{resting.pk}/").status_code == 404
    assert "Doorstep" not in client.get("/rack/").content.decode()


def test_a_run_at_the_bench_offers_nothing_here(as_owner, doorstep, owner):
    run = play(doorstep, owner, "weigh:water")

    page = as_owner.get(f"/rack/{run.pk}/")

    assert "still at the bench" in page.content.decode() and not page.context["page"].acts


def test_an_act_that_nobody_knows_is_not_there(as_owner, resting):
    assert send(as_owner, resting, "fly").status_code == 404


def test_a_loaf_is_left_no_longer_when_it_is_ready(as_owner, resting):
    assert send(as_owner, resting, "done", at="rest").status_code == 302
    assert "rest" in state_of(resting).done


def test_a_soft_loaf_is_pressed_again_six_hours_later(as_owner, resting, clock):
    send(as_owner, resting, "done", at="rest")
    assert send(as_owner, resting, "firmness", found="dents").status_code == 302
    state = state_of(resting)

    assert (state.current, state.due_at) == ("firm", START + timedelta(days=1, hours=6))
    page = as_owner.get(f"/rack/{resting.pk}/").content.decode()
    assert "The loaf" in page and "dents" in page


def test_a_loaf_that_crumbles_goes_on_and_needs_a_passed_test(as_owner, resting):
    send(as_owner, resting, "done", at="rest")
    send(as_owner, resting, "firmness", found="crumbles", note="at the ends")
    state = state_of(resting)

    assert (state.current, state.needs_test) == ("unmould", True)
    page = as_owner.get(f"/rack/{resting.pk}/").content.decode()
    assert "Can be lye-heavy" in page and "The loaf crumbled." in page


def test_how_firm_it_is_has_to_be_chosen(as_owner, resting):
    send(as_owner, resting, "done", at="rest")
    answer = send(as_owner, resting, "firmness")

    assert answer.status_code == 422 and "found" in errors_of(answer, "firmness")


def test_gel_seen_at_rest_moves_the_window(as_owner, resting):
    before = state_of(resting).rest.earliest
    assert send(as_owner, resting, "look", at="rest", gel="yes").status_code == 302

    assert before - state_of(resting).rest.earliest == timedelta(hours=12)
    assert "gel seen" in as_owner.get(f"/rack/{resting.pk}/").content.decode()


def test_a_page_older_than_the_run_answers_its_own_prompt_and_not_the_next(as_owner, resting):
    send(as_owner, resting, "done", at="rest")
    send(as_owner, resting, "done", at="rest")

    assert state_of(resting).current == "firm"


def test_a_step_that_this_batch_does_not_have_is_refused(as_owner, resting):
    answer = send(as_owner, resting, "done", at="fly")

    assert answer.status_code == 422
    assert "no such step" in answer.content.decode()


def test_the_cut_is_written_down(as_owner, doorstep, owner):
    run = play(doorstep, owner, "cut")

    answer = send(as_owner, run, "cut", bars="11", mass_g="1320,5", offcuts_g="")

    run.refresh_from_db()
    assert answer.status_code == 302
    assert (run.bars_made, run.status) == (11, "curing")


def test_a_second_tap_on_the_same_button_counts_once(as_owner, curing):
    same = new_id()
    before = len(facts_of(curing))

    send(as_owner, curing, "weigh", id=same, bars="3", mass_g="360")
    send(as_owner, curing, "weigh", id=same, bars="3", mass_g="360")

    assert len(facts_of(curing)) == before + 1


def test_a_form_from_the_memory_of_the_browser_does_not_swallow_a_new_weighing(as_owner, curing):
    same = new_id()
    send(as_owner, curing, "weigh", id=same, bars="3", mass_g="360")

    answer = send(as_owner, curing, "weigh", id=same, bars="3", mass_g="355")

    form = next(act.form for act in answer.context["page"].acts if act.name == "weigh")
    assert answer.status_code == 422
    assert "was sent before" in answer.content.decode() and 'value="355"' in answer.content.decode()
    assert str(form["id"].value()) != same


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"bars": "", "mass_g": "360"}, "bars", "Write a number here"),
        ({"bars": "2.5", "mass_g": "360"}, "bars", "whole number"),
        ({"bars": "3", "mass_g": "many"}, "mass_g", "“many” is not a plain number"),
        ({"bars": "3", "mass_g": "nan"}, "mass_g", "not a plain number"),
        ({"bars": "3", "mass_g": "-4"}, "mass_g", "Write more than 0"),
        ({"bars": "3", "mass_g": "1e9"}, "mass_g", "is too much"),
        ({"bars": "3", "mass_g": "0"}, "mass_g", "Write more than 0"),
        ({"bars": "-3", "mass_g": "360"}, "bars", "Write 1 or more"),
        ({"bars": "300", "mass_g": "360"}, "bars", "Only 10 bars were cut"),
        ({"bars": "3", "mass_g": "360", "when": "soon"}, "when", "This is not a time"),
        ({"bars": "3", "mass_g": "360", "when": "2031-01-01T10:00"}, "when", "lies ahead"),
        ({"bars": "3", "mass_g": "360", "when": "2019-01-01T10:00"}, "when", "before the batch was begun"),
        ({"bars": "3", "mass_g": "360", "id": "no"}, "id", "has lost its number"),
    ],
)
def test_a_bad_weighing_is_refused_in_words_and_keeps_what_was_typed(as_owner, curing, clock, typed, field, sentence):
    clock.move_to(START + timedelta(days=20))

    answer = send(as_owner, curing, "weigh", **typed)

    assert answer.status_code == 422
    assert sentence in errors_of(answer, "weigh")[field]
    assert f'value="{typed["mass_g"]}"' in answer.content.decode()


def test_a_weighing_can_be_taken_back_and_stays_in_the_log(as_owner, curing):
    weighing = facts_of(curing)[-1]

    send(as_owner, curing, "take-back", event=weighing.id)

    assert len(state_of(curing).cure_weighings) == 2
    assert weighing.id in {fact.id for fact in facts_of(curing)}


def test_taking_back_twice_says_that_it_was_taken_back(as_owner, curing):
    weighing = facts_of(curing)[-1]
    send(as_owner, curing, "take-back", event=weighing.id)

    answer = send(as_owner, curing, "take-back", event=weighing.id)

    assert answer.status_code == 422
    assert "taken back already" in answer.content.decode()


def test_the_drying_curve_and_the_expected_day_are_shown(as_owner, curing):
    page = page_of(as_owner, curing)

    assert '<svg class="chart"' in page and "expected ready" in page and "6.7 %" in page


def test_released_bars_carry_the_name_the_moment_and_the_reason(as_owner, tested):
    send(as_owner, tested, "release", bars="10", note="Hard and mild.")

    assert "Ada Quillfeather released 10 bars on 26 Nov 2026, 08:00. Hard and mild." in page_of(as_owner, tested)


@pytest.mark.parametrize(
    ("bars", "sentence"),
    [("11", "Only 10 bars were cut"), ("", "Write a number"), ("0", "Write 1 or more"), ("-1", "Write 1 or more")],
)
def test_no_more_bars_are_released_than_were_cut_and_no_fewer_than_one(as_owner, tested, bars, sentence):
    answer = send(as_owner, tested, "release", bars=bars)

    assert answer.status_code == 422
    assert sentence in errors_of(answer, "release")["bars"]
    assert state_of(tested).ended is None


def test_bars_that_still_cure_are_not_released(as_owner, curing):
    answer = send(as_owner, curing, "release", bars="10", note="They feel hard.")

    assert answer.status_code == 422
    assert "Close the cure first" in answer.content.decode() and "They feel hard." in answer.content.decode()


@pytest.mark.parametrize(("at", "act", "bars"), [("curing", "weigh", 3), ("tested", "release", 10)])
def test_the_number_of_bars_is_filled_in_already(as_owner, request, at, act, bars):
    page = as_owner.get(f"/rack/{request.getfixturevalue(at).pk}/").context["page"]

    assert next(each.form for each in page.acts if each.name == act)["bars"].value() == str(bars)


def test_closing_the_cure_leads_to_the_test(as_owner, curing):
    send(as_owner, curing, "close")

    assert state_of(curing).current == "test"


def test_rejected_bars_need_a_reason(as_owner, tested):
    answer = send(as_owner, tested, "reject", reason=" ")

    assert "Fill it in" in errors_of(answer, "reject")["reason"]
    assert state_of(tested).ended is None


def test_a_closed_batch_takes_remarks_and_nothing_else(as_owner, tested):
    send(as_owner, tested, "reject", reason="White pockets in two bars.")

    answer = send(as_owner, tested, "release", bars="10")
    assert answer.status_code == 422 and "This batch is closed" in answer.content.decode()
    assert send(as_owner, tested, "note", text="Kept one bar.").status_code == 302


def test_a_lye_heavy_batch_is_not_released_without_a_test(as_owner, heavy):
    answer = send(as_owner, heavy, "release", bars="10")

    assert answer.status_code == 422
    assert "needs a passed test" in answer.content.decode()
    assert "Without a passed test" in page_of(as_owner, heavy)


def test_a_lye_heavy_batch_cannot_skip_its_test(as_owner, heavy):
    assert send(as_owner, heavy, "no-test").status_code == 422
    assert "no-test" not in {act.name for act in as_owner.get(f"/rack/{heavy.pk}/").context["page"].acts}


def test_a_batch_whose_unlucky_end_is_lye_heavy_waits_for_a_test_too(as_owner, doorstep, owner):
    run, hand = begin(doorstep, owner)
    hand.start().until("weigh:alkali:naoh")
    hand.weigh("alkali:naoh", hand.state.targets["alkali:naoh"] * 1.045)
    write(run, hand.until("release"), owner)
    send(as_owner, run, "take-back", event=state_of(run).tests[-1].id)

    superfat = state_of(run).superfat
    answer = send(as_owner, run, "release", bars="10")

    assert superfat.low < 0 < superfat.central
    assert answer.status_code == 422 and "may be lye-heavy" in answer.content.decode()


def test_a_lye_heavy_batch_may_go_after_a_passed_test(as_owner, heavy):
    send(as_owner, heavy, "test", method="titration of free alkali", value="0.02", passed="yes")

    assert send(as_owner, heavy, "release", bars="10").status_code == 302
    assert state_of(heavy).status == "released"


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"value": "", "passed": "yes"}, "value", "Write a number"),
        ({"value": "-1", "passed": "yes"}, "value", "Write 0 or more"),
        ({"value": "15", "passed": "no"}, "value", "between 0 and 14"),
        ({"value": "pink", "passed": "no"}, "value", "not a plain number"),
        ({"value": "9.8", "passed": ""}, "passed", "Fill it in"),
        ({"value": "9.8", "passed": "yes", "method": "tongue"}, "method", "Choose one from the list"),
        ({"value": "9.8", "passed": "yes", "note": "x" * 201}, "note", "200"),
    ],
)
def test_a_bad_test_is_refused_in_words(as_owner, tested, typed, field, sentence):
    answer = send(as_owner, tested, "test", **{"method": "pH of a 1 % solution", **typed})

    assert answer.status_code == 422
    assert sentence in errors_of(answer, "test")[field]
    assert not state_of(tested).tests[1:]


def test_above_ph_eleven_no_bar_passes(as_owner, heavy):
    answer = send(as_owner, heavy, "test", method="pH of a 1 % solution", value="11.2", passed="yes")

    assert "Above pH 11" in errors_of(answer, "test")["passed"]


def test_a_failed_test_keeps_any_batch_from_being_released(as_owner, tested):
    send(as_owner, tested, "test", method="pH of a 1 % solution", value="11.2", passed="no")

    assert send(as_owner, tested, "release", bars="10").status_code == 422
    assert "The last test was not passed: pH 11.2" in page_of(as_owner, tested)


def test_nobody_is_asked_to_test_on_the_tongue(as_owner, heavy):
    page = page_of(as_owner, heavy)

    assert "No bar is ever tested on the tongue" in page
    assert "zap" not in page


def test_the_mass_of_a_bar_is_told_for_the_day_that_is_asked(as_owner, curing):
    def sale(day):
        return as_owner.get(f"/rack/{curing.pk}/", {"sold": day}).context["page"].sale

    early, late = sale("2027-01-10"), sale("2027-06-10")

    assert early.each_g.central > late.each_g.central
    assert late.label_g <= late.each_g.low


@pytest.mark.parametrize(("day", "sentence"), [("soon", "This is not a day"), ("2026-01-01", "before the cut")])
def test_a_day_that_is_none_is_refused_and_the_usual_day_is_told(as_owner, curing, day, sentence):
    page = as_owner.get(f"/rack/{curing.pk}/", {"sold": day})

    assert sentence in page.content.decode() and f'value="{day}"' in page.content.decode()
    assert page.context["page"].sale == as_owner.get(f"/rack/{curing.pk}/").context["page"].sale


def test_a_batch_asks_as_often_however_much_happened_to_it(as_owner, curing, resting, django_assert_num_queries):
    for run in (resting, curing):
        with django_assert_num_queries(6):  # session, person, workshop; run, events, people
            as_owner.get(f"/rack/{run.pk}/")


def drawn_otherwise(bar, owner):
    """Return a run of the four-portion bar that was drawn with the skewer, waiting for its cut."""
    run, hand = begin(bar, owner)
    hand.start().until("draw")
    hand.tap(
        "changed", "draw", what="drawn differently", why="no hanger", decision="so", path="zigzag", tool="skewer",
    )  # fmt: skip
    hand.until("cut")
    return write(run, hand, owner)


def test_the_cut_on_the_rack_follows_what_was_drawn(as_owner, world, owner):
    run = drawn_otherwise(world.bars["ebb-line"], owner)

    page = as_owner.get(reverse("rack:run", args=[run.pk])).content.decode()

    assert run.prompt_title == "Cut the loaf: blocks on their sides"
    assert "not as planned" in page and "mm from the floor" in page
    assert page.count('class="picture"') >= 3


def test_a_loaf_that_rests_says_how_it_will_be_cut(as_owner, world, owner):
    run = play(world.bars["ebb-line"], owner, "rest")

    assert (
        "How it will be cut: Blocks, cut level on their sides"
        in as_owner.get(reverse("rack:run", args=[run.pk])).content.decode()
    )


def test_the_way_of_the_cut_is_written_down(as_owner, world, owner):
    run = drawn_otherwise(world.bars["ebb-line"], owner)
    send(as_owner, run, "cut", bars="8", mass_g="1200", way="blocks on their sides")

    assert run.events.get(kind="cut").payload["way"] == "blocks on their sides"
