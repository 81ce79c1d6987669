"""When a loaf may leave its mould, against what trade pages say: usual practice, no measurement."""

import pytest

from soapbench.science.unmould import gel_is_settled, look_again, unmould_window


# Trade pages: gelled 12 to 24 h, usually 24 to 48 h, ungelled 2 to 5 days.
@pytest.mark.parametrize(("process", "first", "last"), [("gel", 12, 48), ("no gel", 24, 120)])
def test_the_usual_hours_lie_within_those_of_the_trade(process, first, last):
    found = unmould_window(process, 0.33)
    assert first <= found.earliest_h <= found.latest_h <= last


# Trade pages: soft, so wait 6 to 12 h and look again; a dark wet centre at 1 to 3 h is gel.
def test_a_soft_loaf_is_looked_at_again_and_gel_shows_when_the_trade_says():
    assert look_again() == (6, 12)
    assert [gel_is_settled(hours) for hours in (1, 2.9, 3)] == [False, False, True]
