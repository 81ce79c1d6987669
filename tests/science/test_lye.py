import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.errors import OutOfRange
from soapbench.science.lye import (
    boiling_point_c,
    concentration,
    density_g_per_ml,
    heat_capacity,
    lye_volume_ml,
    solubility_limit,
    water_g,
    water_to_alkali,
)

strengths = st.floats(0.05, 0.5)
alkali = st.floats(1, 5000)


@given(alkali, strengths)
def test_water_for_a_strength_gives_back_that_strength(alkali_g, strength):
    assert concentration(alkali_g, water_g("lye concentration", strength, alkali_g, 0)) == pytest.approx(strength)


@given(alkali, strengths)
def test_the_ratio_and_the_strength_ask_for_the_same_water(alkali_g, strength):
    by_ratio = water_g("water to alkali ratio", water_to_alkali(strength), alkali_g, 0)

    assert by_ratio == pytest.approx(water_g("lye concentration", strength, alkali_g, 0))


def test_a_share_of_the_fats_is_grams_of_water():
    assert water_g("percent of fats", 0.33, 100, 1000) == pytest.approx(330)


@given(alkali, st.floats(1.5, 10))
def test_twice_the_alkali_asks_for_twice_the_water(alkali_g, ratio):
    single = water_g("water to alkali ratio", ratio, alkali_g, 0)

    assert water_g("water to alkali ratio", ratio, 2 * alkali_g, 0) == pytest.approx(2 * single)


@pytest.mark.parametrize(
    ("by", "value"), [("lye concentration", 0.51), ("water to alkali ratio", 0.9), ("percent of fats", 0.09)]
)
def test_less_water_than_alkali_is_refused_however_it_is_written(by, value):
    with pytest.raises(OutOfRange, match="Use at least as much water as alkali"):
        water_g(by, value, 100, 1000)


def test_a_strength_typed_in_per_cent_is_refused():
    with pytest.raises(OutOfRange, match="3300 %"):
        water_g("lye concentration", 33, 100, 1000)


@pytest.mark.parametrize("value", [0, -1, float("nan"), float("inf")])
def test_no_water_is_made_of_a_value_that_is_no_amount(value):
    with pytest.raises(OutOfRange):
        water_g("water to alkali ratio", value, 100, 1000)


@pytest.mark.parametrize("alkali_g", [0, -5, float("nan")])
def test_no_lye_is_made_without_alkali(alkali_g):
    with pytest.raises(OutOfRange, match="The alkali"):
        concentration(alkali_g, 100)


@pytest.mark.parametrize("solute", ["NaOH", "KOH"])
@given(w=st.floats(0.02, 0.47), celsius=st.floats(15, 90))
def test_lye_grows_denser_with_strength_and_lighter_with_warmth(solute, w, celsius):
    density = density_g_per_ml(solute, w, celsius)

    assert density_g_per_ml(solute, w + 0.02, celsius) > density
    assert density_g_per_ml(solute, w, celsius + 5) < density


@pytest.mark.parametrize("solute", ["NaOH", "KOH"])
@given(w=st.floats(0, 0.48), celsius=st.floats(0, 110))
def test_stronger_lye_stores_less_heat(solute, w, celsius):
    assert heat_capacity(solute, w + 0.02, celsius) <= heat_capacity(solute, w, celsius)


@given(st.floats(0, 0.48))
def test_stronger_lye_boils_hotter(w):
    assert boiling_point_c(w + 0.02) > boiling_point_c(w)


@pytest.mark.parametrize("solute", ["NaOH", "KOH"])
@given(celsius=st.floats(0, 95))
def test_warmer_water_dissolves_no_less(solute, celsius):
    assert solubility_limit(solute, celsius + 5) >= solubility_limit(solute, celsius)


@given(alkali, strengths)
def test_lye_takes_less_room_than_its_water_and_alkali_weigh(alkali_g, strength):
    water = water_g("lye concentration", strength, alkali_g, 0)

    assert lye_volume_ml(alkali_g, water) < (alkali_g + water) * 1.02


@pytest.mark.parametrize("celsius", [-5, 140, float("nan")])
def test_no_density_at_a_temperature_that_no_jug_has(celsius):
    with pytest.raises(OutOfRange, match="temperature"):
        density_g_per_ml("NaOH", 0.3, celsius)


@pytest.mark.parametrize("w", [-0.1, 0.51])
def test_no_density_of_a_lye_that_cannot_be(w):
    with pytest.raises(OutOfRange, match=r"[Ll]ye"):
        density_g_per_ml("NaOH", w)


def test_no_solubility_of_alkali_in_ice():
    with pytest.raises(OutOfRange, match="Below 0"):
        solubility_limit("NaOH", -1)


def test_the_light_modules_do_not_load_numpy():
    modules = "lye, cooling, mixing, batter, mould, working_time, cure, cut"
    code = f"import sys; from soapbench.science import {modules}; print('numpy' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stdout == "False\n"
