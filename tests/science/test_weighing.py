import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.weighing import (
    entry_doubts,
    pot_check,
    round_keeping_total,
    round_to,
    scale_too_coarse,
    smallest_sensible_g,
    tolerance_g,
)

# Typed loosely, as what comes in from a form is.
UNKNOWN: Any = "unknown"

steps = st.sampled_from([0.01, 0.1, 0.5, 1.0, 2.0, 5.0])


def codes(entered, target, kind="fat", step=1.0, **more):
    return [doubt.code for doubt in entry_doubts(entered, target, kind=kind, resolution_g=step, **more)]


@given(st.lists(st.floats(0, 5000), min_size=1, max_size=8), steps)
def test_rounding_keeps_the_total(masses, step):
    rounded = round_keeping_total(masses, step)

    assert sum(rounded) == pytest.approx(round_to(sum(masses), step), abs=1e-6)
    assert all(abs(new - old) < step * (1 + 1e-6) for new, old in zip(rounded, masses, strict=True))


@given(st.floats(0, 5000), steps)
def test_a_rounded_mass_is_a_whole_number_of_steps_nearby(mass, step):
    rounded = round_to(mass, step)

    assert abs(rounded - mass) <= step / 2 + 1e-6
    assert rounded / step == pytest.approx(round(rounded / step))


def test_half_a_step_goes_up_even_when_the_machine_stores_less():
    assert round_to(1.005, 0.01) == 1.01
    assert round_to(2.5, 1) == 3


def test_three_equal_masses_still_add_up():
    assert sorted(round_keeping_total((1.24, 1.24, 1.24), 0.1)) == [1.2, 1.2, 1.3]


def test_the_tolerance_is_never_finer_than_the_scale():
    assert tolerance_g("alkali", 10, 1) == 1


def test_a_weight_within_tolerance_raises_no_question():
    assert codes(403, 400) == []


def test_a_tare_left_on_is_named():
    (doubt,) = entry_doubts(535, 400, kind="fat", resolution_g=1, tares={"jug B": 135})

    assert doubt.code == "tare"
    assert "jug B" in doubt.sentence


def test_the_total_in_the_pot_is_recognised_with_or_without_this_pour():
    assert codes(1000, 300, running_total_g=700) == ["total"]
    assert codes(700, 300, running_total_g=700) == ["total"]


def test_the_weight_of_another_row_names_that_row():
    (doubt,) = entry_doubts(301, 400, kind="fat", resolution_g=1, other_targets={"coconut": 300})

    assert doubt.code == "row"
    assert "coconut" in doubt.sentence


def test_a_weight_far_off_without_a_known_slip_is_still_asked_about():
    assert codes(90, 400) == ["far"]


def test_a_departure_without_a_pattern_is_the_makers_business():
    assert codes(440, 400) == []


def test_only_alkali_stops_the_run():
    (fat,) = entry_doubts(40, 400, kind="fat", resolution_g=1)
    (alkali,) = entry_doubts(14.3, 143, kind="alkali", resolution_g=0.1)

    assert not fat.stops
    assert alkali.stops


def test_only_alkali_is_tested_for_the_other_alkali():
    assert codes(561, 400) == []


@given(st.floats(0.1, 5000), st.floats(0.1, 5000), steps)
def test_every_question_is_a_sentence(entered, target, step):
    for doubt in entry_doubts(entered, target, kind="fat", resolution_g=step):
        assert doubt.sentence[-1] in ".?"


def test_a_pot_that_agrees_says_so():
    check = pot_check(1000, 1002, 3, 1, {})

    assert check.ok
    assert check.gap_g == 2


def test_a_pot_too_heavy_by_one_part_suspects_it_went_in_twice():
    check = pot_check(1000, 1300, 3, 1, {"olive": 400, "coconut": 300})

    assert not check.ok
    assert check.suspect == "coconut"
    assert "twice" in check.sentence


def test_a_gap_like_no_part_names_nobody():
    check = pot_check(1000, 950, 3, 1, {"olive": 400, "coconut": 300})

    assert check.suspect is None
    assert "50 g too light" in check.sentence


def test_the_smallest_sensible_weight_is_twenty_steps():
    assert smallest_sensible_g(0.1) == pytest.approx(2)


@given(st.one_of(st.floats(max_value=0), st.just(math.nan), st.just(math.inf)))
def test_a_step_out_of_range_is_refused_with_a_sentence(step):
    for call in (
        lambda: round_to(10, step),
        lambda: round_keeping_total([1.0], step),
        lambda: tolerance_g("fat", 10, step),
        lambda: smallest_sensible_g(step),
        lambda: scale_too_coarse(step, 100),
        lambda: pot_check(100, 100, 1, step, {}),
        lambda: entry_doubts(90, 100, kind="fat", resolution_g=step),
    ):
        with pytest.raises(OutOfRange) as refusal:
            call()
        assert str(refusal.value).endswith(".")


@pytest.mark.parametrize(
    "call",
    [
        lambda: round_to(-1, 1),
        lambda: tolerance_g(UNKNOWN, 10, 1),
        lambda: entry_doubts(-1, 100, kind="fat", resolution_g=1),
        lambda: entry_doubts(10, 0, kind="fat", resolution_g=1),
        lambda: pot_check(0, 0, 1, 1, {}),
        lambda: pot_check(100, 100, 0, 1, {}),
        lambda: scale_too_coarse(1, 0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
