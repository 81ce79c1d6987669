import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.units import (
    from_celsius,
    from_grams,
    from_mm,
    pounds_and_ounces,
    to_celsius,
    to_grams,
    to_mm,
)

masses = st.floats(0, 1e6)
mass_units = st.sampled_from(["g", "kg", "oz", "lb"])


@given(masses, mass_units)
def test_a_weight_comes_back_from_another_unit(grams, unit):
    assert to_grams(from_grams(grams, unit), unit) == pytest.approx(grams)


@given(st.floats(-200, 1000), st.sampled_from(["°C", "°F"]))
def test_a_temperature_comes_back_from_another_unit(celsius, unit):
    assert to_celsius(from_celsius(celsius, unit), unit) == pytest.approx(celsius, abs=1e-9)


@given(st.floats(0, 1e5), st.sampled_from(["mm", "cm", "in"]))
def test_a_length_comes_back_from_another_unit(mm, unit):
    assert to_mm(from_mm(mm, unit), unit) == pytest.approx(mm)


@given(masses)
def test_pounds_and_ounces_hold_the_whole_weight(grams):
    pounds, ounces = pounds_and_ounces(grams)

    assert to_grams(pounds, "lb") + to_grams(ounces, "oz") == pytest.approx(grams, abs=1e-6)
    assert ounces < 16 + 1e-9


@given(masses, st.floats(0, 10), mass_units)
def test_twice_the_weight_is_twice_the_figure(grams, times, unit):
    assert from_grams(grams * times, unit) == pytest.approx(from_grams(grams, unit) * times)


@pytest.mark.parametrize("unit", ["fl oz", "cup", "ml", "tsp"])
def test_a_measure_of_volume_is_never_taken_for_a_weight(unit):
    with pytest.raises(OutOfRange, match="a volume, not a weight"):
        to_grams(1, unit)


def test_nothing_is_colder_than_absolute_zero():
    with pytest.raises(OutOfRange, match="Nothing is colder"):
        to_celsius(-460, "°F")
    with pytest.raises(OutOfRange, match="Nothing is colder"):
        from_celsius(-274, "°C")
