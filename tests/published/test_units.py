"""The maker's own units against NIST and a general reference library."""

import pytest

from soapbench.science.units import from_celsius, from_grams, from_mm, pounds_and_ounces, to_celsius, to_grams, to_mm


# NIST SP 811 (2008), appendix B.8: pound 0.453 592 37 kg exactly, ounce 28.349 523 125 g exactly, inch 25.4 mm exactly.
def test_the_exact_factors_as_printed():
    assert (to_grams(1, "lb"), to_grams(1, "oz"), to_mm(1, "in")) == (453.59237, 28.349523125, 25.4)


# scipy.constants carries the same definitions, worked out there from the pound and the inch.
def test_weights_and_lengths_equal_the_reference_library():
    constants = pytest.importorskip("scipy.constants")

    assert to_grams(3.5, "oz") == pytest.approx(3.5 * 1000 * constants.oz, rel=1e-12)
    assert from_grams(1000, "lb") == pytest.approx(1 / constants.lb, rel=1e-12)
    assert from_mm(89, "in") == pytest.approx(0.089 / constants.inch, rel=1e-12)


@pytest.mark.parametrize("fahrenheit", [-40, 32, 77, 100, 212])
def test_temperatures_equal_the_reference_library(fahrenheit):
    constants = pytest.importorskip("scipy.constants")
    celsius = constants.convert_temperature(fahrenheit, "Fahrenheit", "Celsius")

    assert to_celsius(fahrenheit, "°F") == pytest.approx(celsius, abs=1e-9)
    assert from_celsius(celsius, "°F") == pytest.approx(fahrenheit, abs=1e-9)


# Water boils at 212 °F, freezes at 32 °F, and both scales meet at -40: the definition of the Fahrenheit scale.
@pytest.mark.parametrize(("celsius", "fahrenheit"), [(100, 212), (0, 32), (-40, -40)])
def test_the_fixed_points_of_the_two_scales(celsius, fahrenheit):
    assert from_celsius(celsius, "°F") == pytest.approx(fahrenheit)


# NIST Handbook 44, appendix C: sixteen avoirdupois ounces are one pound; 1 kg is 2.204 623 lb, so 2 lb 3.274 oz.
def test_a_kilogram_in_pounds_and_ounces():
    pounds, ounces = pounds_and_ounces(1000)

    assert (pounds, ounces) == (2, pytest.approx(3.27396, abs=1e-5))
