"""The loaf at rest: its window, the gel that moves it, the thumb that decides."""

from dataclasses import replace
from datetime import timedelta

import pytest

from soapbench.bars.formula import Additive, Process, Water
from soapbench.bench.plan import from_document, to_document
from soapbench.bench.refusal import Refused
from soapbench.bench.run import fold
from soapbench.bench.screen import run_screen
from soapbench.shelf.facts import MaterialFacts
from tests.bench.asking import submit, words_of
from tests.bench.sample import FACTS, PLAIN, Hand, hand, order, plan_of


def with_process(**changes):
    return replace(PLAIN, process=Process(**changes))


def hours(plan, gel=""):
    window = plan.rest.windows[gel]
    return window.earliest_h, window.latest_h


def since_pour(state, moment):
    return (moment - state.rest.began) / timedelta(hours=1)


def due(played):
    state = played.state
    return since_pour(state, state.due_at)


def test_the_plan_freezes_a_window_for_each_way_the_loaf_may_go():
    plan = plan_of(PLAIN)

    assert (hours(plan), hours(plan, "yes"), hours(plan, "no")) == ((24, 48), (12, 24), (48, 120))


def test_a_loaf_that_is_unlikely_to_gel_gets_the_long_window_from_the_start():
    cool = replace(with_process(mix_low_c=20, mix_high_c=24, insulated=False), water=Water("lye concentration", 0.37))

    assert hours(plan_of(cool)) == (48, 120)


def test_the_oven_gives_the_short_window_from_when_the_loaf_went_in():
    plan = plan_of(with_process(oven=True))

    assert plan.rest.starts == "oven"
    assert hours(plan) == (12, 24)


def test_all_olive_and_weak_lye_take_longer():
    olive = replace(PLAIN, fats=(replace(PLAIN.fats[0], amount=100),))
    weak = replace(PLAIN, water=Water("lye concentration", 0.26))

    assert hours(plan_of(olive), "yes") == (24, 48)
    assert hours(plan_of(weak), "yes") == (24, 48)


def test_a_salt_bar_is_due_within_hours():
    salty = replace(PLAIN, additives=(Additive("salt", 50, "percent of fats"),))
    facts = {**FACTS, "salt": MaterialFacts("salt", "Salt", "addition")}

    assert hours(plan_of(salty, facts=facts)) == (2, 8)


@pytest.mark.parametrize("own", [{"unmould_hours": 36}, {"cut_hours": 36}, {"unmould_hours": 36, "cut_hours": 48}])
def test_the_maker_s_own_hours_win_and_keep_the_width_of_the_window(own):
    plan = plan_of(with_process(**own))

    assert hours(plan) == (36, 60)
    assert "36 h is your own figure" in plan.rest.windows[""].sentence


def test_a_plan_from_before_the_windows_keeps_its_timer():
    document = to_document(plan_of(PLAIN))
    del document["rest"]
    played = Hand(from_document(document)).start().until("rest")
    state = fold(played.plan, played.facts)

    assert state.rest is None
    assert state.due_at == state.done["cover"] + timedelta(hours=24)


def test_gel_seen_brings_the_loaf_forward():
    played = hand().start().until("look")
    assert since_pour(played.state, played.state.rest.earliest) == 24
    played.tap("looked", "look", gel="yes")

    assert played.state.current == "rest"
    assert due(played) == 12


def test_no_gel_in_the_first_three_hours_says_nothing_yet():
    played = hand().start().until("look")
    played.tap("looked", "look", gel="no")
    assert (played.state.rest.gel, due(played)) == ("", 24)

    played.wait(hours=3)
    played.tap("looked", "rest", gel="no")
    assert (played.state.rest.gel, due(played)) == ("no", 48)
    assert played.state.current == "rest"


def test_gel_seen_later_wins_over_none_seen_before():
    played = hand().start().until("rest")
    played.wait(hours=4)
    played.tap("looked", "rest", gel="no")
    played.tap("looked", "rest", gel="yes")

    assert due(played) == 12


