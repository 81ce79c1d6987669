"""How bars dry, as the rack tells it: plain data, no database."""

from datetime import date, timedelta

import pytest

from soapbench.rack.cure import cure_of, water_at_pour
from tests.bench.sample import hand


@pytest.fixture
def cut():
    """A hand that has just cut ten bars of 130 g each."""
    return hand().start().until("cure")


def cure(played):
    return cure_of(played.plan, played.state, played.facts)


def weigh(played, days, mass, bars=3):
    played.wait(days=days)
    return played.tap("cure-weighed", "cure", bars=bars, mass_g=mass)


def test_before_the_cut_nothing_dries():
    played = hand().start().until("cut")

    assert cure(played) is None


def test_the_bars_at_the_cut_are_the_first_row(cut):
    (row,) = cure(cut).rows

    assert (row.bars, row.each_g, row.loss, row.event) == (10, 130, 0, "")


def test_one_weighing_tells_no_day_but_the_planned_one(cut):
    ready = cure(cut).ready

    assert ready.likely is None
    assert ready.best == ready.planned == cut.now.date() + timedelta(days=42)


def test_two_weighings_tell_a_day_within_its_band(cut):
    weigh(cut, 0, 390)
    weigh(cut, 7, 372)
    weigh(cut, 7, 364)

    ready = cure(cut).ready

    assert ready.low <= ready.likely <= ready.high


def test_marked_bars_that_were_weighed_fresh_are_held_against_themselves(cut):
    weigh(cut, 0, 360)
    weigh(cut, 7, 342)

    row = cure(cut).rows[-1]

    assert row.loss == pytest.approx(0.05)
    assert row.week_g == pytest.approx(6, rel=0.01)


def test_marked_bars_that_were_not_weighed_fresh_are_held_against_the_mean_of_the_cut(cut):
    weigh(cut, 7, 370.5)

    assert cure(cut).rows[-1].loss == pytest.approx(0.05)


def test_a_weighing_that_was_taken_back_is_gone(cut):
    event = weigh(cut, 7, 370)
    cut.tap("took-back", event=event)

    assert len(cure(cut).rows) == 1


def test_bars_that_grew_heavier_give_no_curve_and_a_sentence(cut):
    weigh(cut, 7, 3900)

    found = cure(cut)

    assert found.chart is None and found.sale(date(2027, 1, 6)) is None
    assert "Is it the same bar?" in found.remark and "take it back" in found.remark


def test_a_weighing_that_fits_no_curve_is_marked(cut):
    for mass in (390, 372, 364, 300, 356, 354):
        weigh(cut, 7 if mass < 390 else 0, mass)

    assert [row.mass_g for row in cure(cut).rows if row.is_odd] == [300]


def test_the_loss_in_a_week_passes_over_an_odd_weighing(cut):
    for mass in (390, 372, 364, 300, 356, 354):
        weigh(cut, 7 if mass < 390 else 0, mass)

    assert [row.week_said for row in cure(cut).rows][2:] == ["6.0", "2.7", "", "1.3", "0.7"]


def test_a_bar_is_lighter_the_later_it_is_sold(cut):
    weigh(cut, 7, 370)
    found = cure(cut)

    early, late = found.sale(date(2027, 1, 6)), found.sale(date(2027, 7, 6))

    assert early.each_g.central > late.each_g.central


def test_the_label_says_no_more_than_the_lightest_that_is_likely(cut):
    sale = cure(cut).sale(date(2027, 1, 6))

    assert sale.label_g <= sale.each_g.low < sale.label_g + 1


def test_before_the_cut_no_bar_is_sold(cut):
    assert cure(cut).sale(cut.now.date() - timedelta(days=2)) is None


def test_the_water_in_the_batter_is_the_water_that_was_weighed(cut):
    state = cut.state

    assert water_at_pour(cut.plan, state) == pytest.approx(state.weights["water"].mass_g / state.batter_g)


def test_the_curve_shows_the_weighings_and_the_day(cut):
    weigh(cut, 0, 390)
    weigh(cut, 7, 372)
    weigh(cut, 7, 364)

    labels = [label.text for label in cure(cut).chart.labels]

    assert {"weighed", "likely", "ready", "95 % band"} <= set(labels)
