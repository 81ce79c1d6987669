"""From readings of both pots to the time at which both are in the window: timers, ways out, and what is told."""

from dataclasses import replace
from datetime import timedelta

import pytest

from soapbench.bench.cooling_picture import picture_of
from soapbench.bench.cooling_screen import cooling_screen, meanwhile_list
from soapbench.bench.reading_screen import pots_of
from soapbench.science.cooling import LearntRate
from tests.bench.sample import SWIRLED, Hand, hand, plan_of

LYE, FATS = ((4, 84), (14, 66), (26, 53)), ((5, 52), (15, 48), (27, 44.5))


def read_both(played, lye=LYE, fats=FATS):
    """Read both pots at these minutes after the alkali went in."""
    began = played.state.done["alkali-into-water"]
    for pot, readings in (("lye", lye), ("fats", fats)):
        for minutes, temp_c in readings:
            played.now = began + timedelta(minutes=minutes - 1)  # a tap takes the minute that follows
            played.tap("read", "cool", pot=pot, temp_c=temp_c)
    return played


@pytest.fixture
def made():
    """A run whose alkali has just gone into the water, nothing read yet."""
    return hand(SWIRLED).start().until("read-lye")


@pytest.fixture
def cooling(made):
    return read_both(made)


def timers(played):
    return {timer.key: timer for timer in played.state.timers}


def test_nothing_is_told_before_the_alkali_is_in_and_after_the_lye_met_the_fats(cooling):
    assert hand().start().state.cooling is None
    assert cooling.until("trace").state.cooling is None


def test_until_a_pot_is_read_the_planned_timer_runs(made):
    assert timers(made)["lye-cooling"].label == "Lye: read both pots"
    assert made.state.cooling.pots == ()


def test_the_timers_of_the_window_are_those_of_the_fit(cooling):
    found, now = cooling.state.cooling, timers(cooling)
    opens, closes = (now[key].ends_at - found.began for key in ("lye-cooling", "window-closes"))

    assert now["lye-cooling"].label == "Both pots are in the window"
    assert opens / timedelta(minutes=1) == pytest.approx(found.shared.opens, abs=0.01)
    assert closes / timedelta(minutes=1) == pytest.approx(found.shared.closes - 5, abs=0.01)


def test_each_reading_sets_them_anew(cooling):
    before = timers(cooling)["lye-cooling"].ends_at
    read_both(cooling, lye=((33, 50),), fats=())  # cools slower than it looked

    assert timers(cooling)["lye-cooling"].ends_at > before


def test_one_pot_alone_rings_when_it_is_ready_to_be_read(made):
    read_both(made, fats=())

    assert timers(made)["lye-cooling"].label == "Lye: read both pots"
    assert "window-closes" not in timers(made)


def test_in_the_window_only_its_end_is_waited_for(cooling):
    read_both(cooling, lye=((38, 42),), fats=((38, 40),))

    assert "lye-cooling" not in timers(cooling) and "window-closes" in timers(cooling)
    assert cooling_screen(cooling.plan, cooling.state).sentence.startswith("Both in the window, until about ")


def test_the_end_of_the_window_rings_until_the_lye_meets_the_fats(cooling):
    read_both(cooling, lye=((38, 42),), fats=((38, 40),))
    cooling.until("combine")
    assert "window-closes" in timers(cooling)

    assert "window-closes" not in timers(cooling.until("trace"))


def test_what_was_read_in_the_jug_before_the_alkali_is_its_water():
    played = hand(SWIRLED).start().until("alkali-into-water")
    played.tap("read", "alkali-into-water", pot="lye", temp_c=22)
    read_both(played.until("read-lye"))

    assert played.state.cooling.pot("lye").enters.central > 20
    assert "22" not in cooling_screen(played.plan, played.state).pots[0].read


def test_a_room_that_was_read_counts_in_place_of_the_one_that_is_kept(cooling):
    before = cooling.state.cooling.pot("lye").enters.central
    cooling.tap("read", "cool", pot="room", temp_c=27)
    found = cooling.state.cooling

    assert (found.room_c, found.room_was_read) == (27, True)
    assert found.pot("lye").enters.central > before


def test_what_a_jug_taught_makes_one_reading_surer(made):
    read_both(made, lye=((4, 84),), fats=())
    guess = made.state.cooling.pot("lye")
    taught = Hand(replace(made.plan, cooling_learnt={"lye": LearntRate(-3.7, 0.05, 6)}))
    taught.facts = made.facts
    known = taught.state.cooling.pot("lye")

    assert known.enters.width < guess.enters.width / 2
    assert (guess.runs, known.runs) == (0, 6)
    assert "learnt from 6 runs" in cooling_screen(taught.plan, taught.state).pots[0].note


