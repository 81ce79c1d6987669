import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.scent_time import cooler_by_k, planning_minutes, working_minutes
from soapbench.science.working_time import ScentedPortion, schedule

portion_lists = st.lists(
    st.tuples(st.floats(1, 30), st.floats(0, 3), st.one_of(st.none(), st.integers(1, 9))), min_size=1, max_size=5
).map(lambda rows: [ScentedPortion(letter, *row) for letter, row in zip("ABCDE", rows, strict=False)])


def acts(plan):
    return {(start.act, start.letter): start for start in plan.latest_starts}


def test_the_quick_scent_goes_in_last_and_is_poured_first():
    plan = schedule([ScentedPortion("A", 20, 2), ScentedPortion("B", 4, 1), ScentedPortion("C", 10, 1)])

    assert plan.ok
    assert plan.scent_order == ("A", "C", "B")
    assert plan.order == ("B", "C", "A")
    assert plan.sentence == "Scent A, C, B, then pour B, C, A. 1.5 min to spare."


def test_the_drawing_keeps_its_order():
    plan = schedule([ScentedPortion("A", 20, 2, 2), ScentedPortion("B", 14, 1, 3), ScentedPortion("C", 12, 1, 1)])

    assert plan.order == ("C", "A", "B")


@settings(max_examples=60)
@given(portion_lists, st.booleans(), st.one_of(st.just(math.inf), st.floats(2, 60)))
def test_a_plan_does_every_act_once_and_one_at_a_time(portions, all_first, batter):
    plan = schedule(portions, scent_all_first=all_first, batter_minutes=batter)

    assert sorted(plan.order) == [p.letter for p in portions]
    starts = plan.latest_starts
    lengths = {("scent", p.letter): p.scent_minutes for p in portions} | {
        ("pour", p.letter): p.pour_minutes for p in portions
    }
    for before, after in zip(starts, starts[1:], strict=False):
        assert after.planned_minutes == pytest.approx(before.planned_minutes + lengths[(before.act, before.letter)])


@settings(max_examples=60)
@given(portion_lists, st.booleans())
def test_ok_means_that_no_portion_is_late(portions, all_first):
    plan = schedule(portions, scent_all_first=all_first)
    at = acts(plan)

    ages = [
        at["pour", p.letter].planned_minutes
        + p.pour_minutes
        - (at["scent", p.letter].planned_minutes if p.scent_minutes else 0)
        - p.working_minutes
        for p in portions
    ]
    assert plan.ok is (max(ages) <= 1e-9)
    assert bool(plan.ways_out) is not plan.ok


@settings(max_examples=60)
@given(portion_lists)
def test_a_latest_start_is_never_before_the_plan_when_it_works_and_keeps_to_the_order(portions):
    plan = schedule(portions)
    for start in plan.latest_starts:
        if plan.ok and start.latest_minutes is not None:
            assert start.latest_minutes >= start.planned_minutes - 1e-9


@settings(max_examples=40)
@given(portion_lists)
def test_longer_working_times_never_hurt(portions):
    longer = [ScentedPortion(p.letter, 2 * p.working_minutes, p.scent_minutes, p.pour_order) for p in portions]

    assert schedule(longer).spare_minutes >= schedule(portions).spare_minutes


def test_starting_at_the_latest_time_leaves_nothing_to_spare():
    plan = schedule([ScentedPortion("A", 20, 2), ScentedPortion("B", 4, 1)])
    pour_b = acts(plan)["pour", "B"]
    scented = acts(plan)["scent", "B"].planned_minutes

    assert pour_b.latest_minutes + 1.5 - scented == pytest.approx(4)


def test_nothing_presses_before_the_first_scent():
    plan = schedule([ScentedPortion("A", 20, 2)])

    assert plan.latest_starts[0].latest_minutes is None


def test_the_batter_itself_sets_the_end():
    plan = schedule([ScentedPortion("A", 20, 2), ScentedPortion("B", math.inf, 0)], batter_minutes=4)

    assert not plan.ok
    assert "the batter is too thick 1.0 min before the end" in plan.sentence


