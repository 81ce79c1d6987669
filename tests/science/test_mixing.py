import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.mixing import (
    false_trace_warning,
    fats_temperature_for,
    gel_outlook,
    gel_temperature,
    heat_loss,
    mixing_temperature,
    saponification_rise,
)

warm = st.floats(20, 70)
masses = st.floats(100, 5000)


@given(masses, warm, masses, warm)
def test_the_mix_lies_between_the_two(fats_g, fats_c, lye_g, lye_c):
    mix = mixing_temperature(fats_g, fats_c, lye_g, lye_c, 0.33)

    assert min(fats_c, lye_c) - 1e-9 <= mix <= max(fats_c, lye_c) + 1e-9


@given(masses, warm, masses, warm)
def test_the_fats_asked_for_give_the_mix_asked_for(fats_g, mix_c, lye_g, lye_c):
    try:
        fats_c = fats_temperature_for(mix_c, fats_g, lye_g, lye_c, 0.33)
    except OutOfRange as refusal:
        assert "the lye as well" in str(refusal)
        return

    assert mixing_temperature(fats_g, fats_c, lye_g, lye_c, 0.33) == pytest.approx(mix_c)


@given(st.floats(1, 10), st.floats(1.1, 3))
def test_the_rise_is_proportional_to_the_alkali(mol, times):
    once, more = (saponification_rise(m, 1000, 432, 1 / 3) for m in (mol, times * mol))

    assert more.central == pytest.approx(times * once.central)
    assert once.low < once.central < once.high


def test_a_mix_under_the_melting_point_warns_of_false_trace():
    assert "look like trace" in false_trace_warning(30, 34)
    assert false_trace_warning(34, 34) is None


@given(st.floats(0.15, 0.21))
def test_more_water_gels_lower(water):
    assert gel_temperature(water + 0.01).central < gel_temperature(water).central


@pytest.mark.parametrize("water", [0.1, 0.27, -0.1])
def test_no_gel_temperature_where_it_is_not_known(water):
    with pytest.raises(OutOfRange):
        gel_temperature(water)


def test_heat_loss_meets_the_two_points_of_practice():
    assert heat_loss(1000, insulated=False) == pytest.approx(0.6)
    assert heat_loss(3000, insulated=True) == pytest.approx(0.3)


@given(st.floats(20, 30_000), st.booleans())
def test_larger_and_wrapped_loaves_lose_less(batter_g, insulated):
    assert heat_loss(batter_g * 1.5, insulated) <= heat_loss(batter_g, insulated)
    assert heat_loss(batter_g, True) <= heat_loss(batter_g, False)
    assert 0.15 <= heat_loss(batter_g, insulated) <= 0.95


def outlook(batter_g=1400, water=0.2, mix_c=40, insulated=False, flags=()):
    return gel_outlook(batter_g, water, mix_c, 3.6, 1000, 432, insulated, flags)


def test_a_small_cool_loaf_is_unlikely_to_gel():
    assert outlook(batter_g=500, mix_c=30).verdict == "unlikely"


def test_a_large_warm_wrapped_loaf_is_likely_to_gel():
    result = outlook(batter_g=3000, mix_c=50, insulated=True)

    assert result.verdict == "likely"
    assert result.sentence.startswith("Likely to gel")


@given(st.floats(25, 60))
def test_a_warmer_start_is_never_less_likely_to_gel(mix_c):
    order = ["unlikely", "may", "likely"]

    assert order.index(outlook(mix_c=mix_c + 5).verdict) >= order.index(outlook(mix_c=mix_c).verdict)


def test_very_wet_batter_is_judged_by_the_end_of_the_line():
    assert outlook(water=0.27).gel_c == gel_temperature(0.22)


def test_two_hot_signs_warn_of_overheating_and_name_themselves():
    result = outlook(flags=("milk", "honey"))

    assert result.overheating
    assert "(honey, milk)" in result.sentence


@pytest.mark.parametrize("flags", [(), ("honey",), ("honey", "honey")])
def test_one_hot_sign_does_not(flags):
    assert not outlook(flags=flags).overheating


def test_a_heart_over_85_degrees_overheats_without_any_sign():
    assert outlook(batter_g=6000, mix_c=60, insulated=True).overheating


@pytest.mark.parametrize("change", [{"batter_g": 0}, {"water": 1.2}, {"water": -0.1}, {"mix_c": float("nan")}])
def test_an_impossible_loaf_is_refused(change):
    with pytest.raises(OutOfRange):
        outlook(**change)
