"""The arithmetic under the sums and the fits, against general reference libraries."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science import cooling_grid
from soapbench.science.arithmetic import interpolate, polynomial
from soapbench.science.cooling_law import temperature_after
from soapbench.science.drying import T_95, student_95
from soapbench.science.posterior import Normal, draws, quantiles, student_t


@given(st.lists(st.floats(-10, 10), min_size=1, max_size=9), st.floats(-2, 2))
def test_a_polynomial_equals_that_of_numpy(coefficients, x):
    assert polynomial(coefficients, x) == pytest.approx(np.polynomial.polynomial.polyval(x, coefficients), abs=1e-9)


@given(st.lists(st.floats(-10, 10), min_size=2, max_size=6), st.floats(-2, 8))
def test_straight_lines_equal_those_of_numpy(heights, x):
    points = list(enumerate(heights))

    assert interpolate(x, points) == pytest.approx(np.interp(x, range(len(heights)), heights), abs=1e-9)


# Student's t with 4 degrees of freedom: the density of scipy, but for a constant.
def test_the_likelihood_of_an_odd_reading_equals_the_reference_library():
    stats = pytest.importorskip("scipy.stats")
    residuals = np.linspace(-8, 8, 33)

    ours = student_t(residuals) - student_t(np.zeros(1))
    theirs = stats.t(4).logpdf(residuals) - stats.t(4).logpdf(0)

    assert ours == pytest.approx(theirs)


@pytest.mark.parametrize("freedom", [1, 2, 5, len(T_95), len(T_95) + 1, 20, 40, 100])
def test_student_s_points_equal_the_reference_library(freedom):
    stats = pytest.importorskip("scipy.stats")

    assert student_95(freedom) == pytest.approx(stats.t.ppf(0.975, freedom), abs=0.002)


def test_quantiles_equal_those_of_the_reference_library_for_a_normal_sample():
    stats = pytest.importorskip("scipy.stats")
    sample = stats.norm(10, 2).ppf((np.arange(5000) + 0.5) / 5000)

    assert quantiles(sample) == pytest.approx(stats.norm(10, 2).ppf([0.025, 0.5, 0.975]), abs=0.02)


# A normal prior and one normal reading have a posterior in closed form (any textbook of statistics).
def test_the_posterior_on_a_grid_equals_the_closed_form():
    stats = pytest.importorskip("scipy.stats")
    prior, reading, sd = Normal(10.0, 2.0, 0.0, 20.0), 13.0, 1.0

    (found,) = draws((prior,), lambda nodes: -0.5 * ((nodes[0] - reading) / sd) ** 2, ((41,), (201,)))
    precision = 1 / 4 + 1 / 1
    exact = stats.norm((10 / 4 + 13) / precision, precision**-0.5)

    assert quantiles(found) == pytest.approx(exact.ppf([0.025, 0.5, 0.975]), abs=0.04)


# The curve of the grid is that of the law, which is checked against scipy's integration elsewhere.
@pytest.mark.parametrize("exponent", [1.2, 1.6])
def test_the_curve_on_the_grid_is_the_law_of_cooling(exponent):
    ours = cooling_grid.model(*(np.array([x]) for x in (0.03, exponent - 1, 20.0, 85.0, 25.0)))

    assert ours[0] == pytest.approx(temperature_after(25, 85, 20, 0.03, exponent))


# With exact readings of a known curve and a loose prior, the draws close in on the rate that made them.
def test_the_draws_close_in_on_the_rate_that_made_the_readings():
    minutes = np.arange(5.0, 65.0, 5.0)
    celsius = np.array([temperature_after(m, 80, 20, 0.03, 1.3) for m in minutes])
    priors = (
        Normal(math.log(0.02), 0.6, math.log(0.02) - 1.8, math.log(0.02) + 1.8),
        Normal(1.4, 0.3, 1.0, 2.3),
        Normal(20, 1, 17.5, 22.5),
        Normal(80, 0.5, 78.8, 81.2),
    )

    found = cooling_grid.draws(minutes, celsius, priors, 0.5)

    low, central, high = quantiles(found.k)
    assert low < 0.03 < high
    assert central == pytest.approx(0.03, rel=0.05)
