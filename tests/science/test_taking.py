"""How much of what was weighed goes into the portion as it is."""

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.taking import taking


def test_what_is_right_goes_in_whole():
    found = taking(12.0, 12.1, 0.2)

    assert (found.take_g, found.is_all, found.is_short) == (12.0, True, False)


def test_of_too_much_a_part_goes_in():
    found = taking(12.0, 11.4, 0.2)

    assert (found.take_g, found.of_g, found.is_all) == (pytest.approx(11.4), 12.0, False)


def test_a_dispersion_is_taken_with_its_carrier():
    found = taking(6.0, 4.5, 0.1, carrier_g=18.0)

    assert (found.take_g, found.of_g) == (pytest.approx(18.0), 24.0)


def test_of_too_little_all_goes_in_and_the_rate_is_lower():
    found = taking(10.0, 12.5, 0.2)

    assert (found.take_g, found.is_short, found.share) == (10.0, True, pytest.approx(0.8))


def test_nothing_weighed_is_refused():
    with pytest.raises(OutOfRange):
        taking(0, 5, 0.1)
