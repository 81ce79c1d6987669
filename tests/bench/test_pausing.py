"""Called away from the bench and back: what the log keeps, what the card says, what it asks."""

from datetime import timedelta

import pytest

from soapbench.bench.cooled import looked_up
from soapbench.bench.models import Run
from soapbench.bench.pause_screen import pause_screen
from soapbench.bench.pausing import checks, is_no_pause
from tests.bench.asking import submit, words_of
from tests.bench.sample import PLAIN, SWIRLED, hand


def held(key, formula=PLAIN):
    played = hand(formula).start().until(key)
    played.tap("paused", key)
    return played


def asked(played, minutes):
    state = played.state
    since = state.paused_since
    return checks(played.plan, state, since, since + timedelta(minutes=minutes))


def test_a_pause_lasts_until_the_maker_is_back():
    played = held("weigh:fat:palm")
    since = played.now
    played.wait(minutes=11)
    played.tap("resumed", "weigh:fat:palm", checked="it is in")

    (pause,) = played.state.pauses
    assert (pause.since, pause.minutes, pause.prompt, pause.checked) == (since, 12, "weigh:fat:palm", "it is in")
    assert played.state.paused_since is None


def test_a_pause_ends_with_the_next_thing_done():
    played = held("weigh:fat:palm")
    played.weigh("fat:palm")

    assert played.state.paused_since is None
    assert played.state.pauses[0].until == played.now


@pytest.mark.parametrize(("kind", "payload"), [("noted", {"text": "the door"}), ("rinsed", {"is_running": True})])
def test_a_remark_or_a_rinse_does_not_end_a_pause(kind, payload):
    played = held("weigh:fat:palm")
    since = played.now
    played.tap(kind, **payload)

    assert played.state.paused_since == since


def test_a_second_hold_on_does_not_shorten_the_first():
    played = held("weigh:fat:palm")
    since = played.now
    played.tap("paused", "weigh:fat:palm")

    assert played.state.paused_since == since
    assert len(played.state.pauses) == 1


def test_to_be_back_without_having_been_away_changes_nothing():
    played = hand().start()
    played.tap("resumed")

    assert played.state.pauses == ()


def test_a_pause_moves_no_prompt_and_is_not_what_take_back_means():
    played = hand().start().until("weigh:fat:palm")
    before = played.state
    played.tap("paused", "weigh:fat:palm")
    played.tap("resumed", "weigh:fat:palm")

    assert (played.state.current, played.state.last_event) == (before.current, before.last_event)


def test_a_pause_is_no_deviation():
    played = held("weigh:fat:palm")
    played.wait(hours=2)
    played.tap("resumed")

    assert played.state.deviations == 0


def test_a_weighing_asks_whether_it_is_in():
    assert asked(held("weigh:fat:palm"), 1) == ("added",)


def test_the_vessel_tells_whether_it_is_in():
    played = held("weigh:fat:palm")
    found = pause_screen(played.plan, played.state, played.now).in_hand

    assert (found.vessel, found.without, found.with_it, found.has_tare) == ("Pot", "640.0", "940.0", True)


def test_after_five_minutes_fluid_batter_is_stirred_and_judged_again():
    played = held("split:B", SWIRLED)

    assert asked(played, 4) == ("pour",)
    assert asked(played, 5) == ("pour", "stir")


def test_no_trace_is_judged_again_before_it_was_judged_once():
    assert asked(held("trace", SWIRLED), 30) == ("pour",)


def test_standing_lye_asks_for_readings():
    assert asked(held("weigh:scent:A:rosemary", SWIRLED), 1) == ("read", "added")


@pytest.mark.parametrize("key", ["alkali-into-water", "combine"])
def test_what_cannot_be_left_half_done_is_finished_first(key):
    assert asked(held(key), 1)[0] == "finish"


def test_a_loaf_at_rest_asks_nothing():
    assert asked(held("rest"), 600) == ()


def test_from_the_lye_in_the_fats_to_the_last_pour_there_is_no_place_to_stop():
    plan = hand(SWIRLED).plan
    keys = [prompt.key for prompt in plan.prompts if is_no_pause(plan, prompt)]

    assert keys[:3] == ["alkali-into-water", "combine", "trace"]
    assert {"split:B", "pour:1", "draw"} < set(keys)
    assert not {"cool", "pot-check", "cover", "weigh:water"} & set(keys)


def test_the_pots_are_told_as_they_should_read_by_now():
    played = hand().start().until("cool")
    played.tap("read", "cool", pot="lye", temp_c=62)
    played.tap("paused", "cool")
    played.wait(minutes=20)
    lye, fats = pause_screen(played.plan, played.state, played.now).pots

    assert 25 < float(lye.now_c) < 62
    assert lye.last == "62 °C"
    assert fats.now_c == ""


def test_once_lye_and_fats_are_together_the_age_of_the_batter_is_told_instead():
    played = held("trace")
    played.wait(minutes=10)
    told = pause_screen(played.plan, played.state, played.now)

    assert [pot.now_c for pot in told.pots] == ["", ""]
    assert told.batter == "11 min"


def test_a_curve_is_read_straight_between_its_rows():
    curve = ((2.0, 80.0), (4.0, 70.0), (10.0, 40.0))

    assert [looked_up(curve, minutes) for minutes in (0, 2, 3, 7, 10, 500)] == [80, 80, 75, 55, 40, 40]


def test_without_a_script_hold_on_opens_the_card_and_go_on_closes_it(maker, weighing):
    submit(maker, weighing.run, "paused", "weigh:water")
    card = maker.get(f"/bench/{weighing.run.pk}/")
    assert 'id="hold-on" role="dialog" data-opened="manual"' in card.content.decode()
    assert "Is it in already?" in words_of(card)

    submit(maker, weighing.run, "resumed", "weigh:water", checked="it is not in")
    page = maker.get(f"/bench/{weighing.run.pk}/").content.decode()
    assert 'id="hold-on" role="dialog" popover="manual"' in page
    assert weighing.run.events.last().payload == {"checked": "it is not in"}


def test_a_closed_batch_takes_no_pause_but_a_rinse(bench):
    bench.tap("started", cautions_read=True)
    bench.tap("stopped", reason="spilt", made_safe="wiped up")

    bench.tap("rinsed", is_running=True, where="eye")
    assert Run.objects.get().events.last().kind == "rinsed"
