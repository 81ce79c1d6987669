"""What changes, timers, readings and people of a run come to in its state."""

from dataclasses import replace
from datetime import timedelta

import pytest

from tests.bench.sample import START, SWIRLED, at, change, hand


def test_what_was_spilt_is_weighed_again_while_it_can_be():
    played = at("weigh:water")
    change(played, "lost or spilt", line="fat:palm")

    state = played.state
    assert state.current == "weigh:fat:palm"
    assert state.changes[-1].effect.startswith("It is not known how much Palm is left. Weigh it anew.")


def test_a_known_loss_is_taken_off():
    played = at("weigh:water")
    change(played, "lost or spilt", line="fat:palm", mass_g=40)

    assert played.state.weights["fat:palm"].mass_g == 260
    assert played.state.settlement.is_needed


def test_spilt_lye_of_unknown_mass_leaves_nothing_known_of_the_alkali():
    played = at("cool")
    change(played, "lost or spilt", line="alkali:naoh")

    state = played.state
    assert state.superfat is None
    assert state.needs_test
    assert "Nobody knows how much alkali" in state.superfat_sentence
    assert state.remedies[0].title == "Make the lye again"


def test_a_scent_left_out_skips_the_prompt_that_stirs_it_in():
    played = at("weigh:scent:B:clove", SWIRLED)
    change(played, "left out", line="scent:B:clove")

    assert played.until("pour:1").state.skipped["add:scent:B:clove"] == "Clove is left out."


def test_a_drawing_made_differently_is_the_drawing():
    played = at("draw", SWIRLED)
    played.tap("changed", "draw", what="drawn differently", why="no skewer", decision="spoon", path="spiral", tool="sp")

    state = played.state
    assert (state.drawing["path"], state.drawing["tool"]) == ("spiral", "sp")
    assert "draw" in state.done
    assert state.changes[-1].effect.startswith("Drawn: spiral; planned: zigzag.")


@pytest.mark.parametrize(
    ("what", "more", "words"),
    [
        ("temperature off", {"temp_c": 50}, "7 °C above the window"),
        ("temperature off", {"temp_c": 30}, "2 °C below the window"),
        ("temperature off", {"temp_c": 38}, "inside the window"),
        ("thickened early", {"portion": "B"}, "Pour B, A, in this order. Stir B by hand only"),
        ("thickened early", {}, "The batter goes into the mould next"),
        ("interrupted", {"minutes": 12}, "Stir the batter and judge its trace again"),
        ("lost or spilt", {"mass_g": 120}, "120 g of batter are lost"),
        ("lost or spilt", {}, "Some batter is lost"),
        ("left out", {"portion": "B"}, "its batter goes to the others"),
        ("left out", {"line": "colourant:B:indigo"}, "keeps the colour of the batter"),
        ("other", {}, "The superfat stays at 5.0 %."),
    ],
)
def test_every_change_says_what_follows_from_it(what, more, words):
    played = at("pour:1", SWIRLED)
    change(played, what, **more)

    assert words in played.state.changes[-1].effect


def test_an_interruption_of_the_lye_asks_for_new_readings():
    played = at("cool")
    change(played, "interrupted", minutes=4)

    assert "read both pots again" in played.state.changes[-1].effect


def test_a_change_keeps_its_reason_decision_and_details():
    played = at("weigh:fat:olive")
    played.tap(
        "changed", "weigh:fat:olive", what="amount off", why="slipped", decision="keep", line="fat:olive", mass_g=430
    )

    found = played.state.changes[0]
    assert (found.why, found.decision, found.prompt_title) == ("slipped", "keep", "Weigh Olive")
    assert found.details == {"line": "fat:olive", "mass_g": 430.0}
    assert "The pot now needs 147.4 g of alkali, not 143.6 g" in found.effect


def test_changes_and_weights_out_of_tolerance_are_deviations():
    played = at("weigh:water", **{"fat:palm": 310})
    change(played, "other")

    assert played.state.deviations == 2


def test_a_weight_that_a_change_tells_of_is_one_deviation():
    played = at("weigh:water")
    change(played, "amount off", line="fat:palm", mass_g=340)

    assert not played.state.weights["fat:palm"].is_within
    assert played.state.deviations == 1


def test_a_timer_ends_at_a_moment_and_stays_there():
    played = at("read-lye")
    timer = played.state.timers[0]
    made = played.state.done["alkali-into-water"]

    assert timer.key == "lye-cooling"
    assert timer.ends_at == made + timedelta(minutes=played.plan.prompt("alkali-into-water").timer.minutes)
    played.wait(days=2)
    played.tap("noted", text="Still here.")
    assert played.state.timers[0] == timer


def test_a_timer_goes_when_its_prompt_is_done():
    assert "lye-cooling" not in {timer.key for timer in at("combine").state.timers}


def test_the_rest_is_due_when_its_timer_ends():
    state = at("rest").state

    assert state.due_at == state.done["cover"] + timedelta(hours=24)


def test_readings_count_minutes_from_when_alkali_met_water():
    played = at("read-lye")
    played.wait(minutes=9)
    played.tap("read", "read-lye", pot="lye", temp_c=82)
    played.tap("read", pot="fats", temp_c=45)

    assert [(r.pot, r.temp_c, r.minutes) for r in played.state.readings] == [("lye", 82, 10), ("fats", 45, 11)]
    assert "read-lye" in played.state.done


def test_remarks_change_nothing_but_the_remarks():
    played = at("cool")
    before = played.state
    id = played.tap("noted", text="The dog barked.")

    after = played.state
    assert [note.id for note in after.notes] == [id]
    assert replace(after, notes=before.notes, last_event=before.last_event) == before


def test_the_people_of_a_run_are_named_once_each():
    assert hand(SWIRLED).start().until("").state.people == ("Ada",)


def test_a_run_that_nobody_began_waits_at_its_first_prompt():
    state = hand().state

    assert (state.current, state.started_at, state.done) == ("materials", None, {})


def test_time_is_read_from_the_events_alone():
    assert hand(SWIRLED).start().until("").state.started_at == START + timedelta(minutes=1)
