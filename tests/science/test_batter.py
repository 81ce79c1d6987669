import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.batter import batter_density, batter_volume_ml, fats_volume_ml, measured_density
from soapbench.science.errors import OutOfRange

fats = st.lists(st.tuples(st.floats(1, 5000), st.floats(0.85, 0.97)), min_size=1, max_size=6)


@given(fats, st.floats(1.2, 4))
def test_volumes_add_up(fats, times):
    volume = batter_volume_ml(fats, 100, 220)

    assert batter_volume_ml([(m * times, d) for m, d in fats], 100 * times, 220 * times) == pytest.approx(
        times * volume
    )
    assert volume == pytest.approx(fats_volume_ml(fats) + batter_volume_ml([], 100, 220))


@given(fats)
def test_density_times_volume_is_the_mass(fats):
    mass = sum(m for m, _ in fats) + 100 + 220 + 30

    assert batter_density(fats, 100, 220, 30) * batter_volume_ml(fats, 100, 220, 30) == pytest.approx(mass)


def test_stirred_air_takes_room():
    assert batter_volume_ml([(1000, 0.91)], 140, 280, air=0.04) == pytest.approx(
        1.04 * batter_volume_ml([(1000, 0.91)], 140, 280)
    )


def test_the_order_of_the_fats_does_not_matter():
    first, second = (700, 0.91), (300, 0.92)

    assert fats_volume_ml([first, second]) == pytest.approx(fats_volume_ml([second, first]))


@pytest.mark.parametrize("fat", [(-1, 0.91), (100, 0.0), (100, 9.1), (100, float("nan"))])
def test_an_impossible_fat_is_refused(fat):
    with pytest.raises(OutOfRange):
        fats_volume_ml([fat])


def test_a_measured_density_is_mass_by_room():
    assert measured_density(1330, 1290.24) == pytest.approx(1.0308, abs=1e-4)


@pytest.mark.parametrize("mass", [300, 3000])
def test_a_measured_density_that_no_batter_has_is_refused(mass):
    with pytest.raises(OutOfRange, match="near 1.0"):
        measured_density(mass, 1290)
