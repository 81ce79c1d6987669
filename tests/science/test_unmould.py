"""When a loaf may be taken out and cut."""

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.unmould import gel_is_settled, look_again, unmould_window


def window(process="unknown", strength=0.33, **more):
    found = unmould_window(process, strength, **more)
    return found.earliest_h, found.latest_h


@pytest.mark.parametrize(
    ("process", "hours"),
    [("gel", (12, 24)), ("oven", (12, 24)), ("unknown", (24, 48)), ("no gel", (48, 120))],
)
def test_the_process_gives_the_window_that_the_trade_names(process, hours):
    assert window(process) == hours


@pytest.mark.parametrize("more", [{"strength": 0.27}, {"olive_share": 0.8}])
def test_much_water_or_much_olive_oil_makes_it_later(more):
    assert window("unknown", **more) == (48, 120)
    assert window("gel", **more) == (24, 48)


def test_strong_lye_makes_it_earlier():
    assert window("no gel", strength=0.4) == (24, 48)
    assert window("unknown", strength=0.4) == (12, 24)


def test_an_all_olive_loaf_of_strong_lye_is_neither_earlier_nor_later():
    assert window("unknown", strength=0.38, olive_share=1.0) == (24, 48)


def test_no_loaf_is_later_than_the_slowest_window():
    assert window("no gel", strength=0.25, olive_share=1.0) == (48, 120)


def test_a_salt_bar_is_cut_while_it_is_warm():
    assert window("no gel", salt_share=0.5) == (2, 8)
    assert "while it is warm" in unmould_window("gel", 0.33, salt_share=0.5).sentence


def test_a_little_salt_makes_no_salt_bar():
    assert window("gel", salt_share=0.02) == (12, 24)


def test_a_loaf_stays_in_the_oven_for_eight_hours_after_it_is_off():
    assert window("oven", oven_hours=1) == (12, 24)
    assert window("oven", oven_hours=6) == (14, 24)
    assert window("oven", oven_hours=20) == (28, 28)


def test_the_sentence_names_the_reasons():
    said = unmould_window("no gel", 0.27, olive_share=0.8).sentence

    assert said == "Not gelled, much olive oil: later, much water: later. Usually firm between 48 and 120 h."


def test_a_soft_loaf_is_pressed_again_after_six_to_twelve_hours():
    assert look_again() == (6, 12)
    assert look_again(24) == (30, 36)


def test_no_gel_within_three_hours_says_nothing_yet():
    assert not gel_is_settled(2.9)
    assert gel_is_settled(3)


def test_an_unknown_process_is_refused():
    with pytest.raises(OutOfRange, match="Choose one of"):
        unmould_window("microwave", 0.33)