def test_a_look_that_was_taken_back_moves_nothing():
    played = hand().start().until("look")
    seen = played.tap("looked", "look", gel="yes")
    played.tap("took-back", event=seen)

    assert (played.state.current, played.state.rest.gel) == ("look", "")


def test_a_loaf_that_dents_is_pressed_again_six_hours_later():
    played = hand().start().until("firm")
    played.tap("firmness-checked", "firm", is_firm=False)
    pressed, state = played.now, played.state

    assert state.current == "firm"
    assert state.due_at == pressed + timedelta(hours=6)
    assert [timer.label for timer in state.timers] == ["Loaf: press again"]

    played.tap("firmness-checked", "firm", is_firm=True)
    assert played.state.current == "unmould"
    assert "firm-again" not in {timer.key for timer in played.state.timers}


def test_a_loaf_that_crumbles_is_not_firmer_by_waiting_and_must_be_tested():
    played = hand().start().until("firm")
    played.tap("firmness-checked", "firm", is_firm=False, crumbles=True)

    assert (played.state.current, played.state.needs_test) == ("unmould", True)


def test_a_loaf_that_is_both_firm_and_crumbles_is_refused(bench):
    bench.play(Hand(bench.run.plan).start().until("firm").facts)

    with pytest.raises(Refused, match="Choose one of the two"):
        bench.tap("firmness-checked", "firm", is_firm=True, crumbles=True)


def test_nothing_is_pressed_before_it_is_poured(bench):
    bench.play(Hand(bench.run.plan).start().until("trace").facts)

    with pytest.raises(Refused, match="Not poured yet"):
        bench.tap("firmness-checked", "firm", is_firm=True)
    with pytest.raises(Refused, match="Not poured yet"):
        bench.tap("looked", "look", gel="yes")


def test_the_run_keeps_when_its_loaf_is_best_cut_while_it_rests(bench):
    played = Hand(bench.run.plan).start().until("rest")
    bench.play(played.facts)
    bench.run.refresh_from_db()
    assert bench.run.due_until - bench.run.due_at == timedelta(hours=24)

    bench.tap("done", "rest")
    bench.tap("firmness-checked", "firm", is_firm=True)
    bench.tap("done", "unmould")
    bench.tap("cut", "cut", bars=10, mass_g=1200, offcuts_g=40)
    bench.run.refresh_from_db()
    assert bench.run.due_until is None


def test_without_a_script_the_thumb_is_asked_and_a_dent_says_when_to_press_again(maker, bench):
    bench.play(Hand(bench.run.plan).start().until("firm").facts)
    submit(maker, bench.run, "firmness-checked", "firm", is_firm="false")
    page = words_of(maker.get(f"/bench/{bench.run.pk}/"))

    assert "It dented. Press again from" in page
    assert bench.run.events.last().payload == {"is_firm": False, "note": "", "crumbles": False}


def test_the_page_asks_for_gel_until_it_was_seen(maker, bench):
    bench.play(Hand(bench.run.plan).start().until("rest").facts)
    page = maker.get(f"/bench/{bench.run.pk}/").content.decode()
    assert "Dark, wet centre or a ring by now?" in page and "data-rest-ask hidden" not in page

    submit(maker, bench.run, "looked", "rest", gel="yes")
    assert "data-rest-ask hidden" in maker.get(f"/bench/{bench.run.pk}/").content.decode()


def test_a_plan_can_be_made_where_the_sums_of_gel_do_not_reach():
    thin = order(replace(PLAIN, water=Water("lye concentration", 0.49)))

    assert plan_of(thin.formula).rest is not None


def test_every_kind_of_prompt_at_the_loaf_has_its_own_screen():
    played = hand().start().until("look")
    kinds = {screen.prompt.kind: screen.template for screen in run_screen(played.plan, played.state).prompts}

    assert kinds["look"] == "bench/prompts/look.html"
    assert kinds["firmness"] == "bench/prompts/firmness.html"
