"""What two minutes of rest tell of a batter."""

from soapbench.science.false_trace import rest_result


def test_no_oil_and_no_setting_is_true_trace():
    assert rest_result(False, False).is_true


def test_oil_on_top_is_blended_on():
    found = rest_result(True, False)

    assert not found.is_true
    assert "Blend in short bursts" in found.sentence and "Warm" not in found.sentence


def test_what_sets_while_it_cools_is_warmed_to_where_every_fat_is_clear():
    found = rest_result(False, True, 35)

    assert not found.is_true
    assert "Warm it gently to about 35 °C in a bath" in found.sentence


def test_both_are_told_as_both():
    assert rest_result(True, True).sentence.startswith("Oil on top, and fat is setting: false trace. Warm it gently")
