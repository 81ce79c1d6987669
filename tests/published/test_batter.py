import pytest

from soapbench.science.batter import batter_density, batter_volume_ml

# 1000 g of oil (0.905 to 0.915 g/ml at 40 C) and the lye for 144 g of NaOH: worked out apart from this code from
# printed densities of oils and the lye densities of Olsson 1997.
WORKED = [(0.25, 1.010, 1.018), (0.333, 1.005, 1.014), (0.40, 1.001, 1.010), (0.50, 0.994, 1.004)]


@pytest.mark.parametrize(("w", "light", "heavy"), WORKED)
def test_batter_density_equals_the_worked_table(w, light, heavy):
    water = 144 * (1 - w) / w

    assert batter_density([(1000, 0.905)], 144, water) == pytest.approx(light, abs=0.0015)
    assert batter_density([(1000, 0.915)], 144, water) == pytest.approx(heavy, abs=0.0015)


# Factors of the trade for grams of fats per ml of mould by lye strength: 0.69 at 28 %, 0.73 at 33 %, 0.76 at 40 %,
# computed with fats at 0.92 g/ml and lyes of 1.31, 1.36 and 1.43 g/ml.
@pytest.mark.parametrize(("w", "factor"), [(0.28, 0.69), (0.333, 0.73), (0.40, 0.76)])
def test_fats_per_ml_of_mould_equals_the_trade_factor(w, factor):
    alkali = 1000 * 0.1345 * 0.95  # olive oil, 5 % superfat

    volume = batter_volume_ml([(1000, 0.92)], alkali, alkali * (1 - w) / w, temperature_c=25)

    assert 1000 / volume == pytest.approx(factor, abs=0.007)