def test_an_odd_reading_is_marked_by_its_own_shape(cooling):
    read_both(cooling, lye=((29, 70),), fats=())
    picture = picture_of(cooling.state.cooling, cooling.state.readings)

    assert [mark.is_odd for mark in picture.marks if mark.pot == "lye"] == [False, False, False, True]
    assert cooling_screen(cooling.plan, cooling.state).pots[0].read.endswith("70 °C at 29 min (odd)")


def test_the_picture_holds_curve_band_window_and_axes(cooling):
    picture = picture_of(cooling.state.cooling, cooling.state.readings)

    assert [curve.pot for curve in picture.curves] == ["lye", "fats"]
    assert all(curve.band.endswith("Z") and curve.middle.startswith("M") for curve in picture.curves)
    assert picture.top < picture.window_y < picture.window_y + picture.window_height < picture.bottom
    assert picture.window_words == "32–43 °C"
    assert [tick.label for tick in picture.minutes][:2] == ["0", "20"]
    assert picture.degrees[-1].label.endswith("°C")


def test_the_window_is_told_by_the_clock_with_its_band(cooling):
    screen = cooling_screen(cooling.plan, cooling.state)
    at = cooling.state.cooling.began + timedelta(minutes=cooling.state.cooling.shared.opens)

    assert screen.sentence.startswith(f"Both in the window at about {at:%H:%M} (")
    assert [pot.window.partition(" at")[0] for pot in screen.pots] == ["in it", "in it"]


def test_fats_below_the_window_bring_a_way_and_a_way_that_was_chosen_is_kept(cooling):
    read_both(cooling, lye=(), fats=((40, 28),))
    missed = cooling_screen(cooling.plan, cooling.state)
    assert (missed.sentence, missed.is_missed) == ("The fats are below the window.", True)
    assert [(way.title, way.temp_c) for way in missed.ways] == [("Warm the fats", 28)]

    cooling.tap("changed", "cool", what="temperature off", temp_c=28, why=missed.sentence, decision="Warm the fats")
    decided = cooling_screen(cooling.plan, cooling.state)
    assert decided.ways == () and decided.sentence == "Decided: Warm the fats. Read the pots when it is done."

    read_both(cooling, lye=(), fats=((55, 41),))
    assert cooling_screen(cooling.plan, cooling.state).ways == ()
    assert cooling.state.cooling.pot("fats").odd == ()


def test_a_pot_that_leaves_the_window_before_the_other_is_in_it_is_named(made):
    read_both(made, lye=((4, 90), (14, 84), (24, 79)), fats=((5, 45), (15, 38), (24, 33)))
    screen = cooling_screen(made.plan, made.state)

    assert screen.sentence.startswith("The fats leave the window at about ")
    assert [way.title for way in screen.ways] == ["Keep the fats warm", "Cool the lye in a bath"]


def test_tiles_stand_round_what_the_curve_expects_now(cooling):
    cool, state = cooling.plan.prompt("cool"), cooling.state
    began = state.cooling.began
    at_once, later = (
        pots_of(cooling.plan, cool, state, began + timedelta(minutes=minutes))[0].tiles for minutes in (26, 50)
    )

    assert at_once == (52, 53, 54)
    assert later[1] < 45 and later[2] - later[0] == 2


def test_before_the_first_reading_the_tiles_are_coarse(made):
    lye, fats = pots_of(made.plan, made.plan.prompt("cool"), made.state, made.now)

    assert lye.is_coarse and fats.is_coarse
    assert (lye.tiles[0], lye.tiles[-1], fats.tiles[0], fats.tiles[-1]) == (45, 100, 40, 65)


def test_what_can_be_done_meanwhile_is_listed_with_its_minutes(made):
    made.until("weigh:colourant:B:indigo")
    before = meanwhile_list(made.plan, made.state)
    made.weigh("colourant:B:indigo")
    after = meanwhile_list(made.plan, made.state)

    assert len(before.open_ones) == len(after.open_ones) + 1
    assert before.minutes > after.minutes > 0
    assert meanwhile_list(made.plan, made.until("trace").state).open_ones == ()


def test_nothing_is_open_meanwhile_before_the_lye_is_made():
    played = hand(SWIRLED).start()

    assert meanwhile_list(played.plan, played.state).open_ones == ()
    assert meanwhile_list(plan_of(SWIRLED), played.state).prompts