def test_portions_that_do_not_thicken_have_all_the_time():
    plan = schedule([ScentedPortion("A", math.inf, 0), ScentedPortion("B", math.inf, 0)])

    assert (plan.ok, plan.spare_minutes) == (True, None)
    assert plan.sentence in ("Pour A, B.", "Pour B, A.")


def test_scenting_before_each_pour_works_where_scenting_all_first_does_not():
    portions = [ScentedPortion("A", 4, 1, 1), ScentedPortion("B", 4, 1, 2), ScentedPortion("C", 4, 1, 3)]

    assert not schedule(portions).ok
    assert schedule(portions, scent_all_first=False).ok
    assert "Scent each portion just before its own pour, if the drawing allows it." in schedule(portions).ways_out


def test_another_pour_order_is_offered_where_the_drawing_is_at_fault():
    plan = schedule([ScentedPortion("A", 20, 2, 1), ScentedPortion("B", 3.5, 1, 2), ScentedPortion("C", 10, 1, 3)])

    assert not plan.ok
    assert plan.ways_out[0] == "Pour in the order B, C, A."


def test_the_cooler_mix_that_is_offered_gives_time_enough():
    working = 3.3
    plan = schedule([ScentedPortion("A", working, 1), ScentedPortion("B", working, 1)])

    assert any("mix about 3 °C cooler, or use more water" in way for way in plan.ways_out)
    longer = working * 2 ** (3 / 10)
    assert schedule([ScentedPortion("A", longer, 1), ScentedPortion("B", longer, 1)]).ok


def test_a_portion_whose_scent_is_the_trouble_is_named():
    plan = schedule([ScentedPortion("A", 1, 1), ScentedPortion("B", 30, 1)])

    assert "Scent A less, or leave it unscented." in plan.ways_out


def test_where_nothing_helps_a_simpler_drawing_is_asked_for():
    plan = schedule([ScentedPortion(letter, 0.5, 1) for letter in "ABC"])

    assert plan.ways_out == ("Choose a simpler drawing with fewer portions, a calmer scent, or more water.",)


@pytest.mark.parametrize(
    ("portions", "says"),
    [
        ([], "no portion"),
        ([ScentedPortion("A", 5, 1), ScentedPortion("A", 6, 1)], "same letter"),
        ([ScentedPortion("A", 0, 1)], "working time of A"),
        ([ScentedPortion("A", float("nan"), 1)], "working time of A"),
        ([ScentedPortion("A", 5, -1)], "scenting time of A"),
        ([ScentedPortion("A", 5, 1, pour_minutes=0)], "pouring time of A"),
        ([ScentedPortion(letter, 5, 1) for letter in "ABCDEFGH"], "More than seven"),
    ],
)
def test_an_impossible_plan_is_refused(portions, says):
    with pytest.raises(OutOfRange, match=says):
        schedule(portions)


def test_a_batter_without_any_time_is_refused():
    with pytest.raises(OutOfRange, match="batter's own working time"):
        schedule([ScentedPortion("A", 5, 1)], batter_minutes=0)


@given(st.floats(0.5, 40), st.integers(1, 8))
def test_records_draw_the_working_time_to_themselves(minutes, count):
    guess, learnt = working_minutes("unknown"), working_minutes("unknown", [minutes] * count)

    assert abs(math.log(learnt.central / minutes)) <= abs(math.log(guess.central / minutes)) + 1e-9
    assert learnt.high / learnt.low < guess.high / guess.low


def test_the_time_to_plan_with_lies_on_the_careful_side():
    working = working_minutes("calm", [7, 6, 8])

    assert working.low < planning_minutes(working) < working.central


@pytest.mark.parametrize("records", [[0], [-2], [float("nan")]])
def test_a_recorded_time_that_cannot_be_is_refused(records):
    with pytest.raises(OutOfRange, match="recorded time"):
        working_minutes("calm", records)


def test_a_note_that_is_not_on_the_list_is_refused():
    with pytest.raises(OutOfRange, match="Choose one of"):
        working_minutes("wild")


def test_a_doubling_takes_ten_degrees():
    assert cooler_by_k(2) == pytest.approx(10)
    assert cooler_by_k(1) == 0
    with pytest.raises(OutOfRange, match="never less"):
        cooler_by_k(0.5)
